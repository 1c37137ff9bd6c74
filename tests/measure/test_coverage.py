"""How often a stated uncertainty holds: Rice's distribution and simulated turns are the judges."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from guide.measure.angles import even
from guide.measure.budget import of_one_reading
from guide.measure.harmonic import fit
from guide.measure.runout import runout
from guide.measure.uncertainty import ONE_SIDED, near_zero, one_sided_limit
from guide.measure.verdict import decide

UNEVEN = [0.0, 30.0, 50.0, 80.0, 110.0, 140.0]


@pytest.mark.parametrize("e", [0.0, 0.3, 0.5, 1.0, 1.645, 2.0, 3.0, 5.0, 20.0])
def test_the_one_sided_limit_never_covers_too_little(e):
    """The fitted e follows Rice's distribution (scipy), e in u(e): below the limit 95 in 100."""
    covered = 1 - stats.rice.cdf(max(e - ONE_SIDED, 0), e)
    assert covered >= 0.95 - 1e-3
    assert one_sided_limit(2 * e, 2.0) == pytest.approx(2 * (e + 1.645))


@pytest.mark.parametrize(
    ("e", "held"), [(0, 0.865), (0.25, 0.914), (0.75, 0.950), (1, 0.956), (2, 0.966), (10, 0.955)]
)
def test_u_covers_from_three_quarters_of_u_up(e, held):
    """The figures of `expanded`: TIR ± U is right 86 times in 100 where there is no runout."""
    inside = stats.rice.cdf(e + 2, e) - stats.rice.cdf(max(e - 2, 0), e)
    assert inside == pytest.approx(held, abs=1e-3)
    assert bool(inside >= 0.95) == (e >= 0.75)


@pytest.mark.parametrize("e", [0.0, 0.5, 1.0, 2.0, 4.0])
@pytest.mark.parametrize("n", [4, 8])
def test_simulated_turns_follow_rice(e, n):
    """The fitted e of noisy readings has Rice's mean and spread, e and noise in u(e)."""
    rng = np.random.default_rng(41)
    turn = np.radians(even(n))
    u = np.sqrt(n / 2)
    found = [
        fit(even(n), row.tolist()).eccentricity
        for row in e * np.cos(turn - 1) + rng.normal(0, u, (1200, n))
    ]
    assert np.mean(found) == pytest.approx(stats.rice.mean(e), abs=0.08)
    assert np.std(found) == pytest.approx(stats.rice.std(e), abs=0.08)


@pytest.mark.parametrize("true", [0.5, 2.0, 5.7])
@pytest.mark.parametrize("high", [0, 90])
def test_uneven_places_cover_too_since_the_worst_direction_counts(true, high):
    """Simulated at places on one side: 2e is below the limit in 95 turns of 100 or more.

    Along the high spot alone, which near zero is noise, it would be 93.
    """
    rng = np.random.default_rng(43)
    turn = np.radians(np.array(UNEVEN) - high)
    below = narrow = 0
    for row in true * np.cos(turn) + rng.normal(0, 1.0, (1000, len(turn))):
        found = fit(UNEVEN, row.tolist())
        known = of_one_reading(found, 1.0)
        below += 2 * true <= one_sided_limit(found.fitted_tir, known.u_widest)
        narrow += 2 * true <= one_sided_limit(found.fitted_tir, known.u_tir)
    assert below >= 950
    if (true, high) == (5.7, 90):
        assert narrow < 950


def test_the_result_gives_the_limit_of_the_worst_direction():
    """At uneven places it is wider than what the spread along the high spot would give."""
    values = [np.cos(np.radians(place - 150)) for place in UNEVEN]
    found = runout(values, "thou", UNEVEN, u=1.0)
    assert found.budget.u_widest > 1.05 * found.budget.u_tir
    assert found.at_most == pytest.approx(found.fitted_tir + 1.645 * found.budget.u_widest)


@pytest.mark.parametrize("tolerance", [0.5, 2.0, 10.0])
def test_a_bar_on_its_tolerance_is_called_within_one_time_in_twenty(tolerance):
    """By Rice's distribution, tolerance in u(2e): the guarded rule's risk, at most."""
    largest = tolerance - ONE_SIDED
    risk = stats.rice.cdf(largest, tolerance) if largest > 0 else 0.0
    assert risk <= 0.05
    assert decide(largest - 1e-9, 1.0, tolerance).verdict == "within" or largest < 0
    assert decide(largest + 1e-6, 1.0, tolerance).verdict != "within"


@pytest.mark.parametrize(("tolerance", "risk"), [(0.001, 0.26), (2.0, 0.072), (50.0, 0.051)])
def test_outside_is_wrong_more_often_near_zero(tolerance, risk):
    """The figures of `decide`: a bar on a tolerance that is small against u reads too high."""
    said = 1 - stats.rice.cdf(tolerance + ONE_SIDED, tolerance)
    assert said == pytest.approx(risk, abs=0.002)


def test_near_zero_is_where_u_stops_holding():
    """A fitted TIR below 2·u(2e): there the one-sided limit is given."""
    assert near_zero(1.99, 1.0)
    assert not near_zero(2.0, 1.0)
