"""A turn whose form is too large to be believed at once: a bar out of round, or one wrong reading.

One reading with a wrong sign, forgotten or taken at the wrong place looks like form. A second turn
tells them apart: a bar shows the same form again, a slip does not.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from math import sqrt
from statistics import fmean, median

from guide.measure.truing.judging import Judgement, judge
from guide.measure.truing.noise import learned, with_angle
from guide.measure.truing.story import Story, fitted, place

PLAIN = 3.0
"""A place that two turns show so many standard deviations apart was not read alike: of eight places
one in fifty turns by chance, and then it costs one more turn."""
LOBES = 3
"""Lobes that form is reckoned to have where its steepness counts (common practice, no source)."""
ENOUGH = 4
"""Places that two turns have in common, below which they say nothing of each other's form."""


def too_much_form(one: Judgement, tolerance: Decimal) -> bool:
    """Whether what is left with the centre on the axis is more than is asked for.

    Far off centre it has to stand plainly above that, since more than form is in the readings.
    """
    left = one.found.form or 0.0
    centred = one.found.fitted_tir <= float(tolerance) / 2
    return one.form and left + (one.guard if centred else -one.guard) > float(tolerance)


def in_doubt(story: Story, station: Decimal) -> bool:
    """Whether too much form was seen there, and by one turn alone."""
    one = judge(story, station)
    unseen = one is not None and station not in story.seen_twice
    return unseen and one is not None and too_much_form(one, story.facts.tolerance)


def alike(story: Story, station: Decimal, pairs: Sequence[tuple[float, float]]) -> bool | None:
    """Whether another turn shows the form that was seen there; None where it has too few places.

    Whatever its zero: the differences lie about their middle as far as noise and one division let
    them. The noise is what the dial and repeats of one place say of it: a slip would widen any
    other.
    """
    one, other = _by_place(story.readings(station)), _by_place(pairs)
    shared = one.keys() & other.keys()
    if len(shared) < max(ENOUGH, len(one)):
        return None
    off = [other[each] - one[each] for each in shared]
    middle = median(off)
    limit = PLAIN * sqrt(2) * _noise(story, station, pairs) + float(story.facts.graduation)
    return max(abs(each - middle) for each in off) <= limit


def _noise(story: Story, station: Decimal, pairs: Sequence[tuple[float, float]]) -> float:
    """u of one reading where the dial changes most, on the rounder of both turns.

    A bar of three lobes is three times as steep as one that is off centre by as much.
    """
    both = (fitted(tuple(story.readings(station))), fitted(tuple(pairs)))
    slope = min(each.eccentricity + LOBES * (each.form or 0.0) / 2 for each in both)
    return with_angle(learned(story.facts, story.repeats), slope)


def _by_place(pairs: Sequence[tuple[float, float]]) -> dict[float, float]:
    """What each place read, on average."""
    values: dict[float, list[float]] = {}
    for angle, value in pairs:
        values.setdefault(place(angle), []).append(value)
    return {each: fmean(read) for each, read in values.items()}
