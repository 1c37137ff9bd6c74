"""The lowest of the marks, no figure without one, and the speed of a cut."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.speed import GRIP, M_PER_FT, rpm_for, speed, surface_m_min

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_speed.json").read_text(encoding="utf-8")
)
SPEEDS = st.floats(50, 5000)


def test_a_machinists_treatise_in_inches() -> None:
    """60 ft/min at 5 in is 46 revolutions (Turning and Boring, transcribed)."""
    case = SEEN["inch"]
    found = rpm_for(case["ft_min"] * M_PER_FT, case["inches"] * 25.4)
    assert found == pytest.approx(case["rpm"], abs=case["tolerance"])


@pytest.mark.parametrize(("m_min", "rpm"), SEEN["metric"]["pairs"])
def test_a_public_table_in_millimetres(m_min: float, rpm: float) -> None:
    """20 to 35 m/min at 20 mm is 320 to 560 rev/min, rounded (seen)."""
    found = rpm_for(m_min, SEEN["metric"]["mm"])
    assert found == pytest.approx(rpm, rel=SEEN["metric"]["tolerance"])


@given(st.floats(5, 300), st.floats(5, 1000))
def test_the_inch_and_the_metric_formula_are_one(m_min: float, mm: float) -> None:
    """12·V/(π·D) with V in ft/min and D in inches (identity)."""
    assert rpm_for(m_min, mm) == pytest.approx(12 * (m_min / M_PER_FT) / (pi * mm / 25.4))
    assert surface_m_min(rpm_for(m_min, mm), mm) == pytest.approx(m_min)


@given(SPEEDS, SPEEDS, SPEEDS)
def test_the_lowest_mark_is_the_lowest(chuck: float, lathe: float, work: float) -> None:
    """And it says whose it is."""
    found = speed(chuck=chuck, lathe=lathe, work=work)
    marks = {"chuck": chuck, "lathe": lathe, "work": work}
    assert found.lowest_rpm == min(marks.values())
    assert marks[found.set_by] == found.lowest_rpm


@pytest.mark.parametrize("state", ["missing", "damaged"])
@pytest.mark.parametrize("where", ["chuck", "lathe", "work"])
def test_a_mark_that_cannot_be_read_means_no_figure_at_all(where: str, state: str) -> None:
    """Only what to find first, not even the speed of the cut."""
    marks = {"chuck": 2000, "lathe": 1800, "work": 1500, where: state}
    found = speed(**marks, cutting_m_min=30, cut_mm=50, body_mm=200)
    assert (found.lowest_rpm, found.rpm_for_cut, found.rim_m_min) == (None, None, None)
    assert len(found.why_not) == 1
    assert state in str(found.why_not[0])
    assert "first" in str(found.why_not[0]) or "before it turns" in str(found.why_not[0])


def test_a_cut_that_asks_for_more_than_the_lowest_mark_is_remarked_on() -> None:
    """The rim is worked out at the lower of the two."""
    found = speed(chuck=1000, lathe=1800, cutting_m_min=200, cut_mm=10, body_mm=200)
    assert found.rpm_for_cut > 1000
    assert "end of it" in str(found.notes[0])
    assert found.rim_at_rpm == 1000
    assert found.rim_m_min == pytest.approx(pi * 200)


def test_loss_of_grip_is_always_said_to_be_the_makers_business() -> None:
    """With figures and without."""
    for found in (speed(chuck=1000, lathe=900), speed(chuck="missing")):
        assert GRIP in [note.sentence for note in found.notes]


def test_a_mark_not_given_is_asked_for() -> None:
    """A cut alone is worked out, and what to look for is said."""
    said = " ".join(str(note) for note in speed(cutting_m_min=30, cut_mm=50).notes)
    assert "chuck's marked maximum was not given" in said
    assert "lathe's highest speed was not given" in said


def test_nothing_is_called_safe_or_allowed() -> None:
    """Neither a name nor a word of the answer is a permission."""
    plain = speed(chuck=1000, lathe=900, cutting_m_min=30, cut_mm=50, body_mm=200).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert not [word for word in ("safe", "allowed", "permitted") if word in str(plain).lower()]


@pytest.mark.parametrize(
    "more",
    [
        {},
        {"chuck": 0.0},
        {"chuck": -5},
        {"chuck": float("nan")},
        {"chuck": "worn"},
        {"chuck": 1000, "body_mm": 0},
        {"cutting_m_min": 30},
        {"cut_mm": 30},
        {"cutting_m_min": 0, "cut_mm": 30},
    ],
)
def test_what_cannot_be_is_refused(more: dict) -> None:
    """Speeds and sizes of nothing, half a cut, and a mark that is neither figure nor state."""
    with pytest.raises(BadInput):
        speed(**more)
