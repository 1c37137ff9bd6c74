"""The handling bar against published examples and against the bar integrated numerically."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import cumulative_trapezoid

from guide.plain import BadInput
from guide.shop.bar import GRAVITY, STEEL_MPA, bar, second_moment

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_bar.json").read_text(encoding="utf-8")
)
IN, PSI, LB = 25.4, 6.894757293168361e-3, 0.45359237
LOADS = st.floats(1, 200)
ACROSS = st.floats(20, 80)
SHARES = st.floats(0.05, 0.95)


def test_a_published_cantilever() -> None:
    """15 in of 5 in steel with 20 lb at its end: 24.446 psi, 24.446e-6 in (a public page, seen)."""
    case = SEEN["cantilever"]
    found = bar(
        case["load_lb"] * LB,
        case["diameter_in"] * IN,
        case["length_in"] * IN,
        way="one-end",
        own_weight=False,
        modulus_mpa=case["modulus_psi"] * PSI,
    )
    near = {"rel": case["tolerance"]}
    assert found.stress_mpa / PSI == pytest.approx(case["stress_psi"], **near)
    assert found.sag_mm / IN == pytest.approx(case["sag_in"], **near)


def test_a_published_flexure_problem() -> None:
    """A 50 mm bar reaches 50 MPa at 613.6 N·m (problem 510 of a public collection, seen)."""
    case = SEEN["flexure"]
    i = second_moment(case["diameter_mm"])
    assert i / pi == pytest.approx(case["second_moment_over_pi"])
    load = case["moment_nmm"] / 1000 / GRAVITY
    found = bar(load, case["diameter_mm"], 1000, way="one-end", own_weight=False)
    assert found.stress_mpa == pytest.approx(case["stress_mpa"], rel=case["tolerance"])


def test_the_middle_of_a_resting_bar_sags_as_in_the_tables() -> None:
    """P·L³/(48·E·I) and P·L/4; own weight adds 5·w·L⁴/(384·E·I) (public tables, seen)."""
    i, length = second_moment(40), 800.0
    bare = bar(30, 40, length, way="both-ends", own_weight=False)
    assert bare.moment_nmm == pytest.approx(30 * GRAVITY * length / 4)
    assert bare.sag_mm == pytest.approx(30 * GRAVITY * length**3 / (48 * STEEL_MPA * i))
    full = bar(30, 40, length, way="both-ends")
    w = full.own_kg * GRAVITY / length
    assert full.sag_mm - bare.sag_mm == pytest.approx(5 * w * length**4 / (384 * STEEL_MPA * i))
    assert full.moment_nmm - bare.moment_nmm == pytest.approx(w * length**2 / 8)


def test_the_end_of_a_held_bar_sags_as_in_the_tables() -> None:
    """w·L⁴/(8·E·I) comes on top of P·L³/(3·E·I) (public tables, seen)."""
    i, length = second_moment(40), 500.0
    bare, full = (bar(30, 40, length, way="one-end", own_weight=own) for own in (False, True))
    w = full.own_kg * GRAVITY / length
    assert bare.sag_mm == pytest.approx(30 * GRAVITY * length**3 / (3 * STEEL_MPA * i))
    assert full.sag_mm - bare.sag_mm == pytest.approx(w * length**4 / (8 * STEEL_MPA * i))
    assert full.moment_nmm == pytest.approx(30 * GRAVITY * length + w * length**2 / 2)


@settings(max_examples=25)
@given(LOADS, ACROSS, st.floats(0, 0.9), st.floats(300, 900), SHARES)
def test_a_resting_bar_integrated_numerically_gives_the_same(load, d, hollow, length, share):
    """Moment by statics, sag by integrating M/(E·I) twice with numpy and scipy."""
    at = share * length
    found = bar(load, d, length, at, way="both-ends", bore_mm=hollow * d)
    w, force = found.own_kg * GRAVITY / length, load * GRAVITY
    x = np.unique(np.append(np.linspace(0, length, 4001), at))
    left = force * (length - at) / length + w * length / 2
    moment = left * x - w * x**2 / 2 - force * np.clip(x - at, 0, None)
    slope = cumulative_trapezoid(moment, x, initial=0)
    bend = cumulative_trapezoid(slope, x, initial=0)
    sag = (x / length * bend[-1] - bend) / (STEEL_MPA * found.second_moment_mm4)
    assert found.moment_nmm == pytest.approx(moment.max(), rel=1e-4)
    assert found.sag_mm == pytest.approx(sag[np.searchsorted(x, at)], rel=1e-4)


@settings(max_examples=25)
@given(LOADS, ACROSS, st.floats(200, 600), SHARES)
def test_a_held_bar_integrated_numerically_gives_the_same(load, d, length, share) -> None:
    """From the held end, where bar and slope start at nothing."""
    at = share * length
    found = bar(load, d, length, at, way="one-end")
    w, force = found.own_kg * GRAVITY / length, load * GRAVITY
    x = np.unique(np.append(np.linspace(0, length, 4001), at))
    moment = force * np.clip(at - x, 0, None) + w * (length - x) ** 2 / 2
    bend = cumulative_trapezoid(cumulative_trapezoid(moment, x, initial=0), x, initial=0)
    sag = bend[np.searchsorted(x, at)] / (STEEL_MPA * found.second_moment_mm4)
    assert found.moment_nmm == pytest.approx(moment.max(), rel=1e-6)
    assert found.sag_mm == pytest.approx(sag, rel=1e-4)


@given(ACROSS, st.floats(0, 0.95))
def test_a_tube_is_a_bar_less_its_core(d: float, share: float) -> None:
    """Second moments add (identity)."""
    core = d * share
    assert second_moment(d, core) + second_moment(core) == pytest.approx(second_moment(d))


@given(LOADS, SHARES)
def test_either_end_of_a_resting_bar_is_the_same(load: float, share: float) -> None:
    """Measured from the other end nothing changes."""
    one, other = (bar(load, 40, 600, 600 * s, way="both-ends") for s in (share, 1 - share))
    assert one.sag_mm == pytest.approx(other.sag_mm)
    assert one.stress_mpa == pytest.approx(other.stress_mpa)


def test_the_ratio_to_the_yield_is_stated_and_never_praised() -> None:
    """A figure and a remark; at or over the yield the remark says that it stays bent."""
    found = bar(25, 40, 600, way="both-ends", yield_mpa=350)
    assert found.yield_ratio == pytest.approx(350 / found.stress_mpa)
    assert "knock" in str(found.notes[-1])
    over = bar(60, 20, 500, way="one-end", yield_mpa=200)
    assert over.yield_ratio < 1
    assert "stays bent" in str(over.notes[-1])
    said = json.dumps([found.to_json(), over.to_json()]).lower()
    assert not [word for word in ("safe", "allowed", "enough") if word in said]


def test_a_short_bar_and_a_missing_yield_are_remarked_on() -> None:
    """Shear counts too, and there is nothing to compare with."""
    said = " ".join(str(note) for note in bar(25, 80, 200, way="both-ends").notes)
    assert "shear" in said
    assert "nothing to compare" in said


def test_a_bar_that_sags_too_far_has_no_figure() -> None:
    """Beyond a tenth of its length the formulas do not hold."""
    found = bar(200, 10, 2000, way="one-end")
    assert (found.stress_mpa, found.sag_mm, found.moment_nmm) == (None, None, None)
    assert "too thin" in found.to_json()["why_not"]


@pytest.mark.parametrize(
    ("load", "d", "length", "more"),
    [
        (0, 40, 600, {}),
        (25, 0, 600, {}),
        (25, 40, 0, {}),
        (float("nan"), 40, 600, {}),
        (25, 40, 600, {"way": "hung"}),
        (25, 40, 600, {"bore_mm": 40}),
        (25, 40, 600, {"bore_mm": -1}),
        (25, 40, 600, {"yield_mpa": 0}),
        (25, 40, 600, {"at_mm": 0}),
        (25, 40, 600, {"at_mm": 600}),
        (25, 40, 600, {"way": "one-end", "at_mm": 601}),
        (25, 40, 600, {"way": "one-end", "at_mm": 0}),
    ],
)
def test_what_no_bar_can_be_is_refused(load, d, length, more) -> None:
    """Loads, sizes and places that cannot be."""
    given_ = {"way": "both-ends", "at_mm": None} | more
    with pytest.raises(BadInput):
        bar(load, d, length, **given_)
