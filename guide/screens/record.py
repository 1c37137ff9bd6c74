"""One setup to be read only: its sheet from the first line to the last."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widgets import Static

from guide.plain import N_
from guide.present.entered import marks
from guide.present.labels import PLACE
from guide.present.sheet import lines
from guide.present.visible import visible
from guide.screens.sheet_text import done_lines
from guide.screens.tongue import language, say
from guide.screens.widgets.command_line import CommandLine, Given
from guide.walk.setup import Setup


class RecordScreen(Screen[None]):
    """Nothing can be entered here."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,f10", "back", show=False)]

    def __init__(self, setup: Setup) -> None:
        super().__init__()
        self.setup = setup

    def compose(self) -> ComposeResult:
        """Head, lines, how it stands."""
        state, procedure = self.setup.state, self.setup.procedure
        step = self.setup.step
        stands = visible(step.title) if step else say(PLACE[state.place])
        foot = CommandLine()
        foot.offer([("leave", "F10", say(N_("back")))])
        told = (*marks(state, language()), say(N_("Record")), visible(state.facts.get("lathe", "")),
                visible(procedure.title), stands)  # fmt: skip
        yield Static(" · ".join(told), id="head", markup=False)
        with VerticalScroll(id="record"):
            yield Static(done_lines(lines(state, procedure, language())), markup=False)
        yield foot

    @on(Given)
    def action_back(self) -> None:
        """Back to the start page."""
        self.dismiss(None)
