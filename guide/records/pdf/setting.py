"""Text set into lines of a width, as shapes with their height."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from guide.records.drawing import BLACK, Shape, Words, moved
from guide.records.pdf.type import shown, width

LEADING = 1.24
"""Line to line, in sizes of the type."""
SMALLEST = 7.0
"""Points: nothing is set smaller."""
GOES_ON = " …"


@dataclass(frozen=True, slots=True)
class Style:
    """How a text is set."""

    size: float = 8.5
    bold: bool = False
    even: bool = False
    ink: str = BLACK

    def wide(self, text: str) -> float:
        """How wide a text is in this style."""
        return width(text, self.size, bold=self.bold, even=self.even)

    @property
    def line(self) -> float:
        """From one line to the next."""
        return self.size * LEADING


@dataclass(frozen=True, slots=True)
class Piece:
    """Shapes from the top left of a column, and how high they are."""

    height: float
    shapes: tuple[Shape, ...]


def text(
    told: str, wide: float, style: Style, *, x: float = 0.0, at: str = "start", most: int = 0
) -> Piece:
    """A text as lines; with `most`, what does not fit into so many ends in an ellipsis."""
    lines = tuple(lined(told, wide, style, most))
    first = style.size * 0.97
    place = {"start": x, "middle": x + wide / 2, "end": x + wide}[at]
    shapes = tuple(
        set_line(place, first + number * style.line, each, style, at)
        for number, each in enumerate(lines)
    )
    return Piece(len(lines) * style.line, shapes)


def set_line(x: float, y: float, told: str, style: Style, at: str = "start") -> Words:
    """One line in a style."""
    return Words(x, y, told, style.size, style.bold, at, style.ink, style.even)


def lined(told: str, wide: float, style: Style, most: int = 0) -> Iterator[str]:
    """The lines of a text, none wider than `wide`; a word that is gets cut between signs."""
    made = list(_filled(shown(told), wide, style))
    if most and len(made) > most:
        yield from made[: most - 1]
        yield _cut(made[most - 1], wide, style)
    else:
        yield from made


def _cut(line: str, wide: float, style: Style) -> str:
    """A line with a sign at its end that it goes on."""
    while line and style.wide(line + GOES_ON) > wide:
        line = line[:-1]
    return line.rstrip() + GOES_ON


def _filled(told: str, wide: float, style: Style) -> Iterator[str]:
    """Words put side by side while they fit."""
    line = ""
    for word in told.split(" "):
        longer = f"{line} {word}" if line else word
        if style.wide(longer) <= wide:
            line = longer
            continue
        if line:
            yield line
        *whole, line = _pieces(word, wide, style)
        yield from whole
    if line:
        yield line


def _pieces(word: str, wide: float, style: Style) -> Iterator[str]:
    """A word in pieces that fit."""
    piece = ""
    for sign in word:
        if piece and style.wide(piece + sign) > wide:
            yield piece
            piece = ""
        piece += sign
    yield piece


def stacked(*pieces: Piece, gap: float = 0.0) -> Piece:
    """Pieces one under the other."""
    shapes: list[Shape] = []
    down = 0.0
    for number, each in enumerate(pieces):
        down += gap if number else 0.0
        shapes += moved(each.shapes, 0, down)
        down += each.height
    return Piece(down, tuple(shapes))


def beside(*pieces: tuple[float, Piece]) -> Piece:
    """Pieces side by side, each at its distance from the left."""
    shapes = tuple(shape for x, each in pieces for shape in moved(each.shapes, x, 0))
    return Piece(max((each.height for _, each in pieces), default=0.0), shapes)


def padded(piece: Piece, above: float = 0.0, below: float = 0.0) -> Piece:
    """A piece with room above and below it."""
    return replace(piece, height=piece.height + above + below, shapes=moved(piece.shapes, 0, above))
