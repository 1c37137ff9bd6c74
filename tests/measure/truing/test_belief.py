"""The filter believes what least squares finds, and a move changes only what it may."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.measure.angles import even
from guide.measure.harmonic import fit
from guide.measure.truing.belief import nothing_known

values = st.lists(st.integers(-100, 100), min_size=8, max_size=8)


@settings(deadline=None)
@given(values)
def test_after_one_turn_it_is_the_least_squares_fit(read: list[int]) -> None:
    """With nothing known before, eight readings give the fitted centre and zero."""
    if max(read) == min(read):
        read = [*read[:-1], read[-1] + 1]
    belief = nothing_known([float(each) for each in read])
    for angle, value in zip(even(8), read, strict=True):
        belief = belief.read(angle, float(value), 0.1)
    found = fit(even(8), [float(each) for each in read])
    assert belief.state == pytest.approx((found.a, found.b, found.mean), abs=1e-3)


def test_its_spread_is_that_of_the_fit() -> None:
    """u·√(2/n) for the centre and u/√n for the zero, with even positions."""
    belief = nothing_known([0.0, 1.0])
    for angle in even(8):
        belief = belief.read(angle, 0.5, 0.1)
    diagonal = [belief.spread[k][k] ** 0.5 for k in range(3)]
    assert diagonal == pytest.approx([0.05, 0.05, 0.1 / 8**0.5], rel=1e-3)


@settings(deadline=None)
@given(values, st.floats(0, 360), st.floats(0.01, 1), st.floats(0.01, 1))
def test_a_reading_makes_it_surer_and_a_move_less_sure(
    read: list[int], angle: float, along: float, across: float
) -> None:
    """The covariance stays symmetric with no negative variance, in every direction."""
    belief = nothing_known([float(each) for each in read] + [1000.0])
    for place, value in zip(even(8), read, strict=True):
        belief = belief.read(place, float(value), 0.5)
    way = complex(cos(radians(angle)), sin(radians(angle)))
    moved = belief.moved(way, along, across)
    before, after = (np.array(each.spread) for each in (belief, moved))
    assert np.allclose(after, after.T)
    assert np.linalg.eigvalsh(after - before).min() > -1e-9
    surer = np.array(moved.read(angle, 0.0, 0.1).spread)
    assert np.linalg.eigvalsh(after - surer).min() > -1e-9


def test_a_lost_zero_leaves_the_centre_as_it_was() -> None:
    """Only what the dial shows is unknown again."""
    belief = nothing_known([0.0, 1.0])
    for angle in even(8):
        belief = belief.read(angle, cos(radians(angle)), 0.01)
    lost = belief.zero_lost(1.0)
    assert lost.state == belief.state
    assert lost.spread[2][2] > 1e3
    assert lost.spread[0][0] == belief.spread[0][0]
