"""A question with its answers to choose from: by number, by left and right, or by a touch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar

from rich.cells import cell_len
from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Offset, Size
from textual.reactive import reactive
from textual.widget import Widget

from guide.front.questions import POINT, Option, keys_of, must_be_known, none_of
from guide.screens.messages import Chosen, Complaint
from guide.screens.widgets.tiles import Piece, Tile, tiled
from guide.screens.widgets.wrapped import wrapped

__all__ = ["Choices", "Option"]

OPEN, CHOSEN = "on $panel", "bold $background on $primary"
EDGE_OF = {OPEN: "$background on $panel", CHOSEN: "$background on $primary"}
"""How a tile's face looks, and the edge that ends it."""
UNKNOWN = "unknown"
"""The answer that a point stands for."""


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
        Binding("slash", "screen.question_before", show=False),
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
        classes: str = "",
    ) -> None:
        super().__init__(name=name, classes=classes)
        self.question, self.note, self.help = question, note, help
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
        """Go on to the next line with what is chosen here; with nothing chosen, show it."""
        self.scroll_visible(animate=False)
        if self.chosen:
            self.post_message(Chosen(self.name or "", self.chosen, True))

    @property
    def keys(self) -> tuple[str, ...]:
        """What is pressed for each answer: an answer that is a digit is pressed as that digit."""
        return keys_of([value for value, _ in self.options], digits=1)

    def place_of(self, sign: str) -> int | None:
        """The place of the answer that a key chooses, from 0; None where it chooses none."""
        values = [value for value, _ in self.options]
        if sign == POINT and UNKNOWN in values:
            return values.index(UNKNOWN)
        return self.keys.index(sign) if sign in self.keys else None

    def press(self, sign: str, onward: bool = True) -> None:
        """A key: it chooses an answer, or it is said what would."""
        place = self.place_of(sign)
        if place is not None:
            self.choose(place, onward)
        elif sign == POINT:
            self.post_message(Complaint(must_be_known()))
        else:
            keys = [each for each in self.keys if len(each) == 1]
            self.post_message(Complaint(none_of(sign, keys)))

    def on_key(self, event: events.Key) -> None:
        """A number chooses, and a point where `not known` is an answer."""
        sign = event.character or ""
        if event.key.isdecimal() or sign == POINT:
            self.press(sign or event.key)

    def on_click(self, event: events.Click) -> None:
        """A click on an answer chooses it."""
        hit = self.option_at(event.x, event.y)
        if hit is not None:
            self.choose(hit, onward=True)

    def option_at(self, x: int, y: int) -> int | None:
        """The answer whose tile is at a place of this widget."""
        lines = self._lines(self.size.width)
        column = 0
        for piece in lines[y] if 0 <= y < len(lines) else []:
            column += cell_len(piece.text)
            if x < column:
                return piece.option
        return None

    def spot(self, value: str) -> Offset:
        """Where an answer is drawn, for a pointer."""
        for y, line in enumerate(self._lines(self.size.width)):
            column = 0
            for piece in line:
                if piece.option is not None and self.options[piece.option][0] == value:
                    return Offset(column + 1, y)
                column += cell_len(piece.text)
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
        first = [[Piece(each, "bold")] for each in wrapped(title, width)]
        note = [[Piece(f"  {each}", "$quiet")] for each in wrapped(self.note, width - 2)]
        told = [[Piece(f"  {each}", "$quiet")] for each in wrapped(self.help, width - 2)]
        if len(first) == 1 and len(note) == 1 and len(title) + len(self.note) + 3 < width:
            first[0].append(Piece(f"   {self.note}", "$quiet"))
            note = []
        return [*first, *note, *told, *tiled(list(self._tiles()), width)]

    def _tiles(self) -> Iterator[Tile]:
        """A tile for each answer; the chosen one stands out by its sign first."""
        for place, (value, _) in enumerate(self.options):
            face = CHOSEN if value == self.chosen else OPEN
            yield Tile(self._words(place), face, EDGE_OF[face])

    def _words(self, place: int) -> str:
        """Sign, number and words of an answer."""
        value, words = self.options[place]
        return f"{'●' if value == self.chosen else '○'} {self.keys[place]} {words}"
