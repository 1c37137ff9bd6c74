"""The judged runout: the first harmonic plus the form that stands above the noise."""

from __future__ import annotations

from math import hypot

from guide.measure.harmonic import Fit, columns, shape
from guide.measure.uncertainty import COVERAGE, form_share

STEP_DEG = 1.0
"""Between the points at which the curve is looked at; three lobes then lose under 0.1 %."""


def form_above_noise(fit: Fit, u: float | None) -> float:
    """The part of the residual, 0 to 1, that noise of u in one reading does not explain.

    Without an uncertainty, and at three positions, nothing counts as form.
    """
    if u is None or fit.form is None:
        return 0.0
    return form_share(fit.squares, fit.spare, u)


def judged(fit: Fit, u: float | None = None) -> float:
    """Peak-to-valley of the fitted first harmonic plus form above noise, in the readings' unit.

    Form is the residual at each position, and between them the second and third harmonics where
    the positions tell them apart, both made smaller by `form_above_noise`. Never less than 2e,
    although lobes that lie against the high spot could make the true figure smaller.
    """
    share = form_above_noise(fit, u)
    if share == 0:
        return fit.fitted_tir
    seen = [*_at_positions(fit, share), *_between(fit, share)]
    return max(fit.fitted_tir, max(seen) - min(seen))


def sweep_limit(u: float, u_tir: float) -> float:
    """How far a watched sweep may differ from the judged runout: 2·√(u_tir² + 2·u²)."""
    return COVERAGE * hypot(u_tir, u, u)


def _at_positions(fit: Fit, share: float) -> list[float]:
    """First harmonic plus its share of the residual, at each position read."""
    pairs = zip(fit.angles, fit.residuals, strict=True)
    return [fit.at(angle) + share * residual for angle, residual in pairs]


def _between(fit: Fit, share: float) -> list[float]:
    """First harmonic plus its share of the higher ones, all round the turn."""
    orders, whole = shape(fit.angles, fit.values)
    angles = [step * STEP_DEG for step in range(int(360 / STEP_DEG))]
    grid = columns(angles, orders)
    found = []
    for i, angle in enumerate(angles):
        full = sum(c * column[i] for c, column in zip(whole.coefficients, grid, strict=True))
        found.append((1 - share) * fit.at(angle) + share * full)
    return found
