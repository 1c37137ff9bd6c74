"""What one division of a coarse dial can hide: equal readings do not prove a runout of nothing."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, radians

from guide.measure.angles import distinct
from guide.plain import N_, BadInput


def unseen(graduation: float, positions: int) -> float:
    """The largest full runout that hides behind equal readings at N even positions.

    A dial read to its nearest division g shows N equal values while the true ones lie within one
    g of each other. The N values of e·cos span at least the width of the regular polygon of
    radius e: 2e·cos(π/N) for even N, e·(1 + cos(π/N)) for odd. So 2e can be g/cos(π/N), or
    2g/(1 + cos(π/N)): 1.33, 1.41, 1.15, 1.08, 1.04 divisions at 3, 4, 6, 8, 12 positions.

    It assumes a round bar and readings to the nearest division; who reads between the lines gives
    the finer step as the graduation. It stops holding for a bar with lobes, which can hide more
    where the positions miss them (`harmonic.can_hide_lobes`), and for a needle that sticks. As a
    bound on 2e it takes the place of U = 4·u·√(2/n), which averages errors that here are not
    independent: at 8 positions U is 0.58 divisions where 1.08 can hide. Simulated with runouts
    that are all equally likely, U holds the true one 92 to 72 times in 100 behind equal readings
    at 4 to 12 positions, 92 to 76 behind readings one division apart, and the 95 it should behind
    two divisions or more. BadInput for fewer than three positions.
    """
    if positions < 3:
        raise _too_few()
    inner = cos(pi / positions)
    return graduation / inner if positions % 2 == 0 else 2 * graduation / (1 + inner)


def unseen_at(graduation: float, angles: Sequence[float]) -> float:
    """The same for positions at any angles in degrees; equal to `unseen` where they are even."""
    return 2 * graduation / narrowest(angles)


def still_allowed(values: Sequence[float], angles: Sequence[float], graduation: float) -> float:
    """A bound on the full runout that these readings still allow, read to the nearest division.

    (range + g) · 2/width: each true value is within half a division of its reading. It holds for
    any readings of a round bar and is never too small, but for readings that spread over many
    divisions it is much too wide; there the fit and its U say more.
    """
    return 2 * (max(values) - min(values) + graduation) / narrowest(angles)


def all_equal(values: Sequence[float]) -> bool:
    """Whether every reading is the same, so that nothing was seen to move."""
    return max(values) == min(values)


def narrowest(angles: Sequence[float]) -> float:
    """The least range that cos(θ − φ) has over these angles, whatever φ: 2 for all round the turn.

    It is the width of the polygon whose corners are the positions on a circle of radius 1, and a
    polygon is narrowest square to one of its sides.
    """
    places = distinct(angles)
    if len(places) < 3:
        raise _too_few()
    sides = zip(places, (*places[1:], places[0] + 360.0), strict=True)
    return min(_range_along((one + other) / 2, places) for one, other in sides)


def _range_along(direction: float, places: Sequence[float]) -> float:
    """How far the positions spread along one direction."""
    along = [cos(radians(place - direction)) for place in places]
    return max(along) - min(along)


def _too_few() -> BadInput:
    """The refusal of positions that fix no centre."""
    return BadInput(
        N_("Fewer than three different positions cannot fix a centre."),
        N_("Read at three positions or more, best eight or twelve."),
    )
