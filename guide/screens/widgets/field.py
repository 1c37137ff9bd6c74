"""A question that is answered by typing."""

from __future__ import annotations

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from guide.plain import N_
from guide.present.gate_keys import QUIET
from guide.present.value_keys import ENDS
from guide.screens.messages import Chosen, Picked
from guide.screens.tongue import say
from guide.screens.widgets.press import Press

UNKNOWN = "unknown"


class DialLine(Input):
    """A line that a dial may type on: Enter or Tab ends a value before any later key is looked at.

    What cannot be taken is put back, marked, so that the next value stands in its place.
    """

    def __init__(self, value: str, hands_over: bool) -> None:
        super().__init__(value, select_on_focus=False)
        self.hands_over = hands_over
        """Whether a value leaves the line when it is ended."""
        self.ended = float("-inf")
        """When a value was ended last."""

    async def _on_key(self, event: events.Key) -> None:
        """Enter or Tab behind a value; right behind one of them the other means nothing."""
        if event.key not in ENDS or (event.key == "tab" and self._left(event.time)):
            return
        event.stop()
        event.prevent_default()
        if self.value.strip() or not self._tail(event.time):
            self.ended = event.time if self.value.strip() else self.ended
            await self.action_submit()

    def _left(self, at: float) -> bool:
        """Whether Tab leaves the line: it is blank, and nothing was ended a moment ago."""
        return not self.value.strip() and not self._tail(at)

    def _tail(self, at: float) -> bool:
        """Whether a key is the second end of one value."""
        return at - self.ended < QUIET

    async def action_submit(self) -> None:
        """Hand the value over as it stands now."""
        value = self.value
        if self.hands_over:
            self.value = ""
        self.post_message(self.Submitted(self, value))

    def put_back(self, value: str) -> None:
        """A value that was not taken, unless the next one has begun."""
        if self.value in ("", value):
            self.value = value
            self.selection = Selection(0, len(value))


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
        dial: bool = False,
        hands_over: bool = False,
    ) -> None:
        super().__init__(name=name, classes=classes)
        self.question, self.help = question, help
        self.may_be_unknown, self.hands_over = may_be_unknown, hands_over
        self.entry = DialLine(value, hands_over) if dial else Input(value, select_on_focus=False)
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

    def put_back(self, value: str) -> None:
        """What was not taken stands on the line again, so that nothing is lost."""
        if isinstance(self.entry, DialLine):
            self.entry.put_back(value)
        else:
            self.entry.value = value

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
        self.post_message(Chosen(self.name or "", event.value.strip(), True))

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
