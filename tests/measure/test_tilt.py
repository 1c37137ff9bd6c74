"""Tilt is a straight line through the centres, with its uncertainty."""

from __future__ import annotations

from math import atan, degrees, sqrt

import numpy as np
import pytest

from guide.measure.angles import even
from guide.measure.axis import STANDS_OUT, through
from guide.measure.harmonic import fit
from guide.measure.tilt import tilt
from guide.plain import BadInput


def bar(a, b, n=8, mean=5.0):
    """Readings of a round bar whose centre is off by (a, b)."""
    turn = np.radians(even(n))
    return (mean + a * np.cos(turn) + b * np.sin(turn)).tolist()


def test_the_lean_and_the_runout_elsewhere_come_back():
    """Centre (1, 2) + z·(0.5, −0.25) read at 1 and 5, worked out at 9."""
    found = tilt([bar(1.5, 1.75), bar(3.5, 0.75)], (1, 5), "thou", "in", at=9)
    assert found.slope == pytest.approx(np.hypot(0.5, 0.25))
    assert found.toward_deg == pytest.approx(360 - degrees(atan(0.5)))
    assert found.at.fitted_tir == pytest.approx(2 * np.hypot(5.5, 0.25))
    assert found.angle_deg == pytest.approx(degrees(atan(found.slope / 1000)))
    assert [place.fitted_tir for place in found.places] == pytest.approx(
        [2 * np.hypot(1.5, 1.75), 2 * np.hypot(3.5, 0.75)]
    )


def test_a_parallel_offset_is_no_tilt():
    """The same centre at both stations: slope nothing, and no flag."""
    found = tilt([bar(1, 1), bar(1, 1, mean=-3)], (1, 5), "thou", "in", graduation=0.5)
    assert found.slope == pytest.approx(0, abs=1e-9)
    assert "tilt" not in found.flags


def test_a_lean_above_the_noise_is_flagged_and_only_with_an_uncertainty():
    """Two thou of runout against half a graduation stands out."""
    rows = [bar(0, 0), bar(1, 0)]
    assert "tilt" in tilt(rows, (1, 5), "thou", "in", graduation=0.5).flags
    assert "tilt" not in tilt(rows, (1, 5), "thou", "in").flags
    assert tilt(rows, (1, 5), "thou", "in", at=3).at.expanded_uncertainty is None


def test_noise_alone_is_called_tilt_one_time_in_twenty():
    """Simulated: the factor is the 95 % point of a plane vector's length."""
    rng = np.random.default_rng(7)
    said = []
    for _ in range(1200):
        fits = [fit(even(8), rng.normal(0, 0.2, 8).tolist()) for _ in range(2)]
        said.append(through((1, 5), fits, 0.2).stands_out)
    assert np.mean(said) == pytest.approx(0.05, abs=0.02)
    assert pytest.approx(sqrt(5.991), abs=1e-3) == STANDS_OUT


@pytest.mark.parametrize(("station", "factor"), [(1, 1), (5, 1), (3, sqrt(0.5)), (9, sqrt(5))])
def test_uncertainty_grows_beyond_the_stations(station, factor):
    """At a station that of its own readings, midway less, one span beyond √(1 + 4) times it."""
    found = tilt([bar(1, 0), bar(2, 0)], (1, 5), "thou", "in", u=0.2, at=station)
    assert found.at.expanded_uncertainty == pytest.approx(factor * 4 * 0.2 * sqrt(2 / 8))


def test_three_stations_agree_with_numpy():
    """numpy.polyfit is the reference for the line and its spread."""
    z, a = [1.0, 3.0, 6.0], [0.4, 0.9, 2.2]
    line = through(z, [fit(even(8), bar(one, 0)) for one in a], 0.2)
    slope, offset = np.polyfit(z, a, 1)
    assert line.a == pytest.approx((offset, slope))
    x = np.column_stack([np.ones(3), z])
    spread = np.linalg.inv(x.T @ x)
    assert line.u_slope == pytest.approx(0.1 * sqrt(spread[1, 1]))


@pytest.mark.parametrize("stations", [(1,), (1, 1), (1, 1 + 1e-12), (1, 2, 3)])
def test_stations_that_give_no_line_are_refused(stations):
    """Two different ones, one for each set of readings."""
    with pytest.raises(BadInput):
        tilt([bar(1, 0), bar(2, 0)], stations, "thou", "in")


def test_the_answer_has_its_keys():
    """`calc tilt` as JSON."""
    answer = tilt([bar(1, 0), bar(2, 0)], (1, 5), "um", "mm", at=9).to_json()
    assert list(answer) == [
        "unit", "station_unit", "stations", "slope", "toward_deg", "angle_deg", "at", "flags",
    ]  # fmt: skip
    assert list(answer["at"]) == [
        "station", "eccentricity", "high_at_deg", "fitted_tir", "expanded_uncertainty",
    ]  # fmt: skip
