"""The lessons to choose from, and a chuck drawn from a seed."""

from __future__ import annotations

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widgets import Static

from guide.plain import N_
from guide.practice.lesson import DRAWN
from guide.practice.lessons import LESSONS
from guide.screens.messages import Picked
from guide.screens.tongue import say
from guide.screens.widgets.press import Press

ABOUT = N_(
    "A simulated chuck, bar, spindle and dial: the same sheet and the same gates, and no lathe."
    " Every page of it says practice, for ever."
)


class LessonsScreen(Screen[str]):
    """Gives back the name of a lesson, `drawn`, or a blank for nothing."""

    DEFAULT_CSS = """
    LessonsScreen #about { color: $quiet; padding: 0 2; height: auto; }
    LessonsScreen #rows { height: 1fr; padding: 0 2; }
    LessonsScreen #title { background: $panel; color: $accent; text-style: bold; padding: 0 2; }
    LessonsScreen #keys { color: $quiet; padding: 0 2; }
    LessonsScreen Press { background: $background; }
    LessonsScreen Press:hover { background: $panel; }
    LessonsScreen Press:focus { background: $primary; }
    LessonsScreen #learn { color: $accent; padding: 0 2; height: 2; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,f10", "back", show=False)]

    def compose(self) -> ComposeResult:
        """Title, rows, what the lit row teaches."""
        yield Static(say(N_("Practise on a simulated chuck")), id="title", markup=False)
        yield Static(say(ABOUT), id="about", markup=False)
        with VerticalScroll(id="rows", can_focus=False):
            for number, each in enumerate(LESSONS, start=1):
                yield Press(each.name, f"{number:>2}  {say(each.title)}")
            any_chuck = say(N_("Any chuck, drawn from a seed"))
            yield Press(DRAWN, f"    {any_chuck}")
        yield Static("", id="learn", markup=False)
        keys = N_("↑ ↓ choose   Enter begin   q back   or click a line")
        yield Static(say(keys), id="keys", markup=False)

    def on_mount(self) -> None:
        """Begin at the first lesson."""
        self.query(Press).first().focus()

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        """What the lesson teaches."""
        self.query_one("#learn", Static).update(self._learn(event.widget.name or ""))

    def _learn(self, name: str) -> str:
        """The sentence of a row."""
        found = next((each for each in LESSONS if each.name == name), None)
        if found is not None:
            return say(found.learn)
        return say(N_("Nobody tells what is wrong with it; the same seed gives the same chuck."))

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        """A row was pressed."""
        event.stop()
        self.dismiss(event.name)

    def action_back(self) -> None:
        """Back to the start page."""
        self.dismiss("")
