"""Uncertainty by the GUM, with Student's factor from a public table."""

from __future__ import annotations

import json
from math import inf, radians, sqrt
from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from guide.measure import uncertainty as un
from guide.measure.angles import even
from guide.measure.harmonic import fit
from guide.plain import BadInput

OUTSIDE = Path(__file__).parents[1] / "outside"
STUDENT = json.loads((OUTSIDE / "measure_student.json").read_text(encoding="utf-8"))
GUM = {
    case["name"]: case
    for case in json.loads((OUTSIDE / "measure_gum.json").read_text(encoding="utf-8"))
}


@pytest.mark.parametrize("case", STUDENT, ids=lambda case: case["name"])
def test_the_factor_is_the_tables_and_the_distributions(case):
    """Exactly the printed figure, which scipy's t distribution gives at its two digits."""
    freedom = float(case["inputs"]["freedom"])
    assert un.student(freedom) == case["expected"]
    assert un.student(freedom) == pytest.approx(stats.t.ppf((1 + 0.9545) / 2, freedom), abs=0.006)


def test_the_whole_table_is_checked():
    """No row of ours is without a row of the public table."""
    assert {float(case["inputs"]["freedom"]) for case in STUDENT} == {float(k) for k in un.STUDENT}


def test_between_rows_the_lower_freedom_counts():
    """Never a smaller factor than the truth."""
    assert un.student(16.7) == 2.17
    assert un.student(24.9) == 2.13
    with pytest.raises(BadInput):
        un.student(0.9)


@pytest.mark.parametrize(
    "case", [case for case in GUM.values() if "parts" in case["inputs"]], ids=lambda c: c["name"]
)
def test_published_parts_combine_as_the_guide_has_it(case):
    """Parts in quadrature and the Welch-Satterthwaite formula."""
    found = un.combined(un.Part(str(u), u, v) for u, v in case["inputs"]["parts"])
    assert found.u == pytest.approx(case["expected"]["u"], abs=case["tolerance"]["u"])
    expected = case["expected"]["freedom"]
    freedom = int(found.freedom) if isinstance(expected, int) else found.freedom
    assert freedom == pytest.approx(expected, abs=case["tolerance"]["freedom"])


def test_limits_become_standard_uncertainties():
    """Half width over √3 where all is equally likely, over √2 where it swings."""
    for name, function in (("rectangular limit", un.rectangular), ("arcsine limit", un.arcsine)):
        case = GUM[name]
        (half_width,) = case["inputs"].values()
        assert function(half_width) == pytest.approx(case["expected"], abs=case["tolerance"])


def test_a_graduation_is_a_rectangle_of_its_width():
    """graduation/√12 is half a division over √3."""
    assert un.of_graduation(0.5) == pytest.approx(un.rectangular(0.25))
    assert un.of_graduation(0.5) == pytest.approx(stats.uniform(-0.25, 0.5).std())


def test_repeats_agree_with_numpy():
    """The sample standard deviation, one degree of freedom fewer than repeats."""
    values = [0.1, 0.4, 0.2, 0.2]
    part = un.of_repeats(values)
    assert part.u == pytest.approx(np.std(values, ddof=1))
    assert part.freedom == 3
    with pytest.raises(BadInput):
        un.of_repeats([0.1])


def test_an_angle_by_eye_costs_a_third_of_a_thou():
    """5° at e = 4 thou (the design's figure, and the slope of a cosine)."""
    assert un.angle_effect(4, 5) == pytest.approx(1 / 3, abs=0.02)
    assert un.angle_effect(4, 5) == pytest.approx(4 * radians(5))


def test_the_parts_are_named_and_what_is_nothing_is_left_out():
    """Each part appears with its distribution's divisor."""
    known = {
        part.name: part.u
        for part in un.parts(graduation=0.5, permissible_error=0.3, play=0.4, roundness=0.1)
    }
    assert known == pytest.approx(
        {
            "graduation": 0.5 / sqrt(12),
            "indicator error": 0.3 / sqrt(3),
            "play": 0.4 / sqrt(12),
            "bar roundness": 0.1 / sqrt(12),
        }
    )
    assert un.parts() == ()
    more = un.parts(hysteresis=1, grip=1, drift=1, eccentricity=4, angle_deg=5, repeats=[0, 1])
    assert [part.name for part in more] == [
        "hysteresis", "grip", "drift", "angle set by eye", "repeats",
    ]  # fmt: skip


