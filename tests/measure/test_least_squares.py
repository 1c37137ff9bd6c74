"""The solver gives what NIST certifies and what numpy gives, and says when it cannot."""

from __future__ import annotations

import json
from math import sqrt
from pathlib import Path

import numpy as np
import pytest

from guide.measure.least_squares import solve

OUTSIDE = Path(__file__).parents[1] / "outside"
NORRIS = json.loads((OUTSIDE / "measure_norris.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", NORRIS, ids=lambda case: case["name"])
def test_a_line_meets_the_certified_regression(case):
    """Coefficients, their standard deviations and the residual's are NIST's."""
    x, y = case["inputs"]["x"], case["inputs"]["y"]
    found = solve([[1.0] * len(x), x], y)
    sd = sqrt(found.squares / found.spare)
    got = {
        "b0": found.coefficients[0],
        "b1": found.coefficients[1],
        "sd_b0": sd * sqrt(found.covariance[0][0]),
        "sd_b1": sd * sqrt(found.covariance[1][1]),
        "residual_sd": sd,
    }
    assert got == pytest.approx(case["expected"], rel=case["tolerance"])


@pytest.mark.parametrize("seed", range(5))
def test_random_columns_agree_with_numpy(seed):
    """numpy.linalg is the reference for coefficients, residuals and (XᵀX)⁻¹."""
    rng = np.random.default_rng(seed)
    x, y = rng.normal(size=(9, 4)), rng.normal(size=9)
    found = solve(x.T.tolist(), y.tolist())
    expected = np.linalg.lstsq(x, y, rcond=None)[0]
    np.testing.assert_allclose(found.coefficients, expected, rtol=1e-9)
    np.testing.assert_allclose(found.residuals, y - x @ expected, atol=1e-12)
    np.testing.assert_allclose(found.covariance, np.linalg.inv(x.T @ x), rtol=1e-8)


def test_columns_that_depend_on_each_other_have_no_solution():
    """A column that is twice another cannot be told from it."""
    assert solve([[1.0, 2.0, 3.0], [2.0, 4.0, 6.0]], [1.0, 1.0, 1.0]) is None


def test_more_columns_than_rows_have_no_solution():
    """Three unknowns need three rows."""
    assert solve([[1.0, 1.0], [0.0, 1.0], [1.0, 3.0]], [1.0, 2.0]) is None
