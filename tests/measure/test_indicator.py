"""Dials roll over and levers read long; both are put right only where the person says so."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.indicator import Indicator, lever_factor, may_roll_over, unwrap
from guide.measure.numerals import parse_many
from guide.measure.quantity import Length
from guide.plain import BadInput

OUTSIDE = Path(__file__).parents[1] / "outside"
LEVER = json.loads((OUTSIDE / "measure_lever.json").read_text(encoding="utf-8"))
TENTH = Length.parse("0.0005", "in")


@pytest.mark.parametrize("case", LEVER, ids=lambda case: case["name"])
def test_a_lever_is_corrected_as_makers_tables_do(case):
    """Reading times the cosine of the contact angle, at the tables' two digits."""
    found = case["inputs"]["reading"] * lever_factor(case["inputs"]["contact_angle_deg"])
    assert found == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("angle", [-1, 60.1, 90, float("nan")])
def test_beyond_the_tables_nothing_is_corrected(angle):
    """It refuses rather than extrapolate."""
    with pytest.raises(BadInput, match="contact angle"):
        lever_factor(angle)


def test_the_lever_correction_is_a_choice():
    """Without an angle, and on a plunger, readings stand as they are."""
    assert Indicator("lever", TENTH).factor == 1
    assert Indicator("plunger", TENTH, contact_angle_deg=30).factor == 1
    assert Indicator("lever", TENTH, contact_angle_deg=60).factor == pytest.approx(0.5)


def test_a_dial_that_rolls_over_is_unwrapped():
    """0, 96, 93, 97 with 100 to a turn are 0, −4, −7, −3 (the contract's example)."""
    read = parse_many("0 96 93 97")
    assert may_roll_over(read, Decimal(100))
    assert unwrap(read, Decimal(100)) == (0, -4, -7, -3)


@pytest.mark.parametrize("text", ["0 4 7 3", "0 12 20 8", "0 -96 -93", "0 50 0"])
def test_a_dial_that_did_not_roll_over_is_not_asked_about(text):
    """No step over half a turn, or a sign that a continuous dial does not have."""
    assert not may_roll_over(parse_many(text), Decimal(100))


@given(st.lists(st.integers(-49, 49), min_size=1, max_size=12), st.integers(0, 99))
def test_small_steps_come_back_from_any_zero(steps, start):
    """Whatever the dial began at, steps under half a turn are found again."""
    true = [start]
    for step in steps:
        true.append(true[-1] + step)
    found = unwrap([Decimal(value % 100) for value in true], Decimal(100))
    assert [value - found[0] for value in found] == [value - true[0] for value in true]


def test_a_turn_that_counts_nothing_is_refused():
    """Range per turn is a fact of the indicator."""
    with pytest.raises(BadInput):
        unwrap((Decimal(1),), Decimal(0))
    with pytest.raises(BadInput):
        may_roll_over((Decimal(1),), Decimal(-1))


def test_calibration_runs_out_after_its_day():
    """On the day itself it still holds; without a date nothing runs out."""
    known = Indicator("plunger", TENTH, calibration_due=date(2030, 1, 1))
    assert not known.out_of_date(date(2030, 1, 1))
    assert known.out_of_date(date(2030, 1, 2))
    assert not Indicator("plunger", TENTH).out_of_date(date(2030, 1, 2))
