"""Uncertainty of one reading from its parts, and of the fitted TIR from the readings.

After JCGM 100:2008 (the GUM): parts in quadrature, Welch-Satterthwaite for the freedom left, and
Student's factor from NIST Technical Note 1297 (1994), table B.1.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import fsum, hypot, inf, isfinite, radians, sqrt

from guide.measure.harmonic import Fit
from guide.measure.student import ONE_SIDED as ONE_SIDED
from guide.measure.student import STUDENT as STUDENT
from guide.measure.student import one_sided
from guide.measure.student import student as student
from guide.plain import N_, BadInput

COVERAGE = 2.0
"""k of a reported expanded uncertainty."""

WHOLE_TURN = frozenset({"indicator error", "grip", "drift"})
"""Parts that reading at more positions does not make smaller."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the uncertainty of a reading."""

    name: str
    u: float
    """Standard uncertainty, in the reading's unit."""
    freedom: float = inf
    """Degrees of freedom: repeats less one, or endless for a limit that is known."""
    averaged: bool = True
    """Whether it differs from reading to reading, so that more positions make it matter less."""


def rectangular(half_width: float) -> float:
    """u of a value anywhere within ± half_width, all equally likely: half_width/√3 (GUM 4.3.7)."""
    return half_width / sqrt(3)


def arcsine(half_width: float) -> float:
    """u of a value that swings within ± half_width: half_width/√2."""
    return half_width / sqrt(2)


def of_graduation(graduation: float) -> float:
    """u of a dial read to the nearest division: graduation/√12."""
    return graduation / sqrt(12)


def of_repeats(values: Sequence[float]) -> Part:
    """u of one reading from repeats of it: their standard deviation, with its freedom.

    It assumes that nothing drifts meanwhile. Repeats that a coarse dial shows all the same give
    nothing, which says only that they lie within one division. BadInput for fewer than two.
    """
    if len(values) < 2:
        raise BadInput(
            N_("One reading says nothing about repeats."), N_("Repeat it two times or more.")
        )
    mean = fsum(values) / len(values)
    squares = fsum((value - mean) ** 2 for value in values)
    return Part("repeats", sqrt(squares / (len(values) - 1)), len(values) - 1)


def angle_effect(eccentricity: float, angle_deg: float) -> float:
    """The most that an angle wrong by so much moves a reading: e·radians, where r is steepest."""
    return abs(eccentricity) * radians(abs(angle_deg))


def parts(
    *,
    u: float = 0.0,
    graduation: float = 0.0,
    permissible_error: float = 0.0,
    play: float = 0.0,
    roundness: float = 0.0,
    hysteresis: float = 0.0,
    grip: float = 0.0,
    drift: float = 0.0,
    eccentricity: float = 0.0,
    angle_deg: float = 0.0,
    repeats: Sequence[float] = (),
) -> tuple[Part, ...]:
    """The parts of one reading's uncertainty; lengths in one unit, what is 0 is left out.

    `u` is a standard uncertainty of one reading, known as a whole. `permissible_error` and
    `angle_deg` are half widths; play, roundness, hysteresis, grip and drift are whole widths
    within which the value may lie anywhere. The angle's effect is averaged round the turn. The
    indicator's error, grip and drift are the same or go one way over the whole turn, so they are
    marked as not averaged. A dial's division is counted beside repeats, which holds a little of it
    too: rather too much than too little.
    """
    known = {
        "reading": u,
        "graduation": of_graduation(graduation),
        "indicator error": rectangular(permissible_error),
        "play": rectangular(play / 2),
        "bar roundness": rectangular(roundness / 2),
        "hysteresis": rectangular(hysteresis / 2),
        "grip": rectangular(grip / 2),
        "drift": rectangular(drift / 2),
        "angle set by eye": rectangular(angle_effect(eccentricity, angle_deg)) / sqrt(2),
    }
    found = tuple(
        Part(name, size, averaged=name not in WHOLE_TURN) for name, size in known.items() if size
    )
    return (*found, of_repeats(repeats)) if len(repeats) > 0 else found


