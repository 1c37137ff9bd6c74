"""How far one reading is trusted: what the dial allows, until repeats tell more."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, hypot, radians, sqrt

from guide.measure.truing.facts import Facts
from guide.measure.uncertainty import of_graduation, rectangular

RETRACE = 0.3
"""Retrace as a part of a division: JIS B 7503:2011 as transcribed, 3 µm for a 0.01 mm dial."""
LEAST = 0.00004
"""What remains in inches with any dial: hand, stand, film of oil (common practice, no source)."""
ANGLE_BY_EYE = 5.0
"""Degrees within which a position is set by eye (common practice, no source)."""
WORTH = 5
"""How many repeats the first idea of the noise is worth."""
UNAVERAGED = 0.2
"""The part of a division by which a TIR may be wrong however often it is read: readings that all
stand on the same divisions repeat their error (common practice, no source; shown by the study)."""
BAR = 0.00003
"""What a ground bar's form adds in inches below what the readings show (common practice, no
source)."""
FINEST = 2
"""A tolerance of fewer divisions than this cannot be proved: readings that are all the same may
hide a runout of about one division, and one step of the needle in half of them another."""


def first_idea(facts: Facts) -> float:
    """Standard uncertainty of one reading before any was repeated, in the facts' unit."""
    graduation = float(facts.graduation)
    return hypot(
        of_graduation(graduation),
        rectangular(RETRACE * graduation / 2),
        rectangular(float(facts.play or 0) / 2),
        facts.inches(LEAST),
    )


def learned(
    facts: Facts, repeats: Sequence[float], scatters: Sequence[tuple[float, int]] = ()
) -> float:
    """The same after repeats: differences of two readings of one place, each spread by √2·u.

    `scatters` are what whole turns leave over beside the first three orders: the sum of squares
    and its degrees of freedom. Never below what the division alone allows.
    """
    first = first_idea(facts)
    squares = fsum(difference * difference / 2 for difference in repeats)
    squares += fsum(each for each, _ in scatters)
    freedom = len(repeats) + sum(each for _, each in scatters)
    pooled = sqrt((WORTH * first * first + squares) / (WORTH + freedom))
    return max(pooled, of_graduation(float(facts.graduation)))


def with_angle(u: float, slope: float) -> float:
    """u of one reading where a position wrong by the eye's error moves it by slope·radians."""
    return hypot(u, rectangular(abs(slope) * radians(ANGLE_BY_EYE)))


def unaveraged(facts: Facts) -> float:
    """The part of u(fitted TIR) that more readings do not make smaller.

    The indicator's error, where its limit is known, can lie against itself across the turn: twice.
    """
    error = 2 * rectangular(float(facts.error_limit or 0))
    return hypot(UNAVERAGED * float(facts.graduation), facts.inches(BAR), error)
