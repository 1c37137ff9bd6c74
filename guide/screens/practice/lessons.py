"""The lessons to choose from, and a chuck drawn from a seed."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.widgets import Static

from guide.plain import N_
from guide.practice.lesson import DRAWN
from guide.practice.lessons import LESSONS
from guide.screens.page import Page, TileGrid, numbered, quiet
from guide.screens.tongue import say
from guide.screens.widgets.press import Press

ABOUT = N_(
    "A simulated chuck, bar, spindle and dial: the same sheet and the same gates, and no lathe."
    " Every page of it says practice, for ever."
)


class LessonsScreen(Page[str]):
    """Gives back the name of a lesson, `drawn`, or a blank for nothing."""

    DEFAULT_CSS = "LessonsScreen #learn { color: $accent; padding: 0 2; height: 2; }"
    title_text = N_("Practise on a simulated chuck")

    def body(self) -> ComposeResult:
        """A tile for each lesson, and one for any chuck."""
        yield quiet(say(ABOUT))
        lessons = enumerate(LESSONS, 1)
        tiles = [Press(each.name, numbered(n, say(each.title))) for n, each in lessons]
        yield TileGrid(*tiles, Press(DRAWN, say(N_("Any chuck, drawn from a seed"))))

    def below(self) -> ComposeResult:
        """What the lit tile teaches."""
        yield Static("", id="learn", markup=False)

    def on_mount(self) -> None:
        """Begin at the first lesson."""
        self.query(Press).first().focus()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """What the lesson teaches."""
        self.query_one("#learn", Static).update(self._learn(event.widget.name or ""))

    def _learn(self, name: str) -> str:
        """The sentence of a tile."""
        found = next((each for each in LESSONS if each.name == name), None)
        if found is not None:
            return say(found.learn)
        if name != DRAWN:
            return ""
        return say(N_("Nobody tells what is wrong with it; the same seed gives the same chuck."))

    async def picked(self, name: str) -> None:
        """A lesson was chosen."""
        self.dismiss(name)

    def action_back(self) -> None:
        """Back to the start page."""
        self.dismiss("")
