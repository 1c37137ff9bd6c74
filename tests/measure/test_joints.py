"""Joints are compared with their uncertainty and the reach of the bar."""

from __future__ import annotations

from decimal import Decimal
from math import sqrt

import numpy as np
import pytest

from guide.measure.joints import joints
from guide.plain import BadInput


def d(**plays):
    """Plays as decimals, one or more at each place."""
    return {
        place: tuple(
            Decimal(str(one)) for one in (values if isinstance(values, list) else [values])
        )
        for place, values in plays.items()
    }


def by_name(found):
    """The joints by what gives."""
    return {joint.gives: joint for joint in found.joints}


def test_a_division_gives_a_play_the_spread_of_two_readings():
    """u = g/√6 for one place and √2 of it for a difference of two."""
    found = by_name(joints(d(nose=0.5, plate=0.6), graduation=0.1))
    assert found["spindle"].expanded_uncertainty == pytest.approx(2 * 0.1 / sqrt(6))
    assert found["seat"].expanded_uncertainty == pytest.approx(2 * 0.1 / sqrt(3))
    rng = np.random.default_rng(71)
    ends = rng.uniform(0, 1, (40_000, 2))
    shown = np.round(ends, 1)
    error = np.diff(shown - ends, axis=1)
    assert np.std(error) == pytest.approx(0.1 / sqrt(6), rel=0.02)


def test_repeats_narrow_by_their_root_and_widen_by_students_factor():
    """Three repeats with a standard deviation of 0.1: 4.53·0.1/√3."""
    found = joints(d(nose=[0.4, 0.5, 0.6]))
    (spindle,) = found.joints
    assert spindle.at_most == pytest.approx(0.5)
    assert spindle.expanded_uncertainty == pytest.approx(4.53 * 0.1 / sqrt(3))
    assert found.repeats == {"nose": 3}


@pytest.mark.parametrize(
    ("plays", "joint"),
    [
        (d(nose=0.5, plate=0.5, bar=0.6), "spindle"),
        (d(nose=0.1, plate=0.9, bar=1.0), "seat"),
        (d(nose=0.1, plate=0.2, bar=1.0), "grip"),
        (d(nose=0.05, plate=0.05, bar=0.05), "none"),
        (d(plate=0.5, bar=0.6), "unknown"),
    ],
)
def test_the_joint_that_adds_most_above_its_noise_is_named(plays, joint):
    """As `compare` has it, the noise being the dial's."""
    assert joints(plays, graduation=0.1).play.looks_to == joint


def test_a_rocking_spindle_is_not_taken_for_a_poor_grip():
    """0.3 at 3 in from where it rocks is 0.9 at 9 in: the reach explains all of it."""
    plays = d(nose=0.3, plate=0.4, bar=0.9)
    near, far = (
        joints(plays, graduation=0.02),
        joints(plays, graduation=0.02, reach={"nose": 3, "plate": 4, "bar": 9}),
    )
    assert near.play.looks_to == "grip"
    assert far.play.looks_to == "spindle"
    grip = by_name(far)["grip"]
    assert (grip.at_most, grip.at_least, grip.stands_out) == (0.5, 0, False)


def test_a_grip_that_gives_more_than_the_reach_explains_is_named():
    """The truth lies between sliding and rocking, and both are given."""
    found = joints(
        d(nose=0.1, plate=0.1, bar=1.5), graduation=0.02, reach={"nose": 3, "plate": 4, "bar": 9}
    )
    grip = by_name(found)["grip"]
    assert (found.play.looks_to, grip.at_most) == ("grip", 1.4)
    assert grip.at_least == pytest.approx(1.5 - 0.1 * 9 / 4)


def test_without_noise_any_difference_counts():
    """As before a graduation was given."""
    found = joints(d(nose=0.1, plate=0.11))
    assert by_name(found)["seat"].stands_out
    assert by_name(found)["seat"].expanded_uncertainty is None


def test_nothing_read_is_refused():
    """It says what to read."""
    with pytest.raises(BadInput, match="bare nose"):
        joints({})


@pytest.mark.parametrize(
    "reach",
    [
        {"nose": 0, "plate": 4},
        {"nose": 4, "plate": 3},
        {"nose": 4},
        {"nose": 4, "plate": float("inf")},
        {"nose": float("nan"), "plate": 4},
    ],
)
def test_a_reach_that_cannot_be_is_refused(reach):
    """One distance above zero for each place, growing outward."""
    with pytest.raises(BadInput, match="reach"):
        joints(d(nose=0.1, plate=0.2), reach=reach)
