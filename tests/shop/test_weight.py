"""The weight band against the trade's fact, published densities and plain cylinders."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.weight import DENSITIES, KG_PER_LB, cylinder_m3, weight

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_weight.json").read_text(encoding="utf-8")
)
DIAMETERS = st.floats(50, 1300)
LENGTHS = st.floats(5, 600)


def test_the_trades_eight_inch_chuck_lies_in_its_band() -> None:
    """An 8 in steel three-jaw weighs about 50 lb (common practice, no source)."""
    found = weight(**SEEN["eight_inch"]["inputs"])
    assert found.low_lb <= SEEN["eight_inch"]["lb"] <= found.high_lb
    assert found.high_lb <= 1.25 * SEEN["eight_inch"]["lb"]


@pytest.mark.parametrize("material", DENSITIES)
def test_published_densities_lie_in_the_band(material: str) -> None:
    """Public references (seen)."""
    low, high = DENSITIES[material]
    assert all(low <= density <= high for density in SEEN["densities"]["within"][material])


def test_a_solid_steel_plate_holds_the_plain_cylinder() -> None:
    """π·r²·L at 7850 kg/m³ lies in the band of a plain plate (identity)."""
    plain = pi * 0.125**2 * 0.05 * 7850
    found = weight(250, 50, material="steel", jaws=0)
    assert found.low_kg <= plain <= found.high_kg


@given(DIAMETERS, LENGTHS, st.floats(0, 0.9))
def test_a_bored_cylinder_is_the_whole_less_its_core(d: float, length: float, share: float) -> None:
    """Whole = bored + core (identity)."""
    whole = cylinder_m3(d, length)
    parts = cylinder_m3(d, length, d * share) + cylinder_m3(d * share, length)
    assert parts == pytest.approx(whole)


@given(DIAMETERS, LENGTHS, st.floats(0, 0.9), st.integers(0, 6), st.sampled_from(list(DENSITIES)))
def test_the_band_is_a_band_in_both_units(
    d: float, length: float, share: float, jaws: int, material: str
) -> None:
    """Low is below high, whole units, and pounds and kilograms tell of one part."""
    found = weight(d, length, d * share, material=material, jaws=jaws)
    assert 0 <= found.low_kg < found.high_kg
    assert 0 <= found.low_lb < found.high_lb
    assert abs(found.low_lb * KG_PER_LB - found.low_kg) <= 1
    assert abs(found.high_lb * KG_PER_LB - found.high_kg) <= 1


@given(DIAMETERS, DIAMETERS, LENGTHS, LENGTHS)
def test_a_bigger_part_is_never_planned_lighter(d1, d2, l1, l2) -> None:
    """The heavier end grows with diameter and with length."""
    (small, big), (short, long) = sorted((d1, d2)), sorted((l1, l2))
    lighter = weight(small, short, material="steel")
    assert lighter.high_kg <= weight(big, long, material="steel").high_kg


def test_jaws_and_bore_move_the_band_the_right_way() -> None:
    """Jaws make it heavier, a bore lighter, cast iron lighter than steel at the heavier end."""
    plain = weight(400, 120, material="steel")
    assert weight(400, 120, material="steel", jaws=4).high_kg > plain.high_kg
    assert weight(400, 120, 100, material="steel").high_kg < plain.high_kg
    assert weight(400, 120, material="cast-iron").high_kg < plain.high_kg


def test_the_lift_is_planned_with_the_heavier_end() -> None:
    """The plain form repeats the heavier end under the name it is used by."""
    plain = weight(200, 80, material="steel").to_json()
    assert plain["plan_with_kg"] == plain["high_kg"]
    assert plain["plan_with_lb"] == plain["high_lb"]


@pytest.mark.parametrize(
    ("d", "length", "bore", "more"),
    [
        (49, 80, 0, {}),
        (1301, 80, 0, {}),
        (200, 4, 0, {}),
        (200, 601, 0, {}),
        (float("nan"), 80, 0, {}),
        (200, 80, 200, {}),
        (200, 80, -1, {}),
        (200, 80, float("nan"), {}),
        (200, 80, 0, {"jaws": 7}),
        (200, 80, 0, {"jaws": -1}),
        (200, 80, 0, {"material": "brass"}),
    ],
)
def test_what_is_no_chuck_is_refused(d: float, length: float, bore: float, more: dict) -> None:
    """No estimate is made outside the sizes of chucks and plates."""
    with pytest.raises(BadInput):
        weight(d, length, bore, **({"material": "steel"} | more))