def test_the_angles_part_is_its_mean_square_round_the_turn():
    """Simulated: angles within ±5° equally likely, high spot anywhere."""
    rng = np.random.default_rng(3)
    place, slip = rng.uniform(0, 2 * np.pi, 40_000), np.radians(rng.uniform(-5, 5, 40_000))
    moved = 4 * (np.cos(place + slip) - np.cos(place))
    (part,) = un.parts(eccentricity=4, angle_deg=5)
    assert part.u == pytest.approx(moved.std(), rel=0.02)


def test_few_repeats_widen_a_reading():
    """With two repeats alone the factor is 13.97 over 2; endless freedom changes nothing."""
    assert un.of_reading([un.Part("repeats", 0.1, 1)]) == pytest.approx(0.1 * 13.97 / 2)
    assert un.of_reading([un.Part("limit", 0.1)]) == pytest.approx(0.1)
    assert un.of_reading([]) == 0
    assert un.combined([]).freedom == inf


@pytest.mark.parametrize("n", [3, 4, 6, 8, 12])
def test_the_fitted_tir_is_as_uncertain_as_the_contract_says(n):
    """U = 4·u·√(2/n) at even positions."""
    found = fit(even(n), [float(i) for i in range(n)])
    assert un.expanded(un.of_fitted_tir(found, 0.2)) == pytest.approx(4 * 0.2 * sqrt(2 / n))


@pytest.mark.parametrize("angles", [even(4), (0.0, 30.0, 50.0, 80.0, 110.0, 140.0)])
def test_the_fitted_tir_scatters_as_stated(angles):
    """Simulated readings with noise u scatter in 2e by u(fitted TIR), even and uneven."""
    rng = np.random.default_rng(11)
    true = 10 * np.cos(np.radians(np.array(angles) - 20))
    fits = [fit(angles, list(true + rng.normal(0, 0.2, len(angles)))) for _ in range(1500)]
    scatter = np.std([one.fitted_tir for one in fits])
    assert un.of_fitted_tir(fit(angles, list(true)), 0.2) == pytest.approx(scatter, rel=0.06)


def test_u_is_a_part_of_its_own_and_what_does_not_average_is_marked():
    """The indicator's error, grip and drift are the same over the whole turn."""
    found = un.parts(u=0.2, permissible_error=1, grip=1, drift=1, play=1, repeats=[0, 1])
    assert {part.name: part.averaged for part in found} == {
        "reading": True, "indicator error": False, "grip": False, "drift": False,
        "play": True, "repeats": True,
    }  # fmt: skip
    assert found[0].u == 0.2


def test_near_zero_is_within_two_standard_uncertainties():
    """There noise alone makes much of 2e."""
    assert un.near_zero(0.3, 0.2)
    assert not un.near_zero(0.5, 0.2)


@pytest.mark.parametrize("freedom", [1, 2, 3, 5, 9, 20])
def test_the_chi_square_point_is_close_to_scipys(freedom):
    """Wilson and Hilferty's approximation, within 3 %."""
    assert un.chi_square_95(freedom) == pytest.approx(stats.chi2.ppf(0.95, freedom), rel=0.03)


def test_form_counts_only_above_the_noise():
    """Nothing within what noise explains; nearly all of a large residual."""
    assert un.form_share(1.0, 1, 1.0) == 0
    assert un.form_share(100.0, 1, 1.0) == pytest.approx(sqrt(0.99))
    assert un.form_share(100.0, 0, 1.0) == 0


def test_a_part_without_freedom_is_refused():
    """It cannot be combined."""
    with pytest.raises(BadInput):
        un.combined([un.Part("odd", 1.0, 0)])
