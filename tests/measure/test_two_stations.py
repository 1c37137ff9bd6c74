"""What screws can do for a bar that leans: the best shift, what is left, and what none cures."""

from __future__ import annotations

from math import hypot

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from guide.measure.angles import apart, even
from guide.measure.tilt import tilt
from guide.plain import BadInput

part = st.integers(-40, 40).map(lambda tenths: tenths / 10)


def bar(a, b, n=8, mean=5.0):
    """Readings of a round bar whose centre is off by (a, b)."""
    turn = np.radians(even(n))
    return (mean + a * np.cos(turn) + b * np.sin(turn)).tolist()


def lean(one, other, working, **more):
    """Centres at 1 and 5 in, worked over `working`."""
    return tilt([bar(*one), bar(*other)], (1, 5), "thou", "in", working=working, **more)


def test_one_distance_is_made_true_and_the_others_keep_their_tilt():
    """Half a thou an inch: nothing left at 2.5 in, 2·0.5·1.5 at 1 in, 2·0.5·2.5 at 5 in."""
    best = lean((1, 0), (3, 0), (2.5, 2.5)).working
    assert (best.shift, best.toward_deg) == pytest.approx((1.75, 180))
    left = {place.station: place.fitted_tir for place in best.remains}
    assert left == pytest.approx({1: 1.5, 2.5: 0, 5: 2.5})
    assert best.largest.fitted_tir == pytest.approx(0)


def test_a_range_leaves_slope_times_length_at_both_ends():
    """From 0.5 to 4 in the middle goes to the axis."""
    best = lean((1, 0), (3, 0), (0.5, 4)).working
    assert best.off.station == 2.25
    assert best.largest.fitted_tir == pytest.approx(0.5 * 3.5)
    left = {place.station: place.fitted_tir for place in best.remains}
    assert left[0.5] == pytest.approx(left[4])


@given(part, part, part, part, st.integers(0, 30), st.integers(1, 60))
def test_no_other_shift_leaves_less(a1, b1, a2, b2, tenths, length):
    """scipy's minimiser finds nothing better than the middle, for any centres and range."""
    near, far = tenths / 10, (tenths + length) / 10
    best = lean((a1, b1), (a2, b2), (near, far)).working
    z = np.array([near, far])
    a, b = a1 + (a2 - a1) * (z - 1) / 4, b1 + (b2 - b1) * (z - 1) / 4

    def largest(shift):
        return 2 * np.hypot(a + shift[0], b + shift[1]).max()

    turn = np.radians(best.toward_deg)
    ours = largest((best.shift * np.cos(turn), best.shift * np.sin(turn)))
    assert ours == pytest.approx(best.largest.fitted_tir, abs=1e-6)
    found = minimize(largest, (0.0, 0.0), method="Nelder-Mead", options={"maxiter": 60})
    assert ours <= found.fun + 1e-9


@given(part, part, part, part)
def test_a_shift_changes_every_station_alike_and_no_tilt(a1, b1, a2, b2):
    """What is left at two stations differs by what the centres differed by."""
    found = lean((a1, b1), (a2, b2), (2, 2))
    one, other = (p for p in found.working.remains if p.station in (1, 5))
    along = [p.eccentricity * np.exp(1j * np.radians(p.high_at_deg)) for p in (one, other)]
    assert abs((along[1] - along[0]) - complex(a2 - a1, b2 - b1)) < 1e-6


def test_what_is_left_is_as_uncertain_as_the_centre_there():
    """Simulated: shift by the readings' own middle, then look where the true centres are."""
    rng = np.random.default_rng(47)
    truth, u = {1: (1.0, 0.5), 5: (3.0, -0.5)}, 0.2
    missed, stated = [], 0.0
    for _ in range(600):
        rows = [np.array(bar(*truth[z])) + rng.normal(0, u, 8) for z in (1, 5)]
        found = tilt(rows, (1, 5), "thou", "in", u=u, working=(2, 6)).working
        turn = np.radians(found.toward_deg)
        end = found.remains[-1]
        true = (3.5 + found.shift * np.cos(turn), -0.75 + found.shift * np.sin(turn))
        missed.append(2 * hypot(*true) - end.fitted_tir)
        stated = end.expanded_uncertainty
    assert 2 * np.std(missed) == pytest.approx(stated, rel=0.08)


