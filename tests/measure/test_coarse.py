"""What a coarse dial hides, derived and then tried by brute force."""

from __future__ import annotations

import json
from math import cos, pi, radians, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import even
from guide.measure.coarse import all_equal, narrowest, still_allowed, unseen, unseen_at
from guide.measure.harmonic import fit
from guide.plain import BadInput

OUTSIDE = Path(__file__).parents[1] / "outside"
CASES = json.loads((OUTSIDE / "measure_coarse.json").read_text(encoding="utf-8"))
COUNTS = [3, 4, 5, 6, 7, 8, 12]
HIGH = np.radians(np.arange(0, 360, 0.05))


def least_range(angles):
    """The least range of cos(θ − φ) over a fine grid of φ."""
    turn = np.radians(np.array(angles))[:, None] - HIGH[None, :]
    return np.ptp(np.cos(turn), axis=0).min()


def as_shown(mean, e, high, n):
    """What a dial read to its nearest whole division shows."""
    return np.rint(mean + e * np.cos(np.radians(even(n)) - high))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_the_closed_form_is_the_polygons_width(case):
    """g/cos(π/N) for even N, 2g/(1 + cos(π/N)) for odd."""
    assert unseen(**case["inputs"]) == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("n", COUNTS)
def test_the_least_range_is_found_by_brute_force(n):
    """Every high spot a twentieth of a degree apart is tried."""
    assert unseen(1.0, n) == pytest.approx(2 / least_range(even(n)), rel=1e-4)
    assert unseen_at(1.0, even(n)) == pytest.approx(unseen(1.0, n))


@given(st.lists(st.integers(0, 359), min_size=3, max_size=9, unique=True))
def test_uneven_positions_agree_with_brute_force(angles):
    """A polygon is narrowest square to one of its sides."""
    assert narrowest(angles) == pytest.approx(least_range(angles), rel=2e-3, abs=2e-3)


@pytest.mark.parametrize("n", COUNTS)
def test_a_dial_shows_equal_readings_just_below_and_never_above(n):
    """Dial readings simulated over high spots and means: all the same only up to that runout."""

    def hidden(tir):
        e, means = tir / 2, np.linspace(-0.5, 0.5, 201)
        return any(
            all_equal(as_shown(mean, e, high, n))
            for high in np.radians([0, 90 / n, 180 / n])
            for mean in means
        )

    assert hidden(0.98 * unseen(1.0, n))
    assert not hidden(1.001 * unseen(1.0, n))


@given(
    st.floats(-0.5, 0.5), st.floats(0, 5), st.floats(0, 2 * pi), st.sampled_from([3, 4, 6, 8, 12])
)
def test_no_runout_is_larger_than_what_its_readings_still_allow(mean, e, high, n):
    """The bound holds for any bar behind any rounded readings."""
    shown = as_shown(mean, e, high, n).tolist()
    assert 2 * e <= still_allowed(shown, even(n), 1.0) + 1e-9


def coverage(n, divisions, turns=20_000):
    """How often TIR ± U holds the true one behind readings that range over so many divisions."""
    rng = np.random.default_rng(37)
    turn = np.radians(even(n))
    tir = rng.uniform(0, 12, turns)
    mean, high = rng.uniform(-0.5, 0.5, turns), rng.uniform(0, 2 * pi, turns)
    shown = np.rint(mean[:, None] + tir[:, None] / 2 * np.cos(turn - high[:, None]))
    fitted = 4 / n * np.hypot(shown @ np.cos(turn), shown @ np.sin(turn))
    seen = np.ptp(shown, axis=1)
    chosen = seen >= 2 if divisions == 2 else seen == divisions
    held = np.abs(fitted - tir) <= 4 / sqrt(12) * sqrt(2 / n)
    return held[chosen].mean()


@pytest.mark.parametrize("n", [4, 8, 12])
def test_the_averaged_uncertainty_holds_only_where_readings_vary(n):
    """The docstring's figures: too few behind equal readings, enough from two divisions up."""
    expected = {4: (0.92, 0.92), 8: (0.81, 0.84), 12: (0.72, 0.76)}[n]
    assert (coverage(n, 0), coverage(n, 1)) == pytest.approx(expected, abs=0.025)
    assert coverage(n, 2) >= 0.94


def test_equal_readings_fit_no_runout_with_an_uncertainty_that_is_too_small():
    """At eight places U is 0.58 divisions and 1.08 can hide."""
    n, e = 8, 0.99 * unseen(1.0, 8) / 2
    shown = as_shown(0.0, e, radians(22.5), n).tolist()
    assert all_equal(shown)
    assert fit(even(n), shown).fitted_tir == 0
    assert 4 / sqrt(12) * sqrt(2 / n) < 2 * e == pytest.approx(0.99 / cos(pi / 8))


def test_fewer_than_three_positions_are_refused():
    """They fix no centre."""
    for refused in (lambda: unseen(1.0, 2), lambda: narrowest([0, 180, 360])):
        with pytest.raises(BadInput, match="Fewer than three"):
            refused()
