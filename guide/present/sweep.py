"""The sweep round the turn: readings by angle, the fitted curve through them, and what is left.

The curve is r = m + a·cos θ + b·sin θ (guide.measure.harmonic); what is left is the residual of
each reading. Lengths are in the unit of the readings, which the words beside the drawing name.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from guide.measure.harmonic import LARGEST_SPREAD, Fit, fit
from guide.plain import Refusal
from guide.present.canvas import BLOCKS, BRAILLE, PAPER, PLAIN, Canvas, Cell, Row, Rows, written

_SIGNS = {"point": "●", "again": "○", "curve": "─"}
SIGNS: Mapping[str, Mapping[str, str]] = {
    BLOCKS: _SIGNS,
    BRAILLE: _SIGNS,
    PLAIN: {"point": "o", "again": "O", "curve": "-"},
}
"""A reading, the first position read again, the fitted curve."""
PLAIN_SIGNS = {"curve": "-", "guess": ".", "fill": " ", "left": "|", "zero": "-"}
"""The sign of each ink in the plain style."""
BASE = {BLOCKS: "▁", BRAILLE: "⣀", PLAIN: "_"}
"""The line from which what is left stands up and hangs down."""
TURN = 360.0


def _bars(upward: str, downward: str = "") -> tuple[tuple[Cell, ...], tuple[Cell, ...]]:
    """Cells filled from below and from above, from empty to full.

    There are no signs filled from above by eighths: what stands below is written in paper on ink.
    """
    down = [Cell(sign, "left") for sign in downward] or [
        Cell(),
        *(Cell(sign, PAPER, "left") for sign in upward[-2:0:-1]),
        Cell(upward[-1], "left"),
    ]
    return tuple(Cell(sign, "left") for sign in upward), tuple(down)


BARS = {
    BLOCKS: _bars(" ▁▂▃▄▅▆▇█"),
    BRAILLE: _bars(" ⣀⣤⣶⣿", " ⠉⠛⠿⣿"),
    PLAIN: _bars(" .|", " '|"),
}
"""Bars of one cell by style, up and down."""


@dataclass(frozen=True, slots=True)
class Sweep:
    """Readings of one turn as far as they go."""

    angles: tuple[float, ...]
    values: tuple[float, ...]
    again: float | None = None
    """What the first position read when it came round again."""
    fitted: Fit | None = None
    """The first harmonic, from three positions on."""

    @property
    def left(self) -> tuple[float, ...]:
        """What is left at each reading; nothing where the curve goes through all of them anyway."""
        return self.fitted.residuals if self.fitted and self.fitted.spare > 0 else ()

    @property
    def lowest(self) -> float:
        """The lowest reading, the first one read again included."""
        return min(self.read, default=0.0)

    @property
    def highest(self) -> float:
        """The highest of the same."""
        return max(self.read, default=0.0)

    @property
    def read(self) -> tuple[float, ...]:
        """Everything that was read."""
        return self.values if self.again is None else (*self.values, self.again)

    @property
    def reached(self) -> float:
        """How far round the readings go; a turn that only the first position closes is whole."""
        last, step = max(self.angles, default=0.0), min(filter(None, self.angles), default=TURN)
        return TURN if self.again is not None or last + step >= TURN else last

    @property
    def scale(self) -> tuple[float, float] | None:
        """The values at the bottom and the top of the drawing; None while they are not told."""
        return self.reach() if len(set(self.read)) > 1 else None

    def reach(self) -> tuple[float, float]:
        """The lowest and highest that the drawing has to hold, never the same."""
        found = self.fitted if self.can_be_told else None
        curve = [found.at(angle) for angle in range(0, 361, 10)] if found else []
        low, high = min((*self.read, *curve), default=0.0), max((*self.read, *curve), default=0.0)
        return (low, high) if high > low else (low - 1.0, high + 1.0)

    @property
    def high(self) -> float | None:
        """The high spot in degrees; None while it cannot be told, or where nothing is out."""
        found = self.fitted if self.can_be_told else None
        return found.high_deg if found and found.eccentricity > 0 else None

    @property
    def can_be_told(self) -> bool:
        """Whether the curve is known well enough to show."""
        return self.fitted is not None and told_apart(self.fitted)


def sweep(angles: Sequence[float], values: Sequence[float], again: float | None = None) -> Sweep:
    """The sweep of the readings so far; fewer than three positions have no curve yet."""
    angles = tuple(angles[: len(values)])
    try:
        found = fit(angles, values)
    except Refusal:
        found = None
    return Sweep(angles, tuple(values), again, found)


def told_apart(found: Fit) -> bool:
    """Whether the readings go far enough round to tell the high spot and not only guess it.

    The variance factors of a and b are at most `LARGEST_SPREAD`, as for every coefficient in
    guide.measure.harmonic: of even positions those up to half a turn on are enough, from four on.
    """
    return max(found.covariance[1][1], found.covariance[2][2]) <= LARGEST_SPREAD


@lru_cache(maxsize=64)
def drawn(told: Sweep, columns: int, lines: int, style: str = BLOCKS) -> Rows:
    """The readings as points over 0 to 360 degrees, the curve under them as far as it is known."""
    canvas = Canvas(columns, lines, style)
    low, high = told.reach()
    last = told.reached

    def height(value: float) -> float:
        """Units from the top; the outermost values lie in the middle of the outermost dots."""
        room = 2 * lines - canvas.size
        return canvas.size / 2 + room * (high - value) / (high - low)

    if told.fitted is not None and told.can_be_told:
        _curve(canvas, told.fitted, height, last)
    rows = canvas.cells(PLAIN_SIGNS)
    kinds = ["point"] * len(told.values) + ["again"]
    for angle, value, kind in zip((*told.angles, TURN), told.read, kinds, strict=False):
        line = min(int(height(value) / 2), lines - 1)
        rows = written(rows, column_of(angle, columns), line, SIGNS[style][kind], kind)
    return rows


def _curve(canvas: Canvas, found: Fit, height: Callable[[float], float], last: float) -> None:
    """The fitted curve: filled to its mean as far as was read, every other dot beyond."""
    middle = height(found.mean)
    wide = canvas.columns * canvas.across
    for i in range(wide):
        angle = TURN * i / (wide - 1)
        y = height(found.at(angle))
        if angle <= last and canvas.style == BLOCKS:
            canvas.column(i, min(y, middle), max(y, middle), "fill")
        if angle <= last or i % 2:
            canvas.column(i, y, y, "curve" if angle <= last else "guess")


@lru_cache(maxsize=64)
def what_is_left(told: Sweep, columns: int, lines: int, style: str = BLOCKS) -> Rows:
    """The residuals as bars up and down from a line in the middle, on a scale of their own."""
    upward, downward = BARS[style]
    half, most = lines // 2, len(upward) - 1
    largest = max(map(abs, told.left), default=0.0)
    grid = [[Cell()] * columns for _ in range(2 * half)]
    grid[half - 1] = [Cell(BASE[style], "zero")] * columns
    thick = 1 if columns < 5 * (len(told.left) + 1) else 3
    for angle, value in zip(told.angles, told.left, strict=False):
        steps = max(round(abs(value) / largest * half * most), 1) if value else 0
        for away in range(half):
            full = min(max(steps - away * most, 0), most)
            for column in beside(column_of(angle, columns), thick, columns):
                if full and value > 0:
                    grid[half - 1 - away][column] = upward[full]
                elif full:
                    grid[half + away][column] = downward[full]
    return tuple(map(tuple, grid))


def axis(marks: Mapping[float, str], columns: int, style: str = BLOCKS) -> Row:
    """The numbers of the screws where they come round; without screws, quarters of the turn."""
    degree = "" if style == PLAIN else "°"
    quarters = {angle: f"{angle:g}{degree}" for angle in (0.0, 90.0, 180.0, 270.0)}
    told = {**(marks or quarters), TURN: marks.get(0.0, "") or f"360{degree}"}
    rows: Rows = ((Cell(),) * columns,)
    for angle, mark in told.items():
        start = column_of(angle, columns) - len(mark) // 2
        rows = written(rows, max(min(start, columns - len(mark)), 0), 0, mark, "axis")
    return rows[0]


def column_of(angle: float, columns: int) -> int:
    """The column of an angle, 0 to 360 degrees, the ends at the outermost columns."""
    return round(angle / TURN * (columns - 1))


def beside(column: int, thick: int, columns: int) -> range:
    """A column and those beside it, as far as there are any."""
    return range(max(column - thick // 2, 0), min(column + thick // 2 + 1, columns))
