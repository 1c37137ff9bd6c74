"""The straight line through the fitted centres at two stations or more."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, sqrt

from guide.measure.angles import turned
from guide.measure.harmonic import Fit
from guide.measure.least_squares import Solution, solve
from guide.measure.rounding import tidy
from guide.measure.uncertainty import expanded
from guide.plain import N_, BadInput

STANDS_OUT = 2.448
"""A plane vector this many u long is noise one time in twenty: √5.991, χ² at 95 % for ν = 2."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where the centre is at one station, as worked out; in the readings' unit."""

    station: float
    eccentricity: float
    high_at_deg: float
    fitted_tir: float
    expanded_uncertainty: float | None
    """Two standard uncertainties of the fitted TIR there, or None without an uncertainty."""

    def to_json(self) -> dict[str, float | None]:
        """The place as `calc tilt` answers it."""
        u = self.expanded_uncertainty
        return {
            "station": self.station,
            "eccentricity": tidy(self.eccentricity),
            "high_at_deg": self.high_at_deg,
            "fitted_tir": tidy(self.fitted_tir),
            "expanded_uncertainty": None if u is None else tidy(u),
        }


@dataclass(frozen=True, slots=True)
class Axis:
    """The straight line through the centres; slope in the readings' unit per unit of station."""

    a: tuple[float, float]
    """Cosine part at station 0, and its slope."""
    b: tuple[float, float]
    """Sine part at station 0, and its slope."""
    stations: tuple[float, ...]
    weights: tuple[tuple[float, ...], ...]
    """How much each station counts in the offset at 0 and in the slope."""
    u_stations: tuple[float, ...] | None
    """Standard uncertainty of the centre at each station in its worst direction, or None."""

    @property
    def slope(self) -> float:
        """How far the centre moves for each unit of length along the bar."""
        return hypot(self.a[1], self.b[1])

    @property
    def toward_deg(self) -> float:
        """The angle to which the bar leans, going away from the chuck face."""
        return turned(degrees(atan2(self.b[1], self.a[1])))

    @property
    def u_slope(self) -> float | None:
        """Standard uncertainty of the slope in any one direction, or None."""
        return self._u((0.0, 1.0))

    @property
    def stands_out(self) -> bool:
        """Whether the slope is more than noise; never said without an uncertainty."""
        u = self.u_slope
        return u is not None and self.slope > STANDS_OUT * u

    def centre(self, station: float) -> tuple[float, float]:
        """The cosine and sine part of the centre at a station."""
        return self.a[0] + self.a[1] * station, self.b[0] + self.b[1] * station

    def u_at(self, station: float) -> float | None:
        """Standard uncertainty of the centre there in any one direction, or None."""
        return self._u((1.0, station))

    def at(self, station: float, moved: tuple[float, float] = (0.0, 0.0)) -> Place:
        """The centre at a station, between the ones read or beyond them, the body moved so far."""
        a, b = (part + by for part, by in zip(self.centre(station), moved, strict=True))
        u = self.u_at(station)
        return Place(
            station=station,
            eccentricity=hypot(a, b),
            high_at_deg=turned(degrees(atan2(b, a))),
            fitted_tir=2 * hypot(a, b),
            expanded_uncertainty=None if u is None else expanded(2 * u),
        )

    def _u(self, row: tuple[float, float]) -> float | None:
        """Standard uncertainty of offset·row[0] + slope·row[1]."""
        if self.u_stations is None:
            return None
        spread = [row[0] * x + row[1] * y for x, y in zip(*self.weights, strict=True)]
        return sqrt(sum((w * u) ** 2 for w, u in zip(spread, self.u_stations, strict=True)))


def through(stations: Sequence[float], fits: Sequence[Fit], u: float | None = None) -> Axis:
    """The line through the fitted centres at two or more stations, by least squares.

    Stations are distances from the front face of the chuck body, in one unit; the fits share the
    readings' unit and screw 1 as angle 0; `u` is the standard uncertainty of one reading. It
    assumes a straight bar: with two stations a bend cannot show, with three or more it is left out
    of `u_stations`. Beyond the stations the uncertainty grows with the distance. BadInput for
    fewer than two different stations.
    """
    if len(stations) != len(fits) or len(set(stations)) < 2:
        raise BadInput(
            N_("Tilt needs readings at two different stations."),
            N_("Give one distance from the chuck face for each set of readings."),
        )
    along = [[1.0] * len(stations), [float(z) for z in stations]]
    a = _solved(along, [fit.a for fit in fits])
    b = _solved(along, [fit.b for fit in fits])
    return Axis(
        a=(a.coefficients[0], a.coefficients[1]),
        b=(b.coefficients[0], b.coefficients[1]),
        stations=tuple(along[1]),
        weights=tuple(tuple(row[0] + row[1] * z for z in along[1]) for row in a.covariance),
        u_stations=None if u is None else tuple(u * fit.widest() for fit in fits),
    )


def _solved(along: list[list[float]], y: list[float]) -> Solution:
    """The line, or BadInput where the stations are all but one."""
    found = solve(along, y)
    if found is None:
        raise BadInput(
            N_("The stations are too close together."), N_("Read further apart along the bar.")
        )
    return found
