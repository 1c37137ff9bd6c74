"""The six multipliers of the revised NIOSH lifting equation, and its two systems of units.

Source: `niosh`, with the page of each table beside it. A multiplier of 0 is outside the equation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from guide.plain import N_, BadInput
from guide.shop.published import rows

LONGEST_HOURS = 8
MOST_ASYMMETRY = 135


@dataclass(frozen=True, slots=True)
class System:
    """The constants of one system; 23 kg and 51 lb are not exact conversions of each other."""

    name: str
    length: str
    mass: str
    load_constant: float
    """LC, the load that all multipliers reduce."""
    reach: float
    """H at or below which HM is 1."""
    reach_limit: float
    """H above which HM is 0."""
    height: float
    """V at which VM is 1, and from which coupling and frequency count as high."""
    height_slope: float
    height_limit: float
    """V and D above which their multipliers are 0."""
    travel_gain: float
    travel_least: float
    """D at or below which DM is 1."""


SYSTEMS: Mapping[str, System] = MappingProxyType(
    {
        "metric": System("metric", "cm", "kg", 23.0, 25, 63, 75, 0.003, 175, 4.5, 25),
        "us": System("us", "in", "lb", 51.0, 10, 25, 30, 0.0075, 70, 1.8, 10),
    }
)


def horizontal(h: float, system: System) -> float:
    """HM = 25/H (10/H in inches), 1 at or below 25 cm, 0 above 63 cm."""
    return 0.0 if h > system.reach_limit else system.reach / max(h, system.reach)


def vertical(v: float, system: System) -> float:
    """VM = 1 − 0.003·|V − 75| (1 − 0.0075·|V − 30| in inches), 0 above 175 cm."""
    return 0.0 if v > system.height_limit else 1 - system.height_slope * abs(v - system.height)


def distance(d: float, system: System) -> float:
    """DM = 0.82 + 4.5/D (0.82 + 1.8/D in inches), 1 at or below 25 cm, 0 above 175 cm."""
    if d > system.height_limit:
        return 0.0
    return 1.0 if d <= system.travel_least else 0.82 + system.travel_gain / d


def asymmetry(a: float) -> float:
    """AM = 1 − 0.0032·A in degrees, 0 above 135°."""
    return 0.0 if a > MOST_ASYMMETRY else 1 - 0.0032 * a


def frequency(per_minute: float, hours: float, v: float, system: System) -> float:
    """FM from table 5, p. 15, linear between its rows; V is where the lift starts.

    Below 0.2 lifts a minute the first row holds; above 15 a minute or 8 hours FM is 0.
    """
    table = rows("frequency_multipliers")
    if per_minute > float(table[-1]["per_minute"]) or hours > LONGEST_HOURS:
        return 0.0
    column = f"{_duration(hours)}_{_band(v, system)}"
    return _between(
        max(per_minute, float(table[0]["per_minute"])),
        [(float(row["per_minute"]), float(row[column])) for row in table],
    )


def coupling(grip: str, v: float, system: System) -> float:
    """CM from table 7, p. 18: fair counts 0.95 below 75 cm (30 in) and 1 from there up."""
    table = {row["coupling"]: row for row in rows("coupling_multipliers")}
    if grip not in table:
        raise BadInput(
            N_("{grip} is not a coupling."),
            N_("Use one of: {grips}."),
            grip=grip,
            grips=", ".join(table),
        )
    return float(table[grip][_band(v, system)])


def averaged_frequency(per_minute: float, minutes: float) -> float:
    """Lifts a minute averaged over 15 minutes when lifting fills only `minutes` of them (p. 16).

    >>> round(averaged_frequency(10, 8), 2)
    5.33
    """
    if not 0 < minutes <= 15:
        raise BadInput(
            N_("{minutes} minutes of lifting do not lie within 15 minutes."),
            N_("Give more than 0 and at most 15, or leave it out for steady lifting."),
            minutes=minutes,
        )
    return per_minute * minutes / 15


def _band(v: float, system: System) -> str:
    """Whether the hands are below the knuckle height of the tables or not."""
    return "low" if v < system.height else "high"


def _duration(hours: float) -> int:
    """The column of table 5: at most 1, 2 or 8 hours."""
    return next(column for column in (1, 2, LONGEST_HOURS) if hours <= column)


def _between(x: float, points: list[tuple[float, float]]) -> float:
    """Linear interpolation inside the points; x lies within them."""
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    raise ArithmeticError(x)
