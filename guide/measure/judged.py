"""The judged runout: the first harmonic plus the form that stands above the noise."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from guide.measure.harmonic import Fit, columns, shape
from guide.measure.least_squares import Solution, dot
from guide.measure.uncertainty import COVERAGE, form_share

ROUND = tuple(range(360))
"""Angles at which the curve is looked at: a degree apart, three lobes lose under 0.1 %."""


def form_above_noise(fit: Fit, u: float | None) -> float:
    """The part of the residual, 0 to 1, that noise of u in one reading does not explain.

    Without an uncertainty, and at three positions, nothing counts as form.
    """
    if u is None or fit.form is None:
        return 0.0
    return form_share(fit.squares, fit.spare, u)


def judged(fit: Fit, u: float | None = None) -> float:
    """Peak-to-valley of the fitted first harmonic plus form above noise, in the readings' unit.

    Form is the second and third harmonics where the positions tell them apart, looked at all
    round the turn, and at each position what these leave over; both are made smaller by what
    noise explains. Never less than 2e, although lobes that lie against the high spot could make
    the true figure smaller. It assumes that what was not read lies on these harmonics: a burr
    between two positions is missed, and only the watched sweep finds it. Without an uncertainty,
    and at three positions, it is 2e alone.
    """
    share = form_above_noise(fit, u)
    if u is None or share == 0:
        return fit.fitted_tir
    orders, whole = shape(fit.angles, fit.values)
    left = form_share(whole.squares, whole.spare, u)
    here = _curve(fit, fit.angles, orders, whole, share)
    seen = [r + left * rest for r, rest in zip(here, whole.residuals, strict=True)]
    seen += _curve(fit, ROUND, orders, whole, share)
    return max(fit.fitted_tir, max(seen) - min(seen))


def sweep_limit(u: float, u_tir: float) -> float:
    """How far a watched sweep may differ from the judged runout: 2·√(u_tir² + 2·u²)."""
    return COVERAGE * hypot(u_tir, u, u)


def _curve(
    fit: Fit, angles: Sequence[float], orders: Sequence[int], whole: Solution, share: float
) -> list[float]:
    """First harmonic plus its share of the higher ones, at these angles."""
    rows = zip(*columns(angles, orders), strict=True)
    full = [dot(whole.coefficients, row) for row in rows]
    return [fit.at(t) + share * (r - fit.at(t)) for t, r in zip(angles, full, strict=True)]
