"""Balance grades and forces against published figures, and what a shift amounts to."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.balance import GMM_PER_OZIN, balance, centrifugal_n, permissible_um

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_balance.json").read_text(encoding="utf-8")
)
GRADES = st.floats(0.4, 40)
SPEEDS = st.floats(50, 5000)
MASSES = st.floats(1, 300)


def test_the_standards_example() -> None:
    """G 2.5 at 3600 rev/min is 6.631 µm (ISO 21940-11, transcribed)."""
    case = SEEN["grade"]
    found = balance(**case["inputs"])
    assert found.permissible_um == pytest.approx(case["permissible_um"], abs=case["tolerance"])
    assert found.to_json()["permissible_eccentricity_um"] == pytest.approx(6.631, abs=0.001)


def test_a_toolholder_catalogues_example() -> None:
    """2 kg, G 6.3, 10 000 rev/min: 6 g·mm/kg and 12 g·mm (a catalogue, seen)."""
    case = SEEN["toolholder"]
    found = balance(**case["inputs"])
    assert found.permissible_um == pytest.approx(case["permissible_um"], abs=case["tolerance"])
    assert found.permissible_gmm == pytest.approx(case["permissible_gmm"], abs=case["tolerance"])


@pytest.mark.parametrize(("rpm", "newtons"), SEEN["force"]["newtons"].items())
def test_the_outward_pull_of_an_instrument_makers_glossary(rpm: str, newtons: float) -> None:
    """10 g at 100 mm: 98.69 N at 3000, 394.79 N at 6000 rev/min (seen)."""
    found = centrifugal_n(SEEN["force"]["unbalance_gmm"], float(rpm))
    assert found == pytest.approx(newtons, abs=SEEN["force"]["tolerance"])


def test_a_body_out_of_the_middle_is_unbalanced_by_mass_times_shift() -> None:
    """1000 g by 0.002 mm is 2 g·mm (the same glossary, seen)."""
    case = SEEN["force"]["shifted"]
    found = balance(6.3, body_kg=case["body_kg"], shift_um=case["shift_um"])
    assert found.unbalance_gmm == pytest.approx(case["unbalance_gmm"])


@given(GRADES, SPEEDS, MASSES)
def test_the_inch_form_tells_the_same(grade: float, rpm: float, kg: float) -> None:
    """U oz·in = 6.015·G·W/N with W in pounds (transcribed)."""
    found = balance(grade, rpm=rpm, body_kg=kg)
    printed = SEEN["inch"]["factor"] * grade * (kg / 0.45359237) / rpm
    assert found.permissible_gmm / GMM_PER_OZIN == pytest.approx(
        printed, rel=SEEN["inch"]["tolerance"]
    )


@given(GRADES, SPEEDS)
def test_the_grade_is_the_middles_own_speed(grade: float, rpm: float) -> None:
    """e·ω is G in mm/s (the grade's meaning, identity)."""
    assert permissible_um(grade, rpm) / 1000 * 2 * pi * rpm / 60 == pytest.approx(grade)


@given(GRADES, SPEEDS, MASSES, st.floats(1, 500), st.floats(0, 100))
def test_the_shift_reaches_the_grade_at_its_speed(grade, rpm, body, shift, more) -> None:
    """At `rpm_at_grade` the shift amounts to the grade, and the grade grows with the speed."""
    found = balance(grade, rpm=rpm, body_kg=body, shift_um=shift, turning_kg=body + more)
    assert permissible_um(grade, found.rpm_at_grade) == pytest.approx(found.specific_um)
    again = balance(
        grade, rpm=found.rpm_at_grade, body_kg=body, shift_um=shift, turning_kg=body + more
    )
    assert again.grade_reached == pytest.approx(grade)
    assert (found.grade_reached > grade) == (rpm > found.rpm_at_grade)


def test_truing_a_twenty_kilogram_body_by_a_twentieth_of_a_millimetre() -> None:
    """m·s, s over all that turns, e·ω and m·e·ω² (identities)."""
    found = balance(6.3, rpm=1000, body_kg=20, shift_um=50, turning_kg=40)
    assert found.unbalance_gmm == pytest.approx(20_000 * 0.05)
    assert found.specific_um == pytest.approx(25)
    assert found.grade_reached == pytest.approx(0.025 * 2 * pi * 1000 / 60)
    assert found.force_n == pytest.approx(20 * 50e-6 * (2 * pi * 1000 / 60) ** 2)
    assert found.rpm_at_grade == pytest.approx(6.3 / 0.025 * 60 / (2 * pi))


def test_what_was_out_before_is_said_to_be_unknown() -> None:
    """The shift may add to it or take from it; that the body alone is counted is said too."""
    said = " ".join(str(note) for note in balance(6.3, body_kg=20, shift_um=50).notes)
    assert "is not known" in said
    assert "Only the body" in said
    shared = balance(6.3, body_kg=20, shift_um=50, turning_kg=30).notes
    assert len(shared) == 1


def test_without_a_mass_the_shift_itself_is_compared() -> None:
    """Specific unbalance is then the shift; there is no unbalance and no force."""
    found = balance(6.3, rpm=1000, shift_um=50)
    assert found.specific_um == 50
    assert (found.unbalance_gmm, found.force_n) == (None, None)


def test_a_shift_of_nothing_reaches_no_grade() -> None:
    """No speed and no grade come of nothing."""
    found = balance(6.3, rpm=1000, body_kg=20, shift_um=0)
    assert (found.rpm_at_grade, found.grade_reached) == (None, None)
    assert found.unbalance_gmm == 0


def test_the_record_speaks_json() -> None:
    """The contract's keys, and the round trip."""
    plain = balance(6.3, rpm=1200, body_kg=20, shift_um=50).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert {"permissible_eccentricity_um", "rpm_at_grade"} <= plain.keys()


@pytest.mark.parametrize(
    ("grade", "more"),
    [
        (0.1, {"rpm": 1000}),
        (4001, {"rpm": 1000}),
        (float("nan"), {"rpm": 1000}),
        (6.3, {}),
        (6.3, {"rpm": 0}),
        (6.3, {"rpm": -1}),
        (6.3, {"rpm": float("inf")}),
        (6.3, {"rpm": 1000, "body_kg": 0}),
        (6.3, {"rpm": 1000, "shift_um": -1}),
        (6.3, {"rpm": 1000, "shift_um": float("nan")}),
        (6.3, {"rpm": 1000, "body_kg": 20, "turning_kg": 19}),
        (6.3, {"rpm": 1000, "turning_kg": 19}),
    ],
)
def test_what_cannot_be_is_refused(grade: float, more: dict) -> None:
    """Grades that are not printed, nothing to compare with, and impossible masses."""
    with pytest.raises(BadInput):
        balance(grade, **more)
