"""Student's factors are those of a public table."""

from __future__ import annotations

import json
from math import inf
from pathlib import Path

import pytest
from scipy import stats

from guide.measure.student import ONE_SIDED, STUDENT, STUDENT_ONE_SIDED, one_sided, student
from guide.plain import BadInput

OUTSIDE = Path(__file__).parents[1] / "outside"
DECISION = json.loads((OUTSIDE / "measure_decision.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", DECISION, ids=lambda case: case["name"])
def test_the_decision_factor_is_the_tables_and_the_distributions(case):
    """Exactly the printed figure, which scipy's t distribution gives at its two digits."""
    freedom = float(case["inputs"]["freedom"])
    assert one_sided(freedom) == case["expected"]
    assert one_sided(freedom) == pytest.approx(stats.t.ppf(0.95, freedom), abs=0.011)


def test_the_whole_table_is_checked():
    """No row of ours is without a row of the public table."""
    assert {float(case["inputs"]["freedom"]) for case in DECISION} == set(STUDENT_ONE_SIDED)
    assert set(STUDENT) == set(STUDENT_ONE_SIDED)
    assert STUDENT_ONE_SIDED[inf] == ONE_SIDED


def test_between_rows_the_lower_freedom_counts():
    """Never a smaller factor than the truth."""
    assert (one_sided(2.9), one_sided(24.9)) == (2.92, 1.72)
    assert student(2.9) == 4.53


def test_rounding_alone_costs_no_row():
    """Nine degrees of freedom worked out a hair too low are nine."""
    assert one_sided(9 - 1e-14 * 9) == one_sided(9) == 1.83


@pytest.mark.parametrize("freedom", [0.9, 0, -1, float("nan")])
def test_less_than_one_degree_of_freedom_gives_no_factor(freedom):
    """It is refused."""
    for function in (student, one_sided):
        with pytest.raises(BadInput):
            function(freedom)
