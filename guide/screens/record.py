"""One setup to be read only: its sheet from the first line to the last."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.widgets import Static

from guide.plain import N_
from guide.present.entered import marks
from guide.present.labels import PLACE
from guide.present.sheet import lines
from guide.present.visible import visible
from guide.screens.page import Page
from guide.screens.sheet_text import done_lines
from guide.screens.tongue import language, say, written
from guide.walk.setup import Setup


class RecordScreen(Page[None]):
    """Nothing can be entered here."""

    def __init__(self, setup: Setup) -> None:
        super().__init__()
        self.setup = setup

    def title_line(self) -> str:
        """What is not real, which record, how it stands."""
        state, step = self.setup.state, self.setup.step
        stands = visible(written(step.title)) if step else say(PLACE[state.place])
        told = (*marks(state, language()), say(N_("Record")), visible(state.facts.get("lathe", "")),
                visible(written(self.setup.procedure.title)), stands)  # fmt: skip
        return " · ".join(told)

    def body(self) -> ComposeResult:
        """Every line of the sheet."""
        told = lines(self.setup.state, self.setup.procedure, language())
        yield Static(done_lines(told), id="record", markup=False)
