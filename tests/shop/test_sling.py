"""Sling legs against suppliers' tables and a naval manual, and what is refused."""

from __future__ import annotations

import json
from math import cos, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.sling import from_included, sling

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_sling.json").read_text(encoding="utf-8")
)
ANGLES = st.floats(30, 90)


@pytest.mark.parametrize(("angle", "factor"), SEEN["factors"]["by_angle"].items())
def test_the_factor_is_the_suppliers(angle: str, factor: float) -> None:
    """1.155 at 60°, 1.414 at 45°, 2.000 at 30° from the horizontal (suppliers' tables, seen)."""
    found = sling(1000, 2, float(angle))
    assert found.factor == pytest.approx(factor, abs=SEEN["factors"]["tolerance"])


@pytest.mark.parametrize(("angle", "leg"), SEEN["two_legs"]["leg_lb"].items())
def test_ten_thousand_pounds_on_two_legs(angle: str, leg: float) -> None:
    """5 000, 5 775, 7 070 and 10 000 lb a leg (a supplier's table, seen)."""
    found = sling(SEEN["two_legs"]["load_lb"], 2, float(angle), unit="lb")
    assert found.leg == pytest.approx(leg, abs=SEEN["two_legs"]["tolerance"])


@pytest.mark.parametrize(("angle", "leg"), SEEN["example"]["leg"].items())
def test_a_suppliers_worked_example(angle: str, leg: float) -> None:
    """1000 on two legs pulls 577 at 60° and 707 at 45° (a supplier's page, seen)."""
    assert sling(1000, 2, float(angle)).leg == pytest.approx(leg, abs=0.5)


@pytest.mark.parametrize(("angle", "leg"), SEEN["naval"]["leg_lb"].items())
def test_a_naval_manuals_example(angle: str, leg: float) -> None:
    """1000 lb is 500 a leg at 90° and 1000 at 30° (a US Navy training manual, transcribed)."""
    assert sling(SEEN["naval"]["load_lb"], 2, float(angle), unit="lb").leg == pytest.approx(leg)


@pytest.mark.parametrize("legs", [3, 4])
def test_of_three_or_four_legs_two_are_counted(legs: int) -> None:
    """Two legs may take a rigid load while the others only balance it (the same manual)."""
    found = sling(1000, legs, 60)
    assert found.carrying == SEEN["naval"]["counted_of_four"]
    assert found.leg == sling(1000, 2, 60).leg
    assert "slack" in str(found.notes[0])


@pytest.mark.parametrize(("between", "times"), SEEN["included"]["times_one_leg"].items())
def test_the_angle_between_the_legs_as_uk_tables_count(between: str, times: float) -> None:
    """Two legs 90° apart carry 1.4 times one leg, 120° apart once (a UK supplier, seen)."""
    found = sling(1000, 2, from_included(float(between)))
    assert 1000 / found.leg == pytest.approx(times, abs=SEEN["included"]["tolerance"])


@pytest.mark.parametrize("angle", [29.9, 10, 0.1])
def test_under_thirty_degrees_there_is_no_figure(angle: float) -> None:
    """It is rigged again (ASME B30.9 as quoted, transcribed)."""
    found = sling(1000, 2, angle)
    assert (found.leg, found.factor, found.sideways) == (None, None, None)
    assert found.to_json()["leg_tension"] is None
    assert "rig again" in str(found.to_json()["why_not"])


def test_at_thirty_degrees_there_still_is_one() -> None:
    """The limit itself is inside, with a remark on longer legs."""
    found = sling(1000, 2, 30)
    assert found.leg == pytest.approx(1000)
    assert "longer legs" in str(found.notes[-1])


@given(st.floats(1, 5000), ANGLES)
def test_two_legs_together_hold_the_load_up_and_pull_against_each_other(load, angle) -> None:
    """Upward parts add to the load, sideways parts cancel (statics, identity)."""
    found = sling(load, 2, angle)
    assert 2 * found.leg * sin(radians(angle)) == pytest.approx(load)
    assert found.sideways == pytest.approx(found.leg * cos(radians(angle)))


@given(ANGLES, ANGLES)
def test_a_flatter_sling_never_pulls_less(one: float, other: float) -> None:
    """The pull falls as the legs stand up."""
    flat, steep = sorted((one, other))
    assert sling(100, 2, flat).leg >= sling(100, 2, steep).leg - 1e-9


def test_one_leg_carries_it_all() -> None:
    """Straight, with no angle to give."""
    assert sling(50, 1, unit="lb").leg == pytest.approx(50)


def test_kilograms_and_pounds_tell_of_one_pull() -> None:
    """The plain form has both, by the exact pound."""
    plain = sling(100, 2, 60, unit="kg").to_json()
    assert plain["leg_tension_lb"] * 0.45359237 == pytest.approx(plain["leg_tension_kg"], abs=0.05)
    assert json.loads(json.dumps(plain)) == plain


@pytest.mark.parametrize(
    ("load", "legs", "angle", "unit"),
    [
        (0, 2, 60, "kg"),
        (-1, 2, 60, "kg"),
        (float("nan"), 2, 60, "kg"),
        (float("inf"), 2, 60, "kg"),
        (100, 0, 60, "kg"),
        (100, 5, 60, "kg"),
        (100, 2, None, "kg"),
        (100, 2, 0, "kg"),
        (100, 2, 91, "kg"),
        (100, 2, float("nan"), "kg"),
        (100, 1, 60, "kg"),
        (100, 2, 60, "stone"),
    ],
)
def test_what_no_sling_can_be_is_refused(load, legs, angle, unit) -> None:
    """Loads, legs, angles and units that cannot be."""
    with pytest.raises(BadInput):
        sling(load, legs, angle, unit=unit)


@pytest.mark.parametrize("angle", [-1, 180, float("nan")])
def test_an_angle_between_legs_that_cannot_be_is_refused(angle: float) -> None:
    """From 0 up to, not at, 180°."""
    with pytest.raises(BadInput):
        from_included(angle)
