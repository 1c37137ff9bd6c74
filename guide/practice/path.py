"""A small drawing of where the middle of the chuck went, round by round, about the axis."""

from __future__ import annotations

from collections.abc import Sequence

from guide.present.canvas import BLOCKS, Canvas, Rows, written

ACROSS = 25
"""Columns of the drawing."""
SIGNS = {"rim": ".", "zero": "+", "curve": "o"}
"""The sign of each ink in the plain style."""


def path(
    places: Sequence[complex], within: float, style: str = BLOCKS, across: int = ACROSS
) -> Rows:
    """The places numbered in order, seen from the tailstock with screw 1 at the top.

    The ring is how far off the middle may be, half the runout that is allowed; lengths in one unit.
    """
    lines = (across + 1) // 2
    canvas = Canvas(across, lines, style)
    middle = across / 2
    most = max((abs(each) for each in places), default=0.0)
    scale = (middle - 2) / max(most, within * 1.2, 1e-9)
    if within * scale >= 1:
        canvas.ring(middle, middle, within * scale, "rim")
    rows = canvas.cells(SIGNS)
    rows = written(rows, int(middle), int(middle / 2), "+", "zero")
    for number, each in enumerate(places):
        x, y = middle + each.imag * scale, middle - each.real * scale
        rows = written(rows, int(x), int(y / 2), str(number % 10), "point")
    return rows