def test_next_to_nothing_left_is_within_only_with_the_length_of_a_plane_vector():
    """Simulated at one distance: the true runout left is below 1.22·U in 95 of 100, not below U."""
    rng = np.random.default_rng(53)
    left, u = [], 0.2
    for _ in range(1000):
        rows = [np.array(bar(1, 0)) + rng.normal(0, u, 8) for _ in (1, 5)]
        found = tilt(rows, (1, 5), "thou", "in", u=u, working=(3, 3)).working
        turn = np.radians(found.toward_deg)
        left.append(2 * hypot(1 + found.shift * np.cos(turn), found.shift * np.sin(turn)))
    most = found.off.expanded_uncertainty
    assert np.mean(np.array(left) <= 1.224 * most) == pytest.approx(0.95, abs=0.02)
    assert np.mean(np.array(left) <= 0.8225 * most) < 0.80
    judged = [
        lean((1, 0), (1, 0), (3, 3), u=u, tolerance=factor * most).working.decision.verdict
        for factor in (1.23, 1.21)
    ]
    assert judged == ["within", "undecided"]


@pytest.mark.parametrize(
    ("tolerance", "alone", "flagged"),
    [(1.0, "outside", True), (1.75, "undecided", False), (2.5, "within", False)],
)
def test_a_tilt_that_alone_breaks_the_tolerance_is_said(tolerance, alone, flagged):
    """1.75 thou is left from 0.5 to 4 in whatever the screws do."""
    found = lean((1, 0), (3, 0), (0.5, 4), u=0.1, tolerance=tolerance)
    assert found.working.tilt_alone.verdict == alone
    assert ("tilt" in found.working.flags) is flagged
    assert "tilt" in found.flags
    assert found.working.within_for == pytest.approx(tolerance)


def test_the_tilt_flag_comes_from_the_tolerance_too():
    """A lean that hardly stands out may still be too much for a long bar."""
    found = lean((0, 0), (0.2, 0), (1, 401), u=0.1, tolerance=1, rule="simple")
    assert "tilt" in found.flags
    assert not lean((0, 0), (0.2, 0), (1, 2), u=0.1, tolerance=1, rule="simple").working.flags


def test_screws_that_end_first_are_said():
    """A shift of 1.75 against half the clearance."""
    near, far = (lean((1, 0), (3, 0), (2.5, 2.5), clearance=c).working.flags for c in (3.5, 3.4))
    assert not near
    assert far == {"beyond-travel"}


def test_without_uncertainty_or_tolerance_nothing_is_judged():
    """Neither is guessed; a bar that does not lean has no reach."""
    best = lean((1, 0), (3, 0), (1, 5), tolerance=1).working
    assert (best.decision, best.tilt_alone, best.slope_uncertainty) == (None, None, None)
    assert lean((1, 0), (3, 0), (1, 5), u=1).working.decision is None
    assert lean((1, 0), (1, 0), (1, 5), tolerance=1, u=1).working.within_for is None


def test_inside_a_bore_everything_is_opposite():
    """The dial rises where the wall comes in."""
    outside = lean((1, 0), (3, 0), (2, 3))
    inside = lean((1, 0), (3, 0), (2, 3), surface="inside")
    assert apart(outside.working.toward_deg, inside.working.toward_deg) == pytest.approx(180)
    assert apart(outside.toward_deg, inside.toward_deg) == pytest.approx(180)
    assert inside.working.shift == pytest.approx(outside.working.shift)


def test_a_range_that_ends_before_it_begins_is_refused():
    """It says which way round."""
    with pytest.raises(BadInput, match="ends before it begins"):
        lean((1, 0), (3, 0), (4, 0.5))
