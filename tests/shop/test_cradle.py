"""The cradle's vee: a circle that touches two lines, and two published vee formulas."""

from __future__ import annotations

import json
from math import asin, cos, degrees, radians, sin, tan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.cradle import cradle, one_flank

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_cradle.json").read_text(encoding="utf-8")
)
CENTRES = st.floats(200, 600)
DIAMETERS = st.floats(50, 300)
VEES = st.floats(60, 120)


def distance_to_flank(x: float, y: float, root: float, half: float) -> float:
    """From a point to the right flank, a line through the root that leans by `half`."""
    return abs(x * cos(half) - (y - root) * sin(half))


@given(CENTRES, DIAMETERS, VEES)
def test_the_circle_touches_both_flanks_and_no_more(centre, diameter, vee) -> None:
    """The axis is one radius from the flank, and so is the contact from the axis (identity)."""
    found, half = cradle(centre, diameter, vee), radians(vee / 2)
    assert distance_to_flank(0, centre, found.root_mm, half) == pytest.approx(diameter / 2)
    x, y = found.contact_width_mm / 2, found.contact_height_mm
    assert distance_to_flank(x, y, found.root_mm, half) == pytest.approx(0, abs=1e-9)
    assert x**2 + (centre - y) ** 2 == pytest.approx((diameter / 2) ** 2)
    assert x**2 + (y - found.root_mm) ** 2 == pytest.approx(found.flank_mm**2)
    assert sin(radians(found.contact_half_angle_deg)) * diameter / 2 == pytest.approx(x)


@given(VEES)
def test_two_rollers_give_the_vees_angle_back(vee: float) -> None:
    """sin(a) = (D1 − D2)/(2(H1 − H2) − (D1 − D2)) over the tops (a public examination, seen)."""
    d1, d2 = SEEN["two_rollers"]["diameters"]
    tops = []
    for d in (d1, d2):
        found = cradle(400, d, vee)
        tops.append(400 + d / 2 - found.root_mm)
    half = asin((d1 - d2) / (2 * (tops[0] - tops[1]) - (d1 - d2)))
    assert 2 * degrees(half) == pytest.approx(vee)


@given(DIAMETERS, VEES)
def test_the_flank_is_as_long_as_a_dovetails(diameter: float, vee: float) -> None:
    """E = R/tan(a/2) from the corner to the contact (a public page, seen)."""
    found = cradle(400, diameter, vee)
    assert found.flank_mm == pytest.approx(diameter / 2 / tan(radians(vee) / 2))


def test_a_right_angled_vee_holds_the_middle_at_the_square_root_of_two() -> None:
    """√2 radii above the root (identity)."""
    found = cradle(170, 200, 90)
    assert 170 - found.root_mm == pytest.approx(100 * SEEN["right_angle"]["times_radius"])
    assert found.under_chuck_mm == 70
    assert found.gap_mm == pytest.approx(41.421, abs=0.001)


@given(DIAMETERS, VEES, st.floats(0.1, 5))
def test_shims_lift_as_the_flanks_they_move(diameter: float, vee: float, shim: float) -> None:
    """A shim moves its flank square to itself, and the middle to where the two cross (identity)."""
    half = radians(vee / 2)
    both = cradle(400, diameter, vee).rise_per_shim * shim
    thicker = cradle(400, diameter + 2 * shim, vee)
    assert cradle(400, diameter, vee).root_mm - thicker.root_mm == pytest.approx(both)
    up, aside = one_flank(shim, vee)
    moved = up * sin(half) + aside * cos(half)
    other = up * sin(half) - aside * cos(half)
    assert moved == pytest.approx(shim)
    assert other == pytest.approx(0, abs=1e-9)
    assert 2 * up == pytest.approx(both)
    each = cradle(400, diameter, vee).one_flank
    assert (each[0] * shim, each[1] * shim) == (pytest.approx(up), pytest.approx(aside))


def test_a_diameter_that_varies_moves_the_axis() -> None:
    """By half the variation over the sine, and it is said (identity)."""
    found = cradle(170, 200, 90, varies_mm=0.5)
    assert found.variation_mm == pytest.approx(0.25 / sin(radians(45)))
    moves = cradle(170, 200, 90).root_mm - cradle(170, 200.5, 90).root_mm
    assert found.variation_mm == pytest.approx(moves)
    assert "varies" in str(found.notes[-1])


@pytest.mark.parametrize(
    ("centre", "diameter", "more", "word"),
    [
        (90, 200, {}, "larger than the room"),
        (130, 200, {}, "root would lie"),
        (170, 200, {"least_root_mm": 40}, "lower than 40 mm"),
        (170, 200, {"opening_mm": 141}, "too narrow"),
    ],
)
def test_where_no_such_cradle_goes_there_are_no_sizes(centre, diameter, more, word) -> None:
    """What stands in the way is said, and the plain form has no height."""
    found = cradle(centre, diameter, 90, **more)
    plain = found.to_json()
    assert not found.goes
    assert plain["root_height_mm"] is None
    assert plain["contact_width_mm"] is None
    assert word in plain["why_not"]


@pytest.mark.parametrize(
    ("vee", "more", "word"),
    [
        (130, {}, "roll out"),
        (50, {}, "wedges"),
        (90, {"opening_mm": 150}, "close to the vee's edges"),
    ],
)
def test_a_vee_that_is_not_steady_is_remarked_on(vee: float, more: dict, word: str) -> None:
    """Too flat, too steep, or touching near its edges (common practice, no source)."""
    assert word in " ".join(str(note) for note in cradle(400, 200, vee, **more).notes)


def test_an_ordinary_vee_has_no_remark() -> None:
    """90° and wide enough."""
    assert cradle(170, 200, 90, opening_mm=200).notes == ()


def test_the_record_speaks_json() -> None:
    """Named keys, plain values."""
    plain = cradle(170, 200, 90).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert plain["rise_per_shim_under_cradle"] == 1.0


@pytest.mark.parametrize(
    ("centre", "diameter", "vee", "more"),
    [
        (170, 49, 90, {}),
        (170, 1301, 90, {}),
        (170, float("nan"), 90, {}),
        (170, 200, 19, {}),
        (170, 200, 161, {}),
        (0, 200, 90, {}),
        (float("inf"), 200, 90, {}),
        (170, 200, 90, {"opening_mm": 0}),
        (170, 200, 90, {"least_root_mm": -1}),
        (170, 200, 90, {"varies_mm": -1}),
        (170, 200, 90, {"varies_mm": 20}),
    ],
)
def test_what_no_cradle_can_have_is_refused(centre, diameter, vee, more) -> None:
    """Sizes and angles that cannot be."""
    with pytest.raises(BadInput):
        cradle(centre, diameter, vee, **more)
