"""The face of the chuck as a small drawing in text, as seen from the tailstock.

The plunger stands at the top. In normal forward the face turns anticlockwise there, so the plunger
travels clockwise over it and the marks, numbered in the order in which they arrive, run clockwise;
in reverse both run the other way.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import cos, radians, sin

RADIUS = 4
"""Lines from the middle to the rim."""
PLUNGER = "▼"
HIGH = "◆"
RIM = "·"
MIDDLE = "+"
WAYS = ("anticlockwise", "clockwise")
"""Which way the face turns, seen from the tailstock: forward, and reverse."""


def drawing(
    marks: Mapping[float, str],
    turned: float = 0.0,
    high: float | None = None,
    way: str = WAYS[0],
    radius: int = RADIUS,
) -> tuple[str, ...]:
    """The face turned by some degrees, with marks by their angle and the high spot if it is known.

    Every line is as wide as the others; the plunger is above the first line of the rim.
    """
    across = 2 * (2 * radius + 1) + 1
    grid = [[" "] * across for _ in range(2 * radius + 1)]
    for angle in range(0, 360, 10):
        _put(grid, radius, seen_at(angle, 0, way), RIM)
    grid[radius][2 * radius + 1] = MIDDLE
    if high is not None:
        _put(grid, radius, seen_at(high, turned, way), HIGH, inside=2)
    for place, mark in marks.items():
        _put(grid, radius, seen_at(place, turned, way), mark)
    top = [" "] * across
    top[2 * radius + 1] = PLUNGER
    return tuple("".join(row) for row in (top, *grid))


def seen_at(angle: float, turned: float, way: str = WAYS[0]) -> float:
    """Where a place on the face is now, in degrees clockwise from the plunger."""
    from_plunger = (angle - turned) % 360
    return from_plunger if way == WAYS[0] else -from_plunger % 360


def _put(
    grid: list[list[str]], radius: int, clockwise: float, mark: str, inside: float = 0
) -> None:
    """Write a mark on the rim, or some lines inside it; twice as many columns as lines."""
    reach = radius - inside
    row = radius - round(reach * cos(radians(clockwise)))
    column = 2 * radius + 1 + round(2 * reach * sin(radians(clockwise)))
    for place, sign in enumerate(mark, start=column - (len(mark) - 1) // 2):
        if 0 <= place < len(grid[row]):
            grid[row][place] = sign


def screw_marks(screws: int) -> dict[float, str]:
    """Screw k of n at (k−1)·360/n, marked with its number."""
    return {(k - 1) * 360 / screws: str(k) for k in range(1, screws + 1)}


def under_plunger(marks: Mapping[float, str], turned: float) -> str:
    """The mark under the plunger, blank where there is none."""
    return next((mark for angle, mark in marks.items() if (angle - turned) % 360 == 0), "")


def positions(count: int) -> tuple[str, ...]:
    """Angles evenly round the turn, as text."""
    return tuple(f"{k * 360 / count:g}" for k in range(count))


def allowed_counts(screws: int) -> tuple[int, ...]:
    """How many positions may be chosen, the best for so many screws first."""
    counts: Iterable[int] = (8, 12, 6, 4) if screws % 3 else (12, 6, 8, 4)
    return tuple(counts)
