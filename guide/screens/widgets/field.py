"""A question that is answered by typing."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, Static

from guide.plain import N_
from guide.screens.messages import Chosen, Picked
from guide.screens.tongue import say
from guide.screens.widgets.press import Press

UNKNOWN = "unknown"


class Field(Vertical):
    """The question, the place to type, what helps to answer, and `unknown` where it is allowed."""

    DEFAULT_CSS = """
    Field { height: auto; margin: 0 0 1 0; }
    Field Input {
        height: 1; border: none; padding: 0 1; margin: 0 2; background: $panel; max-width: 60;
    }
    Field Input:focus { border: none; background: $surface; text-style: bold; }
    Field .question { text-style: bold; }
    Field .help { color: $quiet; padding: 0 2; }
    Field Press { width: auto; margin: 0 1; background: $background; color: $quiet; }
    Field Press:focus { background: $primary; color: $background; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]

    def __init__(
        self,
        name: str,
        question: str,
        *,
        value: str = "",
        help: str = "",
        may_be_unknown: bool = False,
        classes: str = "",
    ) -> None:
        super().__init__(name=name, classes=classes)
        self.question, self.help = question, help
        self.may_be_unknown = may_be_unknown
        self.entry = Input(value, select_on_focus=False)
        """The line to type on; its cursor stands still, as everything here does."""
        self.entry.cursor_blink = False

    def compose(self) -> ComposeResult:
        """Question above, the line to type on, help below."""
        yield Static(f"  {self.question}", classes="question", markup=False)
        yield self.entry
        if self.help:
            yield Static(self.help, classes="help", markup=False)
        if self.may_be_unknown:
            yield Press(UNKNOWN, say(N_("○ not known here: answer “unknown”")))

    def on_descendant_focus(self) -> None:
        """The sign of the focus comes."""
        self._sign("▸ ")

    def on_descendant_blur(self) -> None:
        """The sign of the focus goes."""
        self._sign("  ")

    def ask(self, question: str) -> None:
        """Another question for the same line."""
        self.question = question
        self._sign("▸ " if self.entry.has_focus else "  ")

    def _sign(self, sign: str) -> None:
        """The question behind a sign."""
        self.query_one(".question", Static).update(f"{sign}{self.question}")

    @property
    def value(self) -> str:
        """What is typed, without gaps around it."""
        return self.entry.value.strip()

    def focus(self, scroll_visible: bool = True) -> Field:
        """The focus belongs on the line to type on."""
        self.entry.focus(scroll_visible)
        return self

    @on(Input.Submitted)
    def _typed(self, event: Input.Submitted) -> None:
        """Enter goes on to the next line."""
        event.stop()
        self.post_message(Chosen(self.name or "", self.value, True))

    @on(Input.Changed)
    def _typing(self) -> None:
        """Nobody types on a line that is out of sight."""
        if self.entry.has_focus:
            self.scroll_visible(animate=False)

    @on(Picked)
    def _not_known(self, event: Picked) -> None:
        """`unknown` is an answer."""
        event.stop()
        self.entry.value = UNKNOWN
        self.post_message(Chosen(self.name or "", UNKNOWN, True))
