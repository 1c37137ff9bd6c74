"""A question with its answers to choose from: by number, by left and right, or by a click."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Offset, Size
from textual.reactive import reactive
from textual.widget import Widget

from guide.screens.messages import Chosen

Option = tuple[str, str]
"""A value and its words."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a drawn line; `option` is the number of the answer it belongs to, from 0."""

    text: str
    style: str
    option: int | None = None


class Choices(Widget, can_focus=True):
    """Every answer is in sight at all times and none is chosen beforehand unless it is given."""

    DEFAULT_CSS = """
    Choices { height: auto; padding: 0; margin: 0 0 1 0; text-wrap: nowrap; }
    Choices.tight { margin: 0; }
    Choices:focus { background: $surface; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", show=False),
        Binding("right", "step(1)", show=False),
        Binding("enter,space", "onward", show=False),
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]
    chosen: reactive[str] = reactive("", layout=False)
    options: reactive[tuple[Option, ...]] = reactive((), layout=True)

    def __init__(
        self,
        name: str,
        question: str,
        options: Sequence[Option],
        *,
        chosen: str = "",
        note: str = "",
        help: str = "",
        stacked: bool = True,
        classes: str = "",
    ) -> None:
        super().__init__(name=name, classes=classes)
        self.question, self.note, self.help, self.stacked = question, note, help, stacked
        self.set_reactive(Choices.options, tuple(options))
        self.set_reactive(Choices.chosen, chosen)

    @property
    def value(self) -> str:
        """The chosen value, blank for none."""
        return self.chosen

    def offer(self, options: Sequence[Option]) -> None:
        """Other answers from now on; a chosen one that is not among them is taken back."""
        self.options = tuple(options)
        if self.chosen not in dict(options):
            self.chosen = ""

    def choose(self, place: int, onward: bool) -> None:
        """Choose by place, from 0."""
        if 0 <= place < len(self.options):
            self.chosen = self.options[place][0]
            self.scroll_visible(animate=False)
            self.post_message(Chosen(self.name or "", self.chosen, onward))

    def action_step(self, by: int) -> None:
        """Choose the answer beside the chosen one."""
        values = [value for value, _ in self.options]
        now = values.index(self.chosen) if self.chosen in values else (-1 if by > 0 else 0)
        self.choose((now + by) % len(values), onward=False)

    def action_onward(self) -> None:
        """Go on to the next line with what is chosen here."""
        if self.chosen:
            self.post_message(Chosen(self.name or "", self.chosen, True))

    def on_key(self, event: events.Key) -> None:
        """A number chooses."""
        if event.key.isdecimal() and 1 <= int(event.key) <= len(self.options):
            self.choose(int(event.key) - 1, onward=True)

    def on_click(self, event: events.Click) -> None:
        """A click on an answer chooses it."""
        hit = self.option_at(event.x, event.y)
        if hit is not None:
            self.choose(hit, onward=True)

    def option_at(self, x: int, y: int) -> int | None:
        """The answer drawn at a place of this widget; stacked answers take their whole line."""
        lines = self._lines(self.size.width)
        if not 0 <= y < len(lines):
            return None
        column = 0
        for piece in lines[y]:
            column += len(piece.text)
            if x < column:
                return piece.option
        return lines[y][-1].option if self.stacked and lines[y] else None

    def spot(self, value: str) -> Offset:
        """Where an answer is drawn, for a pointer."""
        for y, line in enumerate(self._lines(self.size.width)):
            column = 0
            for piece in line:
                if piece.option is not None and self.options[piece.option][0] == value:
                    return Offset(column + 1, y)
                column += len(piece.text)
        raise KeyError(value)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many lines as it takes at this width."""
        return len(self._lines(width))

    def render(self) -> Content:
        """Question, answers, help."""
        lines = self._lines(self.size.width)
        return Content("\n").join(
            Content.assemble(*((piece.text, piece.style) for piece in line)) for line in lines
        )

    def watch_has_focus(self, has_focus: bool) -> None:
        """The focus sign moves."""
        super().watch_has_focus(has_focus)
        self.refresh()

    def _lines(self, width: int) -> list[list[Piece]]:
        """Everything that is drawn, line by line."""
        sign = "▸ " if self.has_focus else "  "
        title = f"{sign}{self.question}"
        first = [[Piece(each, "bold")] for each in _wrapped(title, width)]
        note = [[Piece(f"  {each}", "$quiet")] for each in _wrapped(self.note, width - 2)]
        told = [[Piece(f"  {each}", "$quiet")] for each in _wrapped(self.help, width - 2)]
        if len(first) == 1 and len(note) == 1 and len(title) + len(self.note) + 3 < width:
            first[0].append(Piece(f"   {self.note}", "$quiet"))
            note = []
        return [*first, *note, *told, *(self._stack(width) if self.stacked else self._row(width))]

    def _stack(self, width: int) -> Iterator[list[Piece]]:
        """One answer a line, longer ones on more."""
        for place in range(len(self.options)):
            for number, part in enumerate(_wrapped(self._words(place), width - 8)):
                text = f"    {part}" if number == 0 else f"        {part}"
                yield [Piece(text, self._style(place), place)]

    def _row(self, width: int) -> Iterator[list[Piece]]:
        """Answers beside each other, as many as fit."""
        line, used = [Piece("   ", "")], 3
        for place in range(len(self.options)):
            text = f" {self._words(place)} "
            if used + len(text) + 1 > width and used > 3:
                yield line
                line, used = [Piece("   ", "")], 3
            line += [Piece(text[: width - 4], self._style(place), place), Piece(" ", "")]
            used += len(text) + 1
        yield line

    def _words(self, place: int) -> str:
        """Sign, number and words of an answer."""
        value, words = self.options[place]
        return f"{'●' if value == self.chosen else '○'} {place + 1} {words}"

    def _style(self, place: int) -> str:
        """A chosen answer stands out by its sign first."""
        return "bold $accent" if self.options[place][0] == self.chosen else ""


def _wrapped(text: str, width: int) -> list[str]:
    """Words on lines."""
    from textwrap import wrap

    return wrap(text, max(width, 12)) if text else []
