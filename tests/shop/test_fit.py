"""The fit on a register: the trade's figure, how uncertainty adds, and what warmth does."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.fit import EXPANSION, Part, fit

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_fit.json").read_text(encoding="utf-8")
)
D = st.floats(50, 400)
GAP = st.floats(-0.5, 0.9)
U = st.floats(0.0005, 0.05)


def test_the_trades_ten_thousandths() -> None:
    """0.010 in of clearance is 0.005 in each way (common practice, no source)."""
    case = SEEN["register"]
    found = fit(Part(6.25 * 25.4, 0), Part((6.25 + case["clearance_in"]) * 25.4, 0))
    assert found.travel_mm / 25.4 == pytest.approx(case["each_way_in"])
    assert found.interference == "no"


def test_uncertainties_add_as_squares() -> None:
    """3 and 4 µm make 5 (JCGM 100; identity)."""
    one, other = SEEN["spread"]["each"]
    found = fit(Part(160, one), Part(160.25, other))
    assert found.uncertainty_mm == pytest.approx(SEEN["spread"]["together"])


@pytest.mark.parametrize("growth", SEEN["steel"]["per_kelvin"])
def test_published_growth_of_steel_lies_in_the_range(growth: float) -> None:
    """Carbon and low-alloy steels (a public reference, seen)."""
    low, high = EXPANSION["steel"]
    assert low <= growth <= high


@pytest.mark.parametrize("growth", SEEN["cast-iron"]["per_fahrenheit"])
def test_published_growth_of_cast_iron_lies_in_the_range(growth: float) -> None:
    """Grey iron for each °F, 1.8 times that for each kelvin (seen)."""
    low, high = EXPANSION["cast-iron"]
    assert low - 0.05e-6 <= growth * 1.8 <= high + 0.05e-6


@given(D, GAP, U, U)
def test_interference_is_yes_no_or_within_the_uncertainty(d, gap, u1, u2) -> None:
    """Three answers and no other, each where it belongs."""
    found = fit(Part(d, u1), Part(d + gap, u2))
    assert found.clearance_mm == pytest.approx(gap, abs=1e-9)
    if abs(found.clearance_mm) <= found.uncertainty_mm:
        assert found.interference == "undecided"
    else:
        assert found.interference == ("no" if found.clearance_mm > 0 else "yes")
    assert found.travel_mm == pytest.approx(max(gap, 0) / 2, abs=1e-9)


@given(D, st.floats(0.05, 0.9), U, st.floats(0, 1))
def test_reach_compares_half_the_runout_with_half_the_clearance(d, gap, u, runout) -> None:
    """Within, beyond, or too close to say, with the travel's own uncertainty."""
    found = fit(Part(d, u), Part(d + gap, u), runout_mm=runout)
    spare = found.travel_mm - runout / 2
    if abs(spare) <= found.uncertainty_mm / 2:
        assert found.within_reach == "undecided"
    else:
        assert found.within_reach == ("yes" if spare > 0 else "no")


def test_a_tight_body_reaches_nothing() -> None:
    """With interference nothing is within reach, and nothing is driven on."""
    found = fit(Part(160.10, 0.01), Part(160.00, 0.01), runout_mm=0.1)
    assert (found.interference, found.within_reach, found.travel_mm) == ("yes", "no", 0)


def test_a_warm_plate_hides_clearance() -> None:
    """A steel plate 10 K warmer is larger by 160 mm × 10 K × (11.2 to 12.3) µm/(m·K) (seen)."""
    warm = Part(160.00, 0.01, temperature_c=30)
    found = fit(warm, Part(160.25, 0.01, temperature_c=20))
    low, high = found.at_reference_mm
    assert low == pytest.approx(0.25 + 160 * 10 * 11.2e-6, abs=1e-4)
    assert high == pytest.approx(0.25 + 160 * 10 * 12.3e-6, abs=1e-4)
    assert found.clearance_mm == pytest.approx(0.25)
    assert "20 °C" in str(found.notes[0])


def test_a_cast_iron_body_grows_less_than_a_steel_plate() -> None:
    """Both at 30 °C: clearance at 20 °C is more, by the difference of the two growths."""
    plate, body = Part(160, 0, "steel", 30), Part(160.25, 0, "cast-iron", 30)
    low, high = fit(plate, body).at_reference_mm
    assert low > 0.25
    assert high < 0.25 + 160 * 10 * (12.3e-6 - 10.0e-6) + 1e-4


def test_without_both_temperatures_there_is_no_remark() -> None:
    """One of them alone says nothing."""
    found = fit(Part(160, 0, temperature_c=30), Part(160.25, 0))
    assert found.at_reference_mm is None
    assert found.notes == ()


def test_far_too_much_clearance_is_doubted() -> None:
    """More than a millimetre is likely a slip (judgement of the trade)."""
    assert "measure again" in str(fit(Part(160, 0), Part(165, 0)).notes[0])


def test_the_record_speaks_json() -> None:
    """Named keys, plain values."""
    plain = fit(Part(160, 0.01), Part(160.25, 0.01), runout_mm=0.1).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert plain["travel_each_way_mm"] == 0.125


@pytest.mark.parametrize(
    ("plate", "body", "more"),
    [
        (Part(9, 0), Part(160, 0), {}),
        (Part(160, 0), Part(1001, 0), {}),
        (Part(float("nan"), 0), Part(160, 0), {}),
        (Part(160, -0.1), Part(160, 0), {}),
        (Part(160, 16), Part(160, 0), {}),
        (Part(160, 0, "brass"), Part(160, 0), {}),
        (Part(160, 0, temperature_c=61), Part(160, 0), {}),
        (Part(160, 0), Part(160, 0, temperature_c=-1), {}),
        (Part(160, 0), Part(160.2, 0), {"runout_mm": -0.1}),
        (Part(160, 0), Part(160.2, 0), {"runout_mm": float("inf")}),
    ],
)
def test_what_is_no_register_is_refused(plate: Part, body: Part, more: dict) -> None:
    """Sizes, uncertainties, materials and temperatures that cannot be."""
    with pytest.raises(BadInput):
        fit(plate, body, **more)