def combined(of: Iterable[Part]) -> Part:
    """The parts in quadrature, with the Welch-Satterthwaite degrees of freedom (GUM G.4.1).

    It assumes independent parts; parts that move together add up to more than this says. BadInput
    for a part that has no degrees of freedom.
    """
    found = tuple(of)
    u = hypot(*(part.u for part in found))
    if any(part.u > 0 and part.freedom <= 0 for part in found):
        raise BadInput(N_("A part of the uncertainty has no degrees of freedom."))
    below = sum((part.u / u) ** 4 / part.freedom for part in found) if u > 0 else 0.0
    return Part("combined", u, 1 / below if below > 0 else inf)


def of_reading(of: Iterable[Part]) -> float:
    """Standard uncertainty of one reading, widened for few repeats.

    It is k(ν)/2 times the combined one, so that twice it still covers 95.45 %.
    """
    whole = combined(of)
    return whole.u * student(max(whole.freedom, 1.0)) / COVERAGE


def of_fitted_tir(fit: Fit, u: float) -> float:
    """Standard uncertainty of 2e for u of one reading; with n even positions 2·u·√(2/n).

    It assumes independent readings, and a runout of a few u, so that only noise along the high
    spot counts. It stops holding near zero (`expanded`) and where a coarse dial's readings vary by
    less than two divisions (`coarse.unseen`): it is too small there.
    """
    return 2 * u * fit.spread()


def widest_tir(fit: Fit, u: float) -> float:
    """Standard uncertainty of 2e in the direction in which these positions tell it worst."""
    return 2 * u * fit.widest()


def expanded(u: float) -> float:
    """The reported uncertainty U = 2·u.

    It assumes a fitted TIR well away from zero. By Rice's distribution TIR ± U holds the true one
    95 times in 100 or more from a true e of 0.75·u(e) up; below that fewer, 86 at no eccentricity,
    because 2e cannot be less than nothing. There `one_sided_limit` is given beside it.
    """
    return COVERAGE * u


def near_zero(fitted_tir: float, u_tir: float) -> bool:
    """Whether the fitted TIR is so near zero that noise alone makes much of it."""
    return fitted_tir < COVERAGE * u_tir


def one_sided_limit(fitted_tir: float, u_tir: float, freedom: float = inf) -> float:
    """What the true 2e is below with 95 % confidence; never less, near zero more (Rice).

    It assumes normal noise, and `u_tir` of the worst direction (`widest_tir`): along a high spot
    that is itself noise, uneven positions would leave it at 93 %. The 95 % are of all turns of a
    bar; among the few turns of a worse bar that happen to come out low it is fewer. It stops
    holding where equal readings of a coarse dial have no noise to average: see `coarse.unseen`.
    """
    return fitted_tir + one_sided(freedom) * u_tir


def chi_square_95(freedom: int) -> float:
    """The 95 % point of χ², by Wilson and Hilferty's cube root (within 3 %, best for many)."""
    nine = 2 / (9 * freedom)
    return float(freedom * (1 - nine + ONE_SIDED * sqrt(nine)) ** 3)


def form_share(squares: float, freedom: int, u: float) -> float:
    """The part of the residual, 0 to 1, that stands above the noise of u in one reading.

    Nothing where χ² at 95 % would let noise explain the squared residuals; else the noise
    expected, ν·u², is taken out in quadrature: √(1 − ν·u²/Σr²).
    """
    if freedom < 1 or squares <= chi_square_95(freedom) * u * u:
        return 0.0
    return sqrt(1 - freedom * u * u / squares)


def refuse_not_positive(u: float) -> None:
    """Refuse an uncertainty that is not above zero."""
    if not (isfinite(u) and u > 0):
        raise BadInput(N_("An uncertainty of {u} cannot be."), N_("Give one above zero."), u=u)
