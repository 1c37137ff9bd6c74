"""Whether the dial's zero stayed: the first position read again after whole turns."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt

from guide.measure.uncertainty import COVERAGE


def allowed(u: float | None, graduation: float | None) -> float | None:
    """How far two readings of one place may differ: 2·√2·u, at least a graduation; None unknown."""
    known = [] if u is None else [COVERAGE * sqrt(2) * u]
    known += [] if graduation is None else [graduation]
    return max(known, default=None)


def zero_flag(first: float, closures: Sequence[float], limit: float | None) -> str | None:
    """The flag `zero-moved`, or `drifting` where two closures or more go on one way; else None.

    One closure cannot tell drift from a knock. Lengths in one unit; without a limit any change
    counts.
    """
    limit = 0.0 if limit is None else limit
    moved = [closure - first for closure in closures]
    if not moved or max(abs(step) for step in moved) <= limit * (1 + 1e-12):
        return None
    steps = [after - before for before, after in pairwise([0.0, *moved])]
    one_way = len(steps) > 1 and (all(s > 0 for s in steps) or all(s < 0 for s in steps))
    return "drifting" if one_way else "zero-moved"
