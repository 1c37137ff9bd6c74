"""The budget averages what differs between readings, keeps what does not, and counts repeats."""

from __future__ import annotations

import json
from math import inf, sqrt

import numpy as np
import pytest

from guide.measure.angles import even
from guide.measure.budget import budget, of_one_reading
from guide.measure.harmonic import fit
from guide.measure.uncertainty import Part, parts
from guide.plain import BadInput


def turn(n, e=1.0):
    """The fit of a round bar off by e at n even positions."""
    return fit(even(n), (e * np.cos(np.radians(even(n)))).tolist())


@pytest.mark.parametrize("n", [3, 4, 6, 8, 12])
def test_one_reading_alone_gives_the_contracts_figure(n):
    """U = 4·u·√(2/n), k = 2 and the factor 1.645."""
    found = of_one_reading(turn(n), 0.2)
    assert found.expanded == pytest.approx(4 * 0.2 * sqrt(2 / n))
    assert (found.k, found.factor, found.freedom) == (2, 1.645, inf)
    assert found.u_widest == pytest.approx(found.u_tir)


def test_what_stays_over_the_turn_is_not_averaged():
    """Twelve positions make the readings' part smaller and leave the grip's as it is."""
    few, many = (budget(turn(n), parts(u=0.2, grip=0.6)) for n in (4, 12))
    assert few.u_tir == pytest.approx(2 * sqrt(0.2**2 * 2 / 4 + 0.6**2 / 12))
    assert many.u_tir == pytest.approx(2 * sqrt(0.2**2 * 2 / 12 + 0.6**2 / 12))
    assert many.u_reading == few.u_reading == 0.2


def test_a_grip_part_scatters_as_the_budget_says():
    """Simulated: noise on every reading, and one shift of the centre for each turn."""
    rng = np.random.default_rng(23)
    n, places = 8, np.radians(even(8))
    shifts = rng.uniform(-0.3, 0.3, (3000, 2))
    noise = rng.normal(0, 0.1, (3000, n))
    values = 5 * np.cos(places) + shifts @ np.array([np.cos(places), np.sin(places)]) + noise
    found = [fit(even(n), row.tolist()).fitted_tir for row in values]
    expected = budget(turn(n, 5.0), parts(u=0.1, grip=0.6)).u_tir
    assert np.std(found) == pytest.approx(expected, rel=0.05)


def test_few_repeats_take_students_factors_by_their_share():
    """Repeats alone count with their freedom; beside a large known part they hardly matter."""
    alone = budget(turn(8), parts(repeats=[0, 1, 2]))
    assert (alone.freedom, alone.k, alone.factor) == (2, 4.53, 2.92)
    beside = budget(turn(8), parts(u=10.0, repeats=[0, 1, 2]))
    assert (beside.k, beside.factor) == (2.025, 1.66)


def test_student_covers_where_two_would_not():
    """Simulated: u from three repeats, TIR ± k·u holds the true one 95 times in 100."""
    rng = np.random.default_rng(29)
    places, held, with_two = np.radians(even(4)), 0, 0
    for _ in range(1500):
        values = 20 * np.cos(places) + rng.normal(0, 1, 4)
        found = fit(even(4), values.tolist())
        known = budget(found, parts(repeats=rng.normal(0, 1, 3).tolist()))
        held += abs(found.fitted_tir - 40) <= known.expanded
        with_two += abs(found.fitted_tir - 40) <= 2 * known.u_tir
    assert held / 1500 >= 0.94
    assert with_two / 1500 < 0.85


@pytest.mark.parametrize("known", [(), parts(grip=1), parts(repeats=[1, 1])])
def test_nothing_of_one_reading_is_no_uncertainty(known):
    """A grip, or repeats that never differ, do not say how fine a reading is."""
    with pytest.raises(BadInput, match="Nothing is known of one reading"):
        budget(turn(4), known)


def test_the_answer_is_plain_json():
    """Endless freedom is null."""
    answer = budget(turn(4), (Part("reading", 0.2), Part("repeats", 0.1, 3))).to_json()
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    assert [part["degrees_of_freedom"] for part in answer["parts"]] == [None, 3]
    assert list(answer) == [
        "parts", "u_reading", "u_fitted_tir", "degrees_of_freedom", "k", "factor",
    ]  # fmt: skip
