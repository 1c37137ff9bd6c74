"""The start page: open setups to go on with, procedures to begin, finished records to read.

Only what the first picture needs is imported here; the journal and the procedures are read after
it has been painted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.screens.page import Offer, Page, TileGrid, heading, numbered, quiet
from guide.screens.tongue import language, say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.press import Press

if TYPE_CHECKING:
    from guide.front.shelf import Glance, Section
    from guide.screens.app import Spindleside

SOON = 0.02
"""Seconds after which the first picture has been painted."""
DAMAGED = N_(
    "The file settings.json beside the journal cannot be read as a whole: for what cannot, the"
    " usual settings stand. Choose again; the file is then set aside, not lost."
)
UNFIT = N_("In the environment {names} says what cannot be chosen, and counts for nothing.")
ABOUT = N_("Walk a lathe setup step by step, true a chuck, and know who did what.")


class StartPage(Page[None]):
    """The first screen."""

    DEFAULT_CSS = """
    StartPage #title { padding: 1 2 0 2; }
    StartPage #about { height: auto; padding: 0 2 1 2; background: $panel; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("q,escape,f10", "back", "quit")]
    app: Spindleside
    title_text = "spindleside"

    def body(self) -> ComposeResult:
        """The tiles come when the journal is read."""
        yield quiet(say(N_("Reading the journal …")))

    def above(self) -> ComposeResult:
        """What this is."""
        yield Static(say(ABOUT), id="about", markup=False)

    def foot(self) -> tuple[Offer, ...]:
        """The way out."""
        return (("back", say(N_("Leave   q"))),)

    def on_mount(self) -> None:
        """Read the journal once the first picture is there."""
        self.set_timer(SOON, self.fill)

    async def fill(self) -> None:
        """All tiles afresh."""
        from guide.front.shelf import few_to_begin, sections

        rows = self.query_one("#rows")
        parts = list(_parts(sections(self._glance(), few_to_begin())))
        with self.app.batch_update():
            await rows.remove_children()
            await rows.mount_all(parts)
        for first in list(self.query("#rows Press"))[:1]:
            first.focus(scroll_visible=False)
            rows.scroll_home(animate=False)

    async def say_anew(self) -> None:
        """The whole page in the language that is spoken now."""
        await self.recompose()
        await self.fill()

    def _glance(self) -> Glance:
        """What the journal says; where it cannot be read, one sentence says so and nothing else."""
        from guide.front.shelf import Glance, glance
        from guide.plain import Refusal
        from guide.present.words import refused

        try:
            told = glance(self.app.settings)
        except Refusal as refusal:
            self.complain(refused(refusal, language()))
            return Glance()
        if told.amiss:
            self.complain(told.amiss)
        elif self.app.settings.damaged:
            self.complain(say(DAMAGED))
        elif unfit := self.app.settings.unfit:
            self.complain(say(UNFIT, names=", ".join(unfit)))
        return told

    async def picked(self, name: str) -> None:
        """Go on with a setup, begin one, or read a record."""
        self.complain("")
        what, _, which = name.partition(":")
        self.app.open_row(what, which)

    def action_star(self) -> None:
        """The way out has the focus, so that one touch too many ends nothing."""
        self.query_one(ActionBar).focus_first()

    def action_back(self) -> None:
        """End the program."""
        self.app.exit()


def _parts(sections: Iterable[Section]) -> Iterator[Widget]:
    """A heading and tiles for each section; the tiles are numbered through."""
    number = count(1)
    for title, empty, listed in sections:
        yield heading(say(title))
        if listed:
            yield TileGrid(*(Press(row.name, numbered(next(number), row.label)) for row in listed))
        else:
            yield quiet(say(empty))
