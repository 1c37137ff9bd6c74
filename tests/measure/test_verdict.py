"""The decision rule: guarded or simple, and which one it was."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from guide.measure.verdict import EDITIONS, FACTORS, SAID, decide
from guide.plain import BadInput


@pytest.mark.parametrize(
    ("judged", "rule", "verdict"),
    [
        (0.8, "guarded", "within"),
        (0.8355, "guarded", "within"),
        (0.836, "guarded", "undecided"),
        (1.0, "guarded", "undecided"),
        (1.164, "guarded", "undecided"),
        (1.165, "guarded", "outside"),
        (1.0, "simple", "within"),
        (1.0001, "simple", "outside"),
    ],
)
def test_the_guard_band_keeps_both_verdicts_off_the_limit(judged, rule, verdict):
    """g = 1.645·0.1 about a tolerance of 1; simple acceptance has no band."""
    assert decide(judged, 0.1, 1.0, rule).verdict == verdict


@given(st.floats(0, 10), st.floats(0.001, 1), st.floats(0.01, 10))
def test_verdicts_follow_the_contract(judged, u, tolerance):
    """Within if judged + g ≤ T, outside if judged − g > T, else undecided."""
    guard = 1.645 * u
    if abs(judged + guard - tolerance) > 1e-9 and abs(judged - guard - tolerance) > 1e-9:
        expected = (
            "within"
            if judged + guard <= tolerance
            else "outside"
            if judged - guard > tolerance
            else "undecided"
        )
        assert decide(judged, u, tolerance).verdict == expected


def test_rounding_decides_nothing():
    """0.1 + 0.2 is not above 0.3."""
    assert decide(0.1 + 0.2, 0.0, 0.3, "simple").verdict == "within"


def test_the_factor_is_the_one_sided_95_percent_of_a_normal_distribution():
    """scipy is the reference: 5 % false acceptance at the limit, 50 % under the simple rule."""
    assert FACTORS["guarded"] == pytest.approx(stats.norm.ppf(0.95), abs=2e-4)
    seen = 1.0 + 0.1 * np.random.default_rng(5).normal(size=4000)
    for rule, share in (("guarded", 0.05), ("simple", 0.50)):
        accepted = sum(decide(float(x), 0.1, 1.0, rule).verdict == "within" for x in seen)
        assert accepted / len(seen) == pytest.approx(share, abs=0.03)


def test_a_decision_records_its_rule():
    """Rule, factor and edition go into the record."""
    made = decide(0.5, 0.1, 1.0)
    assert (made.rule, made.factor, made.edition) == ("guarded", 1.645, EDITIONS["guarded"])
    assert "14253-1" in made.edition
    assert set(SAID) == {"within", "outside", "undecided"}


def test_an_unknown_rule_is_refused():
    """There are two."""
    with pytest.raises(BadInput, match="guarded or simple"):
        decide(0.5, 0.1, 1.0, "generous")
