"""A small grid of dots, each with the ink of what was drawn on it last, and the cells it becomes.

A terminal's cell is twice as high as it is wide. One unit of length here is the width of a cell, so
a cell is one unit wide and two high, and what is round in units is round on the screen.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import ceil, floor, hypot
from typing import NamedTuple

BLOCKS, BRAILLE, PLAIN = "blocks", "braille", "plain"
"""Filled half-blocks; braille dots; signs that every terminal has."""
STYLES = (BLOCKS, BRAILLE, PLAIN)
DOTS = {BLOCKS: (1, 2), BRAILLE: (2, 4), PLAIN: (1, 1)}
"""Dots in a cell, across and down; those of blocks and braille are as wide as they are high."""
BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot of a braille cell, row by row (the Unicode Standard, Braille Patterns)."""
PAPER = "paper"
"""The ink that is the ground of the page, for what is left out of a filled cell."""
LEAN = 0.55
"""How much of its own width a dot may stand off a line and still belong to it."""


class Cell(NamedTuple):
    """One place of the terminal: its sign, the ink of the sign, and the ink behind it or blank."""

    sign: str = " "
    ink: str = ""
    ground: str = ""


Row = tuple[Cell, ...]
Rows = tuple[Row, ...]
Inside = Callable[[float, float], bool]
"""Whether a place, in units from the top left, belongs to a shape."""
Box = tuple[float, float, float, float]
"""Left, top, right and bottom, in units."""


class Canvas:
    """So many columns and lines of cells to draw on; every shape covers what was there before."""

    def __init__(self, columns: int, lines: int, style: str = BLOCKS) -> None:
        self.columns, self.lines, self.style = columns, lines, style
        self.across, self.down = DOTS[style]
        self.dots = [[""] * (columns * self.across) for _ in range(lines * self.down)]

    @property
    def size(self) -> float:
        """The longer side of a dot."""
        return 2 / self.down

    def paint(self, inside: Inside, ink: str, box: Box | None = None) -> None:
        """Give an ink to every dot whose middle is inside; a box around it saves looking."""
        left, top, right, bottom = box or (0, 0, self.columns, 2 * self.lines)
        high, wide = 2 / self.down, 1 / self.across
        for j in range(max(floor(top / high), 0), min(ceil(bottom / high), len(self.dots))):
            row, y = self.dots[j], (j + 0.5) * high
            for i in range(max(floor(left / wide), 0), min(ceil(right / wide), len(row))):
                if inside((i + 0.5) * wide, y):
                    row[i] = ink

    def disc(self, x: float, y: float, radius: float, ink: str) -> None:
        """Everything within a radius."""
        box = (x - radius, y - radius, x + radius, y + radius)
        self.paint(lambda u, v: hypot(u - x, v - y) <= radius, ink, box)

    def ring(self, x: float, y: float, radius: float, ink: str, thick: float = 0.0) -> None:
        """A rim whose outside is at a radius; as thick as a dot at the least."""
        inner = radius - max(thick, self.size)
        box = (x - radius, y - radius, x + radius, y + radius)
        self.paint(lambda u, v: inner < hypot(u - x, v - y) <= radius, ink, box)

    def bar(
        self, start: tuple[float, float], end: tuple[float, float], thick: float, ink: str
    ) -> None:
        """A straight bar with square ends from one place to another."""
        (x, y), (long, along) = start, _length(start, end)
        ease = max(thick / 2, LEAN * self.size)

        def inside(u: float, v: float) -> bool:
            on = (u - x) * along[0] + (v - y) * along[1]
            off = (v - y) * along[0] - (u - x) * along[1]
            return 0 <= on <= long and abs(off) <= ease

        self.paint(inside, ink)

    def column(self, place: int, top: float, bottom: float, ink: str) -> None:
        """A column of dots by its number, from one height to another, both dots included."""
        most = len(self.dots) - 1
        first, last = (min(max(int(y / 2 * self.down), 0), most) for y in (top, bottom))
        for j in range(first, last + 1):
            self.dots[j][place] = ink

    def cells(self, signs: Mapping[str, str] | None = None) -> Rows:
        """What the terminal shows; for the plain style the sign of each ink."""
        make = {BLOCKS: self._block, BRAILLE: self._braille, PLAIN: self._plain(signs or {})}
        cell = make[self.style]
        return tuple(
            tuple(cell(column, line) for column in range(self.columns))
            for line in range(self.lines)
        )

    def _block(self, column: int, line: int) -> Cell:
        """Two dots, one above the other, in one sign and two inks."""
        upper, lower = self.dots[2 * line][column], self.dots[2 * line + 1][column]
        if upper == lower:
            return Cell("█", upper, upper) if upper else Cell()
        return Cell("▀", upper, lower) if upper else Cell("▄", lower)

    def _braille(self, column: int, line: int) -> Cell:
        """Eight dots in one sign; its ink is that of most of them."""
        bits, inks = 0, dict[str, int]()
        for j, pair in enumerate(BITS):
            for i, bit in enumerate(pair):
                if ink := self.dots[4 * line + j][2 * column + i]:
                    bits, inks[ink] = bits | bit, inks.get(ink, 0) + 1
        return Cell(chr(0x2800 + bits), max(inks, key=inks.__getitem__)) if bits else Cell()

    def _plain(self, signs: Mapping[str, str]) -> Callable[[int, int], Cell]:
        """One dot, one sign."""

        def cell(column: int, line: int) -> Cell:
            ink = self.dots[line][column]
            return Cell(signs.get(ink, "#"), ink) if ink else Cell()

        return cell


def _length(
    start: tuple[float, float], end: tuple[float, float]
) -> tuple[float, tuple[float, float]]:
    """The length between two places and the direction from one to the other."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = hypot(dx, dy) or 1.0
    return long, (dx / long, dy / long)


def written(
    rows: Rows, column: int, line: int, text: str, ink: str, ground: str | None = None
) -> Rows:
    """The same rows with a text written over them; what is beside them is left out.

    Behind the text stands what was there, or a ground of its own.
    """
    if not 0 <= line < len(rows):
        return rows
    row = list(rows[line])
    for place, sign in enumerate(text, start=column):
        if 0 <= place < len(row):
            row[place] = Cell(sign, ink, behind(row[place]) if ground is None else ground)
    return (*rows[:line], tuple(row), *rows[line + 1 :])


def behind(cell: Cell) -> str:
    """The ink behind a sign that is written over a cell: that of its upper half."""
    return cell.ink if cell.sign in "█▀" else cell.ground


def text_of(rows: Rows) -> tuple[str, ...]:
    """The signs alone."""
    return tuple("".join(cell.sign for cell in row) for row in rows)
