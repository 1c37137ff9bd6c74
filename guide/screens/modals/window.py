"""A small window over the sheet: questions, one line for what was not accepted, its buttons."""

from __future__ import annotations

from typing import ClassVar, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.screens.messages import Chosen, Picked
from guide.screens.tongue import say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

Told = TypeVar("Told")


class Window(ModalScreen[Told | None]):
    """Escape or its second button closes it with nothing."""

    DEFAULT_CSS = """
    Window { align: center middle; }
    Window #window { width: 76; max-height: 22; height: auto; background: $background;
        border: solid $primary; padding: 0 1; }
    Window #questions { height: auto; max-height: 16; }
    Window .title { text-style: bold; }
    Window .told { color: $quiet; margin: 0 0 1 0; }
    Window #complaint { color: $error; height: auto; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [("escape", "nothing", "back")]
    title_text = ""
    told_text = ""
    yes = N_("Yes   ⏎")

    def compose(self) -> ComposeResult:
        """Title, questions, complaint, buttons."""
        with Vertical(id="window"):
            yield Static(say(self.title_text), classes="title", markup=False)
            yield Static(say(self.told_text), classes="told", markup=False)
            with VerticalScroll(id="questions", can_focus=False):
                yield from self.questions()
            yield Static("", id="complaint", markup=False)
            yield ActionBar((("yes", say(self.yes)), ("no", say(N_("Back   Esc")))))

    def questions(self) -> ComposeResult:
        """The questions."""
        yield from ()

    def on_mount(self) -> None:
        """Begin at the first question."""
        self.first().focus()

    def first(self) -> Widget:
        """What has the focus at first: the first question, else the last button."""
        asked = self.asked()
        return asked[0] if asked else self.query("ActionBar Press").last()

    def asked(self) -> list[Choices | Field]:
        """The questions in sight, in order."""
        return [each for each in self.query("Choices, Field") if each.display]  # type: ignore[misc]

    def complain(self, sentence: str) -> None:
        """Say what was not accepted."""
        self.query_one("#complaint", Static).update(f"✗ {sentence}" if sentence else "")

    @on(Chosen)
    def _onward(self, event: Chosen) -> None:
        """From a question to the next, after the last to the first button."""
        event.stop()
        self.answered(event.name, event.value)
        if not event.onward:
            return
        questions = self.asked()
        names = [each.name for each in questions]
        rest = questions[names.index(event.name) + 1 :] if event.name in names else []
        if rest:
            rest[0].focus()
        else:
            self.query_one(ActionBar).focus_first()

    def answered(self, name: str, value: str) -> None:
        """What else an answer changes."""

    @on(Picked)
    def _pressed(self, event: Picked) -> None:
        """Yes or back."""
        event.stop()
        if event.name == "no":
            self.dismiss(None)
        else:
            self.confirm()

    def confirm(self) -> None:
        """The first button; a window whose only way is back has none."""

    def action_nothing(self) -> None:
        """Close with nothing."""
        self.dismiss(None)
