"""Angles count from screw 1 and screws are numbered in the order in which they arrive."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import across, apart, distinct, even, nearest_screw, of_screw, turned


def test_screw_k_of_n_is_at_its_share_of_the_turn():
    """(k − 1)·360/n."""
    assert [of_screw(k, 4) for k in (1, 2, 3, 4)] == [0, 90, 180, 270]
    assert even(3) == (0, 120, 240)


def test_only_even_counts_have_an_opposite_screw():
    """Three screws have none across."""
    assert [across(k, 4) for k in (1, 2, 3, 4)] == [3, 4, 1, 2]
    assert [across(k, 6) for k in (1, 4, 6)] == [4, 1, 3]
    assert across(1, 3) is None


@given(st.floats(-1e5, 1e5))
def test_a_turned_angle_is_within_one_turn(angle):
    """Never 360, not even by rounding."""
    assert 0 <= turned(angle) < 360
    assert apart(turned(angle), angle) < 1e-6


def test_positions_a_turn_apart_are_one():
    """360 is 0, and 359.9999999 is 0 within what is called the same."""
    assert distinct([0, 90, 360, 359.9999999, -270]) == (0, 90)


@pytest.mark.parametrize(("angle", "screw"), [(169, 3), (44, 1), (45, 1), (46, 2), (359, 1)])
def test_the_nearest_screw_is_found_round_the_turn(angle, screw):
    """Midway the lower number is named."""
    assert nearest_screw(angle, 4) == screw
