"""Tilt: how the bar leans, from readings at two stations or more; no radial screw cures it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan, degrees

from guide.measure.angles import even, refuse_equal, turned
from guide.measure.axis import Axis, Place, through
from guide.measure.findings import form, hidden
from guide.measure.flags import in_order
from guide.measure.harmonic import Fit, fit
from guide.measure.limits import Limits, Number, as_decimal
from guide.measure.quantity import Length
from guide.measure.reading import sign_of
from guide.measure.rounding import tidy
from guide.measure.two_stations import Compromise, compromise
from guide.measure.uncertainty import expanded, of_fitted_tir


@dataclass(frozen=True, slots=True)
class Tilt:
    """How the centre moves along the bar; runout in `unit`, distances in `station_unit`."""

    unit: str
    station_unit: str
    places: tuple[Place, ...]
    """The centre as fitted at each station."""
    slope: float
    """How far the centre moves, in `unit`, for each `station_unit` along the bar."""
    toward_deg: float
    """The angle from screw 1 to which it moves, going away from the chuck."""
    angle_deg: float
    """The angle between bar and spindle axis in degrees."""
    at: Place | None
    """The centre worked out at another station, or None where none was asked for."""
    flags: tuple[str, ...]
    working: Compromise | None = None
    """What the screws can do for a working distance or range, where one was named."""

    def to_json(self) -> dict[str, object]:
        """The answer of `calc tilt`; `working` only where a distance or range was named."""
        more = {} if self.working is None else {"working": self.working.to_json()}
        return {
            "unit": self.unit,
            "station_unit": self.station_unit,
            "stations": [place.to_json() for place in self.places],
            "slope": self.slope,
            "toward_deg": self.toward_deg,
            "angle_deg": self.angle_deg,
            "at": None if self.at is None else self.at.to_json(),
            "flags": list(self.flags),
            **more,
        }


def tilt(
    readings: Sequence[Sequence[Number]],
    stations: Sequence[float],
    unit: str,
    station_unit: str,
    angles: Sequence[float] | None = None,
    *,
    at: Number | None = None,
    graduation: Number | None = None,
    u: Number | None = None,
    surface: str = "outside",
    working: tuple[Number, Number] | None = None,
    tolerance: Number | None = None,
    rule: str = "guarded",
    clearance: Number | None = None,
) -> Tilt:
    """The lean of the bar from one set of readings for each distance from the chuck face.

    All sets share the angles (degrees; even from screw 1 unless given). Flag `tilt` only where
    the lean stands above the uncertainty, or where it alone breaks `tolerance` over the `working`
    range. BadInput for fewer than two different stations.
    """
    size = Length.factor(unit) / Length.factor(station_unit)
    known = Limits(tolerance, graduation, u, rule, clearance)
    sign = sign_of(surface)
    fits = [_fit(row, angles, sign) for row in readings]
    line = through(stations, fits, known.u_reading)
    screws = None if working is None else _compromise(line, working, known)
    return Tilt(
        unit=unit,
        station_unit=station_unit,
        places=tuple(
            _place(z, one, known.u_reading) for z, one in zip(stations, fits, strict=True)
        ),
        slope=tidy(line.slope),
        toward_deg=line.toward_deg,
        angle_deg=tidy(degrees(atan(line.slope * float(size)))),
        at=None if at is None else line.at(float(as_decimal(at))),
        flags=_flags(line, fits, known, screws),
        working=screws,
    )


def _compromise(line: Axis, working: tuple[Number, Number], known: Limits) -> Compromise:
    """What the screws can do over the range named."""
    near, far = (float(as_decimal(station)) for station in working)
    return compromise(line, near, far, known)


def _fit(row: Sequence[Number], angles: Sequence[float] | None, sign: int) -> Fit:
    """The first harmonic of one set of readings, positive where the body is further out."""
    places = [turned(angle) for angle in (even(len(row)) if angles is None else angles)]
    refuse_equal(places)
    return fit(places, [sign * float(as_decimal(value)) for value in row])


def _place(station: float, found: Fit, u: float | None) -> Place:
    """The centre as fitted at a station that was read."""
    return Place(
        station=float(station),
        eccentricity=found.eccentricity,
        high_at_deg=found.high_deg,
        fitted_tir=found.fitted_tir,
        expanded_uncertainty=None if u is None else expanded(of_fitted_tir(found, u)),
    )


def _flags(
    line: Axis, fits: Sequence[Fit], known: Limits, screws: Compromise | None
) -> tuple[str, ...]:
    """What the readings show by themselves, and what the screws cannot do."""
    keys = {hidden(one) for one in fits} | {form(one, known.u_reading) for one in fits}
    keys.add("tilt" if line.stands_out else None)
    keys |= set() if screws is None else screws.flags
    return in_order({key for key in keys if key is not None})
