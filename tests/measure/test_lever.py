"""A lever's readings against makers' tables, corrected only where the person says so."""

from __future__ import annotations

import json
from math import cos, radians
from pathlib import Path

import pytest

from guide.measure.lever import lever
from guide.plain import BadInput

LEVER = json.loads(
    (Path(__file__).parents[1] / "outside" / "measure_lever.json").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", LEVER, ids=lambda case: case["name"])
def test_a_reading_is_corrected_as_makers_tables_do(case) -> None:
    """Reading times the cosine, at the tables' two digits (makers' guides, seen)."""
    found = lever([case["inputs"]["reading"]], case["inputs"]["contact_angle_deg"])
    assert found.corrected[0] == pytest.approx(case["expected"], abs=case["tolerance"])


def test_the_correction_is_a_choice() -> None:
    """Left as read for an involute tip; the angle is still looked at."""
    found = lever([0.2, -0.1], 30, correct=False)
    assert found.corrected == (0.2, -0.1)
    assert found.factor == 1


def test_a_lever_built_to_read_true_at_an_angle_does() -> None:
    """At 12° one built for 12° needs nothing, at 0° it reads short (identity)."""
    assert lever([0.2], 12, true_at_deg=12).factor == pytest.approx(1)
    assert lever([0.2], 0, true_at_deg=12).factor == pytest.approx(1 / cos(radians(12)))


@pytest.mark.parametrize(
    ("readings", "angle", "more"),
    [([], 10, {}), ([0.2], 61, {}), ([0.2], -1, {}), ([0.2], 10, {"true_at_deg": 21})],
)
def test_outside_the_tables_nothing_is_corrected(readings, angle, more) -> None:
    """It refuses rather than extrapolate."""
    with pytest.raises(BadInput):
        lever(readings, angle, **more)
