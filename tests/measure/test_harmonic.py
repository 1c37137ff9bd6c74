"""The first harmonic agrees with mathematics, with numpy and with public reference circles."""

from __future__ import annotations

import json
from math import atan2, cos, degrees, hypot, radians, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide.measure.angles import apart, even
from guide.measure.harmonic import can_hide_lobes, fit, shape
from guide.plain import BadInput

OUTSIDE = Path(__file__).parents[1] / "outside"
HARMONICS = json.loads((OUTSIDE / "measure_harmonics.json").read_text(encoding="utf-8"))
CIRCLES = json.loads((OUTSIDE / "measure_circles.json").read_text(encoding="utf-8"))
PROFILES = [case for case in HARMONICS if "n" in case["inputs"]]
RANGES = [case for case in HARMONICS if "worst_range" in case["inputs"]]

dial = st.integers(-500, 500).map(lambda tenths: tenths / 10)
series = st.integers(3, 16).flatmap(lambda n: st.lists(dial, min_size=n, max_size=n))


@pytest.mark.parametrize("case", PROFILES, ids=lambda case: case["name"])
def test_known_profiles_give_known_harmonics(case):
    """0.2 + 0.037·cos(θ − 52°) comes back; with three lobes it aliases at four places."""
    given_ = case["inputs"]
    angles = even(given_["n"])
    values = [
        given_["mean"]
        + given_["e"] * cos(radians(angle - given_["high_deg"]))
        + given_["lobe"] * cos(3 * radians(angle) + 0.4)
        for angle in angles
    ]
    found = fit(angles, values)
    got = {"a": found.a, "b": found.b, "e": found.eccentricity, "high_deg": found.high_deg}
    for name, expected in case["expected"].items():
        assert got[name] == pytest.approx(expected, abs=case["tolerance"]), name


@pytest.mark.parametrize("case", RANGES, ids=lambda case: case["name"])
def test_the_range_of_few_readings_falls_short_of_the_tir(case):
    """Over a quarter turn of high spots the range of n readings is at worst this part of 2e."""
    angles = even(case["inputs"]["worst_range"])
    ratios = []
    for half_degree in range(180):
        found = fit(angles, [cos(radians(angle - half_degree / 2)) for angle in angles])
        ratios.append(found.observed_tir / found.fitted_tir)
    assert min(ratios) == pytest.approx(case["expected"], abs=case["tolerance"])
    assert max(ratios) == pytest.approx(1.0)


@pytest.mark.parametrize("case", CIRCLES, ids=lambda case: case["name"])
def test_repeated_fits_reach_the_reference_circle(case):
    """Fitting radii about a centre is a Gauss-Newton step, so moving by (a, b) must converge.

    The points lie at any angles, which checks uneven positions against an outside value.
    """
    points = case["inputs"]["points"]
    x = sum(point[0] for point in points) / len(points)
    y = sum(point[1] for point in points) / len(points)
    for _ in range(60):
        angles = [degrees(atan2(py - y, px - x)) for px, py in points]
        found = fit(angles, [hypot(px - x, py - y) for px, py in points])
        x, y = x + found.a, y + found.b
    assert (x, y) == pytest.approx(case["expected"]["centre"], abs=case["tolerance"])
    assert 2 * found.mean == pytest.approx(case["expected"]["diameter"], abs=case["tolerance"])


@given(series)
def test_even_positions_agree_with_the_fourier_transform(values):
    """e is 2·abs(rfft(r)[1])/n, numpy being the reference."""
    found = fit(even(len(values)), values)
    assert found.eccentricity == pytest.approx(
        2 * abs(np.fft.rfft(values)[1]) / len(values), abs=1e-9
    )


@given(st.lists(st.tuples(st.integers(0, 359), dial), min_size=3, max_size=12))
def test_uneven_positions_agree_with_numpy(pairs):
    """numpy.linalg.lstsq is the reference for any angles, also repeated ones."""
    angles = [float(angle) for angle, _ in pairs]
    values = [value for _, value in pairs]
    turn = np.radians(angles)
    columns = np.column_stack([np.ones(len(turn)), np.cos(turn), np.sin(turn)])
    assume(len(set(angles)) >= 3 and np.linalg.cond(columns) < 1e4)
    found = fit(angles, values)
    expected, *_ = np.linalg.lstsq(columns, np.array(values), rcond=None)
    np.testing.assert_allclose([found.mean, found.a, found.b], expected, atol=1e-7)
    expected = np.linalg.inv(columns.T @ columns)
    np.testing.assert_allclose(found.covariance, expected, rtol=1e-6, atol=1e-6 * expected.max())


