"""A question that is answered by typing, or by a tile beside the line where words are usual."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from guide.front.questions import keys_of
from guide.plain import N_
from guide.present.gate_keys import QUIET
from guide.present.value_keys import ENDS
from guide.screens.messages import Chosen
from guide.screens.tongue import say
from guide.screens.widgets.beside_line import UNITS, USUAL, Begun, BesideLine
from guide.screens.widgets.steady import SteadyLine

UNKNOWN = "unknown"
NOT_KNOWN = "."
"""What stands for that on a numeric keypad."""
ALONE = 1.0
"""Seconds after which a digit that nothing came behind was the number of a tile."""
AT_ONCE = 0.01
"""The same where no usual answer begins with a digit: nothing more is waited for."""
COMMANDS = {"*": "screen.star", "/": "screen.question_before"}
"""Signs that begin no answer: where one would begin they are keys."""
PAGES = {"+": "screen.page(1)", "-": "screen.page(-1)"}
"""The same where no answer has a sign of plus or minus."""


class PlainLine(SteadyLine):
    """A line for words or a figure; what stands there is typed over: a keypad has no way back."""

    keys: Mapping[str, str] = COMMANDS
    """What the signs do that begin no answer here."""

    async def _on_key(self, event: events.Key) -> None:
        """A sign that begins no answer is a key where one would begin."""
        if self.is_key(str(event.character)):
            event.stop()
            event.prevent_default()
            await self.run_action(self.keys[str(event.character)])

    def is_key(self, sign: str) -> bool:
        """Whether a sign begins no answer here, and is a key now."""
        return self.begins and sign in self.keys

    @property
    def begins(self) -> bool:
        """Whether the next sign begins an answer: nothing stands there, or all of it is marked."""
        return not self.value or self.marked

    @property
    def marked(self) -> bool:
        """Whether what is typed next stands in the place of all that stands there."""
        return len(self.selected_text) == len(self.value)

    def mark(self) -> None:
        """What is typed next stands in the place of all that stands there."""
        self.selection = Selection(0, len(self.value))

    def on_blur(self) -> None:
        """Whoever comes back types over what stands there."""
        self.select_on_focus = not isinstance(self, DialLine)


class DialLine(PlainLine):
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
            self.mark()


class UnseenLine(SteadyLine):
    """A line for a PIN: neither shown nor copied; whoever comes back to it types it anew."""

    def __init__(self) -> None:
        super().__init__(select_on_focus=True, password=True)

    def action_copy(self) -> None:
        """Nothing goes to the clipboard."""

    def action_cut(self) -> None:
        """Nothing goes to the clipboard, and nothing is lost."""


class Field(Vertical):
    """The question, usual answers, the place to type, its units, what helps, and `unknown`."""

    DEFAULT_CSS = """
    Field { height: auto; margin: 0 0 1 0; }
    Field Input {
        height: 3; border: none; padding: 1 1 0 1; margin: 0 2; background: $panel; max-width: 60;
        border-bottom: hkey $background;
    }
    Field Input:focus { border: none; border-bottom: hkey $accent; background: $surface;
        background-tint: $foreground 0%; text-style: bold; }
    Field Input > .input--placeholder { color: $quiet; }
    Field .question { text-style: bold; }
    Field .help { color: $quiet; padding: 0 2; }
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
        hidden: bool = False,
        usual: Sequence[str] = (),
        units: Sequence[str] = (),
        may_be_blank: bool = False,
        signed: bool = True,
    ) -> None:
        super().__init__(name=name, classes=classes)
        self.question, self.help = question, help
        self.may_be_unknown, self.hands_over = may_be_unknown, hands_over
        self.hidden = hidden
        """Whether what is typed is not shown, as with a PIN."""
        self.usual, self.units = tuple(usual), tuple(units)
        """Answers to pick, and units for a figure that is typed without one."""
        self.may_be_blank = may_be_blank
        """Whether Enter on the usual answers passes the line over."""
        self.stood = value
        """What was put there and not typed: a digit of that is no tile's number."""
        plain = UnseenLine() if hidden else PlainLine(value, select_on_focus=True)
        self.entry = DialLine(value, hands_over) if dial else plain
        """The line to type on; its cursor stands still, as everything here does."""
        self.entry.cursor_blink = False
        if isinstance(self.entry, PlainLine) and not signed:
            self.entry.keys = COMMANDS | PAGES
        if usual and not (dial or hidden):
            self.entry.placeholder = say(N_("or write it here"))

    def compose(self) -> ComposeResult:
        """Question above, usual answers, the line to type on, help and units below."""
        yield Static(f"  {self.question}", classes="question", markup=False)
        if self.help:
            yield Static(self.help, classes="help", markup=False)
        if self.usual:
            yield BesideLine(USUAL, [(each, each) for each in self.usual], self.entry)
        yield self.entry
        if self.units:
            yield BesideLine(UNITS, [(each, each) for each in self.units], self.entry)
        if self.may_be_unknown:
            words = say(N_("not known here (.)"))
            yield BesideLine(UNKNOWN, [(UNKNOWN, words)], self.entry)

    def on_descendant_focus(self) -> None:
        """The sign of the focus comes."""
        self._sign("▸ ")

    def on_descendant_blur(self) -> None:
        """The sign of the focus goes."""
        self._sign("  ")

    def ask(self, question: str) -> None:
        """Another question for the same line."""
        self.question = question
        self._sign("▸ " if self.entry.has_focus else "  ", layout=True)

    def _sign(self, sign: str, layout: bool = False) -> None:
        """The question behind a sign."""
        self.query_one(".question", Static).update(f"{sign}{self.question}", layout=layout)

    def put_back(self, value: str) -> None:
        """What was not taken stands on the line again, so that nothing is lost."""
        if isinstance(self.entry, DialLine):
            self.entry.put_back(value)
        else:
            self.entry.value = value

    def put(self, value: str) -> None:
        """What is known already stands on the line."""
        self.entry.value = self.stood = value

    def retype(self) -> None:
        """What was not taken is marked, and typed over."""
        self.entry.focus()
        if isinstance(self.entry, PlainLine):
            self.entry.mark()

    @property
    def value(self) -> str:
        """What is typed, without gaps around it; what is hidden is taken as it is."""
        if self.hidden:
            return self.entry.value
        told = self.entry.value.strip()
        return self._meant(told) or told

    def beside(self, name: str) -> BesideLine | None:
        """A row of tiles of this line."""
        return next((each for each in self.query(BesideLine) if each.name == name), None)

    def focus(self, scroll_visible: bool = True) -> Field:
        """The focus belongs on the usual answers while there is none, else on the line.

        The whole of it comes in sight, the question too.
        """
        usual = None if self.value else self.beside(USUAL)
        return self._to(usual or self.entry, scroll_visible)

    def _to(self, part: Widget, scroll_visible: bool = True) -> Field:
        """The focus on one part."""
        part.focus(scroll_visible=False)
        if scroll_visible:
            self.call_after_refresh(self.scroll_visible, animate=False)
        return self

    @on(Input.Submitted)
    def _typed(self, event: Input.Submitted) -> None:
        """Enter goes on: to the units for a bare figure that has some, else to the next line."""
        event.stop()
        told = event.value if self.hidden else event.value.strip()
        if told == NOT_KNOWN and self.may_be_unknown:
            self._answer(UNKNOWN)
        elif meant := self._meant(told):
            self._answer(meant)
        elif (units := self.beside(UNITS)) and is_bare(told):
            self._to(units)
        else:
            self.post_message(Chosen(self.name or "", "" if self.hidden else told, True))

    def _meant(self, told: str) -> str:
        """The words on the tile whose number was typed; blank where that is none."""
        keys = () if told == self.stood else keys_of(self.usual, digits=1)
        return self.usual[keys.index(told)] if told in keys else ""

    @on(Begun)
    def _begun(self, event: Begun) -> None:
        """A digit is a tile's number once nothing came behind it for a while."""
        event.stop()
        if self._meant(event.sign):
            goes_on = any(each[:1].isdecimal() for each in self.usual)
            self.set_timer(ALONE if goes_on else AT_ONCE, partial(self._alone, event.sign))

    def _alone(self, sign: str) -> None:
        """The tile of a digit that still stands alone."""
        if self.entry.has_focus and self.entry.value == sign:
            self._answer(self._meant(sign))

    @on(Input.Changed)
    def _typing(self) -> None:
        """Nobody types on a line that is out of sight."""
        if self.entry.has_focus:
            self.scroll_visible(animate=False)

    @on(Chosen)
    def _picked(self, event: Chosen) -> None:
        """A tile beside the line is its answer, or the unit of the figure on it."""
        if event.name in (USUAL, UNITS, UNKNOWN):
            event.stop()
            figure = self.value if is_bare(self.value) else figure_of(self.value)
            if event.name == UNITS and not figure:
                self.entry.focus()
            elif self.may_be_blank and not event.value:
                self._answer("")
            elif event.value:
                self._answer(f"{figure} {event.value}" if event.name == UNITS else event.value)
            else:
                self.entry.focus()

    def _answer(self, words: str) -> None:
        """An answer that was picked stands on the line."""
        self.entry.value = words
        self.post_message(Chosen(self.name or "", words, True))


def is_bare(text: str) -> bool:
    """Whether a figure stands there without a unit."""
    return bool(text) and text[-1].isdecimal() and not any(each.isalpha() for each in text)


def figure_of(text: str) -> str:
    """The figure before a unit; blank where there is none."""
    figure = text.rstrip("".join(each for each in text if not each.isdecimal()))
    return figure if is_bare(figure) else ""
