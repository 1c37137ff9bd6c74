"""The calculated torque against published tables, and when there is none."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from math import pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.bolt_class import bolt_class
from guide.shop.engagement import least_engagement
from guide.shop.threads import parse_thread, stress_area
from guide.shop.torque import NM_PER_LBF_FT, torque
from guide.shop.torque_basis import Friction, NutFactor

OUTSIDE = Path(__file__).parents[1] / "outside"
N_PER_LBF = 4.4482216152605
KNOWN = {"female": "cast-iron", "engagement_mm": 16.0, "basis": NutFactor(0.15)}


def table(name: str) -> list[dict[str, str]]:
    """The rows of a published table; line one is its source."""
    return list(csv.DictReader((OUTSIDE / name).read_text(encoding="utf-8").splitlines()[1:]))


def calculated(thread: str, grade: str, basis: NutFactor | Friction):
    """The torque with more than enough thread in steel."""
    return torque(parse_thread(thread), grade, female="steel", engagement_mm=100, basis=basis)


@pytest.mark.parametrize("grade", ["8.8", "10.9", "12.9"])
@pytest.mark.parametrize("row", table("shop_proof_loads.csv"), ids=lambda row: row["thread"])
def test_proof_load_of_the_metric_table(row: dict, grade: str) -> None:
    """ISO 898-1 (transcribed): proof stress times stress area, within its rounding of 0.8 %."""
    thread = parse_thread(row["thread"])
    proof = bolt_class(grade, thread).proof_mpa * stress_area(thread)
    assert proof == pytest.approx(float(row[grade]), rel=0.008)
    assert thread.table_area_mm2 == float(row["stress_area"])


@pytest.mark.parametrize(
    "row", table("shop_sae_torque.csv"), ids=lambda row: f"{row['thread']} grade {row['grade']}"
)
def test_clamp_load_and_torque_of_the_inch_table(row: dict) -> None:
    """SAE J429 by a public reference (seen): clamp load to 0.1 %, torque to its last figure."""
    unit = 12 if row["thread"].split("-")[0] in ("1/4", "5/16") else 1
    for k in (0.15, 0.18, 0.20):
        found = calculated(row["thread"], row["grade"], NutFactor(k))
        assert found.preload_n / N_PER_LBF == pytest.approx(float(row["clamp"]), rel=1e-3)
        printed = float(row[f"k{k:.2f}"])
        assert found.torque_ftlb * unit == pytest.approx(printed, abs=0.61)


@pytest.mark.parametrize(
    ("row", "grade"),
    [
        pytest.param(row, grade, id=f"{row['thread']} {grade}")
        for row in table("shop_metric_torque.csv")
        for grade in ("8.8", "10.9", "12.9")
        if row[f"{grade}_dry"]
    ],
)
def test_torque_of_the_metric_table(row: dict, grade: str) -> None:
    """75 % of proof by a public table (seen): K 0.20 dry, 0.15 lubricated, within 1 %."""
    for k, state in ((0.20, "dry"), (0.15, "oiled")):
        printed = float(row[f"{grade}_{state}"])
        found = calculated(row["thread"], grade, NutFactor(k)).torque_ftlb
        assert found == pytest.approx(printed, rel=0.01, abs=0.6)


@pytest.mark.parametrize(
    "row",
    table("shop_vdi_fine_threads.csv"),
    ids=lambda row: f"{row['thread']} at {row['friction']}",
)
def test_preload_and_torque_of_the_friction_table(row: dict) -> None:
    """VDI 2230, 2001, fine threads (transcribed): preload to 0.5 %, torque to 1.5 %."""
    mu = float(row["friction"])
    basis = Friction(mu, mu, float(row["head"]), float(row["hole"]))
    for grade in ("8.8", "10.9", "12.9"):
        found = calculated(row["thread"], grade, basis)
        assert found.preload_n / 1000 == pytest.approx(float(row[f"f_{grade}"]), rel=0.005)
        assert found.torque_nm == pytest.approx(float(row[f"t_{grade}"]), rel=0.015)


HANDBOOK = json.loads((OUTSIDE / "shop_handbook_torque.json").read_text(encoding="utf-8"))


def test_inch_torque_by_friction_is_the_handbooks() -> None:
    """UNC 1/2-13, 11707 lb, friction 0.15: 1158 lb-in (Machinery's Handbook p. 1665, seen)."""
    case = HANDBOOK["example"]
    thread = parse_thread(case["thread"])
    wide = case["bearing_over_diameter"] * thread.diameter_mm
    basis = Friction(case["friction"], case["friction"], wide, thread.diameter_mm)
    found = basis.torque_nm(thread, case["preload_lbf"] * N_PER_LBF) / NM_PER_LBF_FT * 12
    assert found == pytest.approx(case["torque_lbf_in"], rel=case["tolerance"])


@pytest.mark.parametrize("thread", ["1/4-20", "3/8-16", "1/2-13", "3/4-10", "1-8"])
@pytest.mark.parametrize("friction", [0.10, 0.12, 0.15])
def test_inch_torque_by_friction_follows_the_handbooks_formula(thread: str, friction: float):
    """T = P(0.159 l + 0.531 µ d + 0.625 µ d) (seen), to 2 %, as it takes d2 to be 0.92 d."""
    known = parse_thread(thread)
    lead, d = known.pitch_mm, known.diameter_mm
    of_lead, of_thread, of_head = HANDBOOK["formula"]["factors"]
    printed = of_lead * lead + of_thread * friction * d + of_head * friction * d
    found = calculated(thread, "8", Friction(friction, friction, 1.5 * d, d))
    assert found.torque_nm * 1000 / found.preload_n == pytest.approx(printed, rel=0.02)
    assert "by analogy" in str(found.basis)


def test_inch_preload_by_friction_keeps_the_combined_stress_under_its_share() -> None:
    """σ² + 3τ² is (0.9·yield)², with τ by the torque in the thread (identity)."""
    thread, friction = parse_thread("3/8-16"), 0.12
    found = calculated("3/8-16", "8", Friction(friction, friction, 14, 10.3))
    d0 = thread.diameter_mm - 0.9743 * thread.pitch_mm
    turn = found.preload_n * thread.pitch_diameter_mm / 2
    turn *= thread.pitch_mm / (pi * thread.pitch_diameter_mm) + 1.155 * friction
    stress = found.preload_n / found.stress_area_mm2
    twist = turn / (pi * d0**3 / 12)
    limit = 0.9 * bolt_class("8", thread).yield_mpa
    assert stress**2 + 3 * twist**2 == pytest.approx(limit**2, rel=1e-4)


@pytest.mark.parametrize("missing", ["female", "engagement_mm", "basis", "grade"])
def test_no_figure_while_something_is_unknown(missing: str) -> None:
    """Preload and torque are None, the one missing thing is named, the stress area stays."""
    known = {"grade": "8.8", **KNOWN, missing: None}
    found = torque(parse_thread("M10"), **known)
    assert (found.preload_n, found.torque_nm, found.torque_ftlb) == (None, None, None)
    assert len(found.why_not) == 1
    assert found.stress_area_mm2 == pytest.approx(58.0, abs=0.05)
    assert found.to_json()["why_not"]


@pytest.mark.parametrize(
    ("female", "least"), [("steel", 10), ("cast-iron", 15), ("aluminium", 21.575)]
)
def test_no_figure_when_the_thread_may_strip(female: str, least: float) -> None:
    """Just under the least engagement there is no figure, at it there is."""
    at = torque(parse_thread("M10"), "8.8", **{**KNOWN, "female": female, "engagement_mm": least})
    under = torque(
        parse_thread("M10"), "8.8", **{**KNOWN, "female": female, "engagement_mm": least - 0.01}
    )
    assert at.torque_nm is not None
    assert at.why_not == ()
    assert under.torque_nm is None
    assert "strip" in str(under.why_not[0])


def test_engagement_in_aluminium_agrees_with_what_was_published() -> None:
    """At least two diameters (TM 9-2320-303-24-1) and a handbook's 21.6 mm for M10 (both seen)."""
    seen = json.loads((OUTSIDE / "shop_tightening.json").read_text(encoding="utf-8"))
    least = least_engagement("aluminium", 10)
    assert least == pytest.approx(seen["engagement"]["aluminium_m10_mm"], abs=0.05)
    assert least >= 10 * seen["aluminium_diameters"]["diameters"]


def test_an_inch_of_exactly_one_diameter_is_enough_in_steel() -> None:
    """The arithmetic of inches does not make a thread too short."""
    for name in ("3/8-16", "7/16-14", "9/16-12"):
        thread = parse_thread(name)
        size = {"3/8-16": 0.375, "7/16-14": 0.4375, "9/16-12": 0.5625}[name]
        known = {**KNOWN, "female": "steel", "engagement_mm": size * 25.4}
        assert torque(thread, "8", **known).torque_nm is not None


def test_short_steel_and_aluminium_are_remarked_on() -> None:
    """A handbook's 1.5 diameters, and an agency's 30 % less in aluminium, are said."""
    steel = torque(parse_thread("M10"), "8.8", **{**KNOWN, "female": "steel", "engagement_mm": 12})
    alu = torque(
        parse_thread("M10"), "8.8", **{**KNOWN, "female": "aluminium", "engagement_mm": 25}
    )
    assert "1.5 diameters" in str(steel.notes[0])
    assert "30 %" in str(alu.notes[0])
    assert torque(parse_thread("M10"), "8.8", **KNOWN).notes == ()


@pytest.mark.parametrize(
    ("thread", "basis", "words"),
    [
        ("M10", NutFactor(0.15), ["75 %", "proof", "ISO 898-1", "K = 0.15"]),
        ("3/8-16", NutFactor(0.20), ["75 %", "proof", "SAE J429", "K = 0.20"]),
        ("M10x1.25", Friction(0.12, 0.14, 14.63, 11), ["90 %", "yield", "0.12", "0.14", "2001"]),
    ],
)
def test_the_basis_names_itself(thread: str, basis: NutFactor | Friction, words: list) -> None:
    """Proof or yield, K or friction, and the standard or edition."""
    said = str(torque(parse_thread(thread), basis=basis).basis)
    assert all(word in said for word in words), said


@pytest.mark.parametrize(
    "make",
    [
        lambda: NutFactor(0.149),
        lambda: NutFactor(0.201),
        lambda: NutFactor(float("nan")),
        lambda: Friction(0.09, 0.12, 16, 11),
        lambda: Friction(0.12, 0.151, 16, 11),
        lambda: Friction(0.12, 0.12, 11, 11),
        lambda: Friction(0.12, 0.12, 11, 0),
        lambda: calculated("3/8-16", "8", Friction(0.12, 0.12, 14, 9.5)),
        lambda: calculated("M10", "8.8", Friction(0.12, 0.12, 14, 9.9)),
        lambda: calculated("M10", "8", NutFactor(0.15)),
        lambda: calculated("3/8-16", "8.8", NutFactor(0.15)),
        lambda: calculated("M10", "9.8", NutFactor(0.15)),
        lambda: torque(parse_thread("M10"), "8.8", **{**KNOWN, "female": "cheese"}),
        lambda: torque(parse_thread("M10"), "8.8", **{**KNOWN, "engagement_mm": 0.0}),
        lambda: torque(parse_thread("M10"), "8.8", **{**KNOWN, "engagement_mm": float("nan")}),
    ],
)
def test_nothing_is_worked_out_beyond_the_tables(make) -> None:
    """K, friction, class, material and size outside what was published are bad input."""
    with pytest.raises(BadInput):
        make()


def test_the_class_changes_at_its_diameter() -> None:
    """8.8 is 580 MPa to M16 and 600 above; grade 5 is 85 ksi to 1 in and 74 above."""
    assert bolt_class("8.8", parse_thread("M16")).proof_mpa == 580
    assert bolt_class("8.8", parse_thread("M18")).proof_mpa == 600
    psi = 6.894757293168361e-3
    assert bolt_class("5", parse_thread("1-8")).proof_mpa == pytest.approx(85_000 * psi)
    assert bolt_class("5", parse_thread("1-1/8-7")).proof_mpa == pytest.approx(74_000 * psi)


@given(st.floats(0.15, 0.20), st.floats(0.15, 0.20))
def test_more_friction_takes_more_torque_for_the_same_preload(k1: float, k2: float) -> None:
    """T grows with K and the preload does not change."""
    less, more = (calculated("M12", "10.9", NutFactor(k)) for k in sorted((k1, k2)))
    assert less.preload_n == more.preload_n
    assert less.torque_nm <= more.torque_nm


@given(st.floats(0.10, 0.14), st.floats(0.10, 0.14))
def test_more_friction_takes_preload_from_the_bolt(mu1: float, mu2: float) -> None:
    """On the yield basis torsion uses up strength, so the preload falls while the torque grows."""
    less, more = (
        calculated("M12x1.25", "8.8", Friction(mu, mu, 16.63, 13.5)) for mu in sorted((mu1, mu2))
    )
    assert less.preload_n >= more.preload_n
    assert less.torque_nm <= more.torque_nm * (1 + 1e-12)


def test_the_record_speaks_json() -> None:
    """Named keys, plain values, no figure finer than it can be."""
    plain = torque(parse_thread("M10"), "8.8", **KNOWN).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert plain["torque_nm"] == pytest.approx(37.8, abs=0.05)
    assert plain["torque_ftlb"] * NM_PER_LBF_FT == pytest.approx(plain["torque_nm"], abs=0.15)


def test_torque_units_are_exact() -> None:
    """1 lbf·ft is 0.45359237 kg × 9.80665 m/s² × 0.3048 m (NIST SP 811, from memory)."""
    assert pytest.approx(0.45359237 * 9.80665 * 0.3048, rel=1e-15) == NM_PER_LBF_FT
    one = replace(torque(parse_thread("M10")), torque_nm=NM_PER_LBF_FT)
    assert one.torque_ftlb == 1