@given(series, dial)
def test_moving_the_dial_zero_changes_only_the_mean(values, added):
    """A constant added to every reading is not runout."""
    angles = even(len(values))
    before, after = fit(angles, values), fit(angles, [value + added for value in values])
    assert after.mean == pytest.approx(before.mean + added, abs=1e-9)
    assert after.eccentricity == pytest.approx(before.eccentricity, abs=1e-9)


@given(series, st.integers(0, 359))
def test_another_zero_angle_turns_the_high_spot_with_it(values, shift):
    """Counting angles from elsewhere moves the high spot by as much and nothing else."""
    angles = even(len(values))
    before = fit(angles, values)
    after = fit([angle + shift for angle in angles], values)
    assume(before.eccentricity > 0.01)
    assert after.eccentricity == pytest.approx(before.eccentricity, abs=1e-9)
    assert apart(after.high_deg, before.high_deg + shift) < 1e-5


@given(series)
def test_turning_the_other_way_mirrors_the_high_spot(values):
    """Reversed angles give the same eccentricity and the angle's negative."""
    angles = even(len(values))
    before, after = fit(angles, values), fit([-angle for angle in angles], values)
    assume(before.eccentricity > 0.01)
    assert after.eccentricity == pytest.approx(before.eccentricity, abs=1e-9)
    assert apart(after.high_deg, -before.high_deg) < 1e-5


@given(series)
def test_the_residual_holds_nothing_of_the_fit(values):
    """Fitting the residuals again gives nothing."""
    found = fit(even(len(values)), values)
    again = fit(found.angles, found.residuals)
    assert (again.mean, again.a, again.b) == pytest.approx((0, 0, 0), abs=1e-9)


@pytest.mark.parametrize("n", [3, 4, 6, 8, 12])
def test_even_positions_spread_an_error_by_root_two_over_n(n):
    """u(e) = u·√(2/n), whatever the high spot."""
    assert fit(even(n), [cos(radians(a - 33)) for a in even(n)]).spread() == pytest.approx(
        sqrt(2 / n)
    )


def test_without_eccentricity_the_worst_direction_counts():
    """Equal readings have no high spot, so the largest spread of any direction is given."""
    found = fit([0, 30, 60, 90], [1, 1, 1, 1])
    block = np.array(found.covariance)[1:, 1:]
    assert found.spread() == pytest.approx(sqrt(max(np.linalg.eigvalsh(block))))
    assert (found.eccentricity, found.high_deg) == (0.0, 0.0)


def test_three_positions_leave_no_form():
    """Three unknowns take all that three readings say; a repeat does not add a position."""
    assert fit(even(3), [0, 1, 5]).form is None
    assert fit([0, 120, 240, 360], [0, 1, 5, 0]).form is None
    assert fit(even(4), [0, 1, 0, 1]).form == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("n", "hides"),
    [(3, True), (4, True), (5, False), (6, True), (7, False), (8, False), (12, False)],
)
def test_three_lobes_hide_at_three_four_and_six_places(n, hides):
    """At 3, 4 and 6 even places cos 3θ and sin 3θ are not both free of the other columns."""
    assert can_hide_lobes(even(n)) is hides


def test_six_places_set_by_eye_still_hide_lobes():
    """A few degrees off do not show what even places miss."""
    assert can_hide_lobes([0, 61, 118, 182, 240, 299])


def test_the_shape_uses_the_orders_that_the_places_can_tell():
    """Eight places tell three orders, five tell two, four only the first."""
    assert [shape(even(n), [0.0] * n)[0] for n in (4, 5, 8)] == [(1,), (1, 2), (1, 2, 3)]


@pytest.mark.parametrize(
    ("angles", "values", "said"),
    [
        ([0, 90], [1, 2], "Fewer than three"),
        ([0, 360, 90], [1, 2, 3], "Fewer than three"),
        ([0, 90, 180], [1, 2], "2 readings and 3 angles"),
        ([0, 0.00001, 0.00002], [1, 2, 3], "too close together"),
    ],
)
def test_places_that_cannot_fix_a_centre_are_refused(angles, values, said):
    """The refusal says what is wrong."""
    with pytest.raises(BadInput, match=said):
        fit(angles, values)
