"""The judged runout counts form, but only what stands above the noise."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import even
from guide.measure.harmonic import fit
from guide.measure.judged import form_above_noise, judged

dial = st.integers(-500, 500).map(lambda tenths: tenths / 10)


def profile(angles, e=0.0, lobes=0.0, order=3, phase=0.0):
    """A bar off centre by e with so many lobes of so much amplitude."""
    turn = np.radians(angles)
    return e * np.cos(turn - 0.7) + lobes * np.cos(order * turn + phase)


@given(st.lists(dial, min_size=3, max_size=14))
def test_without_an_uncertainty_it_is_the_first_harmonic(values):
    """2e, as the contract says."""
    found = fit(even(len(values)), values)
    assert judged(found) == found.fitted_tir


@given(st.lists(dial, min_size=4, max_size=14), st.floats(0.01, 5))
def test_it_is_never_less_than_the_harmonic_and_just_that_without_form(values, u):
    """Lobes that lie against the high spot do not make the figure smaller."""
    found = fit(even(len(values)), values)
    figure = judged(found, u)
    assert figure >= found.fitted_tir
    if form_above_noise(found, u) == 0:
        assert figure == found.fitted_tir


def test_three_positions_have_no_form_to_count():
    """The residual is nothing there."""
    found = fit(even(3), [0, 5, 1])
    assert judged(found, 0.001) == found.fitted_tir


@pytest.mark.parametrize("n", [8, 12])
@pytest.mark.parametrize("phase", [0.0, 0.4, 1.1, 2.0])
@pytest.mark.parametrize("e", [0.0, 0.2, 1.0])
def test_a_lobed_bar_is_judged_by_its_full_runout(n, phase, e):
    """With small noise the figure is the true peak-to-valley, also where lobes fall between."""
    true = profile(np.arange(0, 360, 0.1), e, 0.3, phase=phase)
    found = fit(even(n), list(profile(np.array(even(n)), e, 0.3, phase=phase)))
    full = max(np.ptp(true), found.fitted_tir)
    assert judged(found, 0.001) == pytest.approx(full, rel=2e-3)


def test_at_four_places_an_oval_counts_where_it_was_read():
    """Four places show an oval by their residual only."""
    found = fit(even(4), [1, -1, 1, -1])
    assert judged(found, 0.01) == pytest.approx(2.0, rel=1e-3)


@pytest.mark.parametrize("n", [4, 6, 8, 12])
def test_noise_alone_seldom_counts_as_form(n):
    """Simulated: a round bar read with noise u is said to have form 1 time in 20."""
    rng = np.random.default_rng(n)
    said = [
        form_above_noise(fit(even(n), list(rng.normal(0, 0.2, n))), 0.2) > 0 for _ in range(1500)
    ]
    assert np.mean(said) == pytest.approx(0.05, abs=0.02)


@pytest.mark.parametrize(("e", "lobes"), [(0.0, 1.0), (1.0, 0.5), (1.0, 1.0), (1.0, 0.2)])
def test_on_average_the_judged_figure_is_the_true_runout_or_a_little_more(e, lobes):
    """Simulated with noise u: never short by a fifth of U, and over by less than U."""
    rng, u = np.random.default_rng(1), 0.1
    angles = even(12)
    clean = profile(np.array(angles), e, lobes)
    full = max(np.ptp(profile(np.arange(0, 360, 0.2), e, lobes)), 2 * e)
    figures = [judged(fit(angles, list(clean + rng.normal(0, u, 12))), u) for _ in range(60)]
    expanded = 4 * u * np.sqrt(2 / 12)
    assert -expanded / 5 < np.mean(figures) - full < expanded
