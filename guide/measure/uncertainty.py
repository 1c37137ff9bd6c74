"""Uncertainty of one reading from its parts, and of the fitted TIR from the readings.

After JCGM 100:2008 (the GUM): parts in quadrature, Welch-Satterthwaite for the freedom left, and
Student's factor from NIST Technical Note 1297 (1994), table B.1.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum, hypot, inf, isfinite, radians, sqrt
from types import MappingProxyType

from guide.measure.harmonic import Fit
from guide.plain import N_, BadInput

COVERAGE = 2.0
"""k of a reported expanded uncertainty."""
ONE_SIDED = 1.645
"""95 % on one side of a normal distribution (NIST TN 1297 table B.1: 90 % in the middle)."""

STUDENT: Mapping[float, float] = MappingProxyType(
    {
        1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 6: 2.52, 7: 2.43, 8: 2.37, 9: 2.32,
        10: 2.28, 11: 2.25, 12: 2.23, 13: 2.21, 14: 2.20, 15: 2.18, 16: 2.17, 17: 2.16,
        18: 2.15, 19: 2.14, 20: 2.13, 25: 2.11, 30: 2.09, 35: 2.07, 40: 2.06, 45: 2.06,
        50: 2.05, 100: 2.025, inf: 2.000,
    }
)  # fmt: skip
"""k at 95.45 % for ν degrees of freedom: NIST TN 1297 (1994), table B.1."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the uncertainty of a reading."""

    name: str
    u: float
    """Standard uncertainty, in the reading's unit."""
    freedom: float = inf
    """Degrees of freedom: repeats less one, or endless for a limit that is known."""


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
    """u of one reading from repeats of it: their standard deviation, with its freedom."""
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

    `permissible_error` and `angle_deg` are half widths; play, roundness, hysteresis, grip and
    drift are whole widths within which the value may lie anywhere. The angle's effect is averaged
    round the turn.
    """
    known = {
        "graduation": of_graduation(graduation),
        "indicator error": rectangular(permissible_error),
        "play": rectangular(play / 2),
        "bar roundness": rectangular(roundness / 2),
        "hysteresis": rectangular(hysteresis / 2),
        "grip": rectangular(grip / 2),
        "drift": rectangular(drift / 2),
        "angle set by eye": rectangular(angle_effect(eccentricity, angle_deg)) / sqrt(2),
    }
    found = tuple(Part(name, u) for name, u in known.items() if u > 0)
    return (*found, of_repeats(repeats)) if len(repeats) > 0 else found


def combined(of: Iterable[Part]) -> Part:
    """The parts in quadrature, with the Welch-Satterthwaite degrees of freedom (GUM G.4.1)."""
    found = tuple(of)
    u = hypot(*(part.u for part in found))
    if any(part.u > 0 and part.freedom <= 0 for part in found):
        raise BadInput(N_("A part of the uncertainty has no degrees of freedom."))
    below = sum((part.u / u) ** 4 / part.freedom for part in found) if u > 0 else 0.0
    return Part("combined", u, 1 / below if below > 0 else inf)


def student(freedom: float) -> float:
    """k at 95.45 % for the next lower degrees of freedom in the table; BadInput below one."""
    if freedom < 1:
        raise BadInput(N_("Fewer than one degree of freedom gives no factor."))
    return STUDENT[max(row for row in STUDENT if row <= freedom)]


def of_reading(of: Iterable[Part]) -> float:
    """Standard uncertainty of one reading, widened for few repeats.

    It is k(ν)/2 times the combined one, so that twice it still covers 95.45 %.
    """
    whole = combined(of)
    return whole.u * student(max(whole.freedom, 1.0)) / COVERAGE


def of_fitted_tir(fit: Fit, u: float) -> float:
    """Standard uncertainty of 2e for u of one reading; with n even positions 2·u·√(2/n)."""
    return 2 * u * fit.spread()


def expanded(u: float) -> float:
    """The reported uncertainty U = 2·u."""
    return COVERAGE * u


def near_zero(fitted_tir: float, u_tir: float) -> bool:
    """Whether the fitted TIR is so near zero that noise alone makes much of it."""
    return fitted_tir < COVERAGE * u_tir


def one_sided_limit(fitted_tir: float, u_tir: float) -> float:
    """What the true 2e is below with 95 % confidence; it holds near zero, where 2e reads high."""
    return fitted_tir + ONE_SIDED * u_tir


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
