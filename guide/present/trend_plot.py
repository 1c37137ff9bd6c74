"""Results over the years as a picture of signs.

Nothing in it is told by colour: as found is an open ring, as left a filled one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from textwrap import wrap

from guide.plain import N_
from guide.present.canvas import PLAIN, Canvas, Rows, text_of, written
from guide.present.numbers import PLACES, plain
from guide.present.words import say

FOUND, LEFT, BOTH, BAR, LIMIT = "○", "●", "◉", "│", "┄"
"""As found, as left, both in one place, the reach of the uncertainty, the tolerance."""
LEAST_WIDE, LEAST_HIGH = 30, 8


@dataclass(frozen=True, slots=True)
class Shown:
    """One result to be shown, lengths in the unit of the whole picture."""

    day: date
    size: float
    reach: float | None
    """Expanded uncertainty, None where it is not known."""
    tolerance: float | None
    left: bool
    """Whether it is as left rather than as found."""


def plot(
    shown: Sequence[Shown], unit: str, width: int, height: int, language: str = "en"
) -> tuple[str, ...]:
    """At most `height` lines of at most `width` signs, the days from left to right.

    At least 30 by 8; nothing where nothing is shown. The dashes are the tolerance as it was at each
    result, the bars reach from judged runout less its uncertainty to as much more.
    """
    if not shown:
        return ()
    keys = _keys(unit, max(width, LEAST_WIDE), language)
    lines = max(height, LEAST_HIGH) - len(keys) - 1
    beside = labels(shown, unit, language)
    gutter = max(map(len, beside.values())) + 1
    grid = _Grid(shown, max(width, LEAST_WIDE) - gutter, lines)
    rows = grid.drawn()
    at = {grid.line(size): text for size, text in beside.items()}
    picture = [f"{at.get(n, '').rjust(gutter - 1)} {line}".rstrip()
               for n, line in enumerate(text_of(rows))]  # fmt: skip
    return (*picture, " " * gutter + _days(shown, grid.columns), *keys)


SAID = (
    (FOUND, N_("as found")),
    (LEFT, N_("as left")),
    (BOTH, N_("both")),
    (BAR, N_("± U")),
    (LIMIT, N_("tolerance")),
)
"""Each sign and its meaning."""


def meanings(unit: str, language: str = "en") -> tuple[str, ...]:
    """What each sign means, and the unit."""
    told = (f"{sign} {say(words, language)}" for sign, words in SAID)
    return (*told, say(N_("full runout, {unit}"), language, unit=unit))


def _keys(unit: str, width: int, language: str) -> list[str]:
    """The meanings on as many lines as they need, none of them broken in two."""
    whole = [each.replace(" ", HELD) for each in meanings(unit, language)]
    return [line.replace(HELD, " ") for line in wrap("   ".join(whole), width)]


HELD = "\N{NO-BREAK SPACE}"


class _Grid:
    """Where a day and a size stand among so many columns and lines."""

    def __init__(self, shown: Sequence[Shown], columns: int, lines: int) -> None:
        self.shown = sorted(shown, key=lambda each: (each.day, each.left))
        self.columns, self.lines = columns, lines
        self.top = top_of(shown)

    def column(self, each: Shown) -> int:
        """The column of a day; a single day stands in the middle."""
        return round(share_of(each.day, self.shown) * (self.columns - 1))

    def line(self, size: float) -> int:
        """The line of a size, the lowest being 0."""
        return round((1 - min(max(size / self.top, 0.0), 1.0)) * (self.lines - 1))

    def drawn(self) -> Rows:
        """Tolerance first, then the bars, then the results over them."""
        canvas = Canvas(self.columns, self.lines, PLAIN)
        for each, start, end in stretches(self.shown):
            for column in range(self._at(start), self._at(end) + 1):
                self._dot(canvas, column, each, LIMIT)
        for each in self.shown:
            if each.reach is not None:
                top, bottom = (self.line(each.size + sign * each.reach) for sign in (1, -1))
                canvas.column(self.column(each), 2 * top, 2 * bottom, BAR)
        rows = canvas.cells({LIMIT: LIMIT, BAR: BAR})
        placed: dict[tuple[int, int], str] = {}
        for each in self.shown:
            place = self.column(each), self.line(each.size)
            sign = LEFT if each.left else FOUND
            placed[place] = sign if placed.get(place, sign) == sign else BOTH
        for (column, line), sign in placed.items():
            rows = written(rows, column, line, sign, "")
        return rows

    def _at(self, share: float) -> int:
        return round(share * (self.columns - 1))

    def _dot(self, canvas: Canvas, column: int, each: Shown, ink: str) -> None:
        if each.tolerance is not None:
            height = 2 * self.line(each.tolerance)
            canvas.column(column, height, height, ink)


def top_of(shown: Sequence[Shown]) -> float:
    """The largest size that has to be in the picture; never 0."""
    reached = (max(each.size + (each.reach or 0.0), each.tolerance or 0.0) for each in shown)
    return max(reached) or 1.0


def share_of(day: date, shown: Sequence[Shown]) -> float:
    """Where a day stands between the first, 0, and the last, 1; 0.5 where there is one day."""
    first, last = _ends(shown)
    return (day - first).days / (last - first).days if last > first else 0.5


def stretches(shown: Sequence[Shown]) -> Iterator[tuple[Shown, float, float]]:
    """Each result with the stretch from it to the next, over which its tolerance holds."""
    starts = [share_of(each.day, shown) for each in shown]
    alone = _ends(shown)[0] == _ends(shown)[1]
    for number, each in enumerate(shown):
        start = 0.0 if number == 0 else starts[number]
        end = starts[number + 1] if number + 1 < len(shown) else 1.0
        yield each, start, max(start, end) if not alone else 1.0


def _ends(shown: Sequence[Shown]) -> tuple[date, date]:
    days = [each.day for each in shown]
    return min(days), max(days)


def labels(shown: Sequence[Shown], unit: str, language: str) -> dict[float, str]:
    """The sizes written beside the picture: nothing, the latest tolerance, and the largest."""
    limits = [each.tolerance for each in sorted(shown, key=lambda each: each.day)]
    sizes = [0.0, top_of(shown), *(size for size in limits[-1:] if size)]
    return {size: plain(size, PLACES.get(unit, 5), language) for size in sizes}


def _days(shown: Sequence[Shown], columns: int) -> str:
    """The first day on the left and the last on the right; one alone in the middle."""
    first, last = (day.isoformat() for day in _ends(shown))
    if first == last:
        return first.center(columns).rstrip()
    return first + last.rjust(columns - len(first))
