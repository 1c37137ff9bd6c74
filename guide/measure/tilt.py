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
from guide.measure.rounding import tidy
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

    def to_json(self) -> dict[str, object]:
        """The answer of `calc tilt`."""
        return {
            "unit": self.unit,
            "station_unit": self.station_unit,
            "stations": [_json(place) for place in self.places],
            "slope": self.slope,
            "toward_deg": self.toward_deg,
            "angle_deg": self.angle_deg,
            "at": None if self.at is None else _json(self.at),
            "flags": list(self.flags),
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
) -> Tilt:
    """The lean of the bar from one set of readings for each distance from the chuck face.

    All sets share the angles (degrees; even from screw 1 unless given). Flag `tilt` only where
    the lean stands above the uncertainty. BadInput for fewer than two different stations.
    """
    size = Length.factor(unit) / Length.factor(station_unit)
    known = Limits(graduation=graduation, u=u)
    fits = [_fit(row, angles) for row in readings]
    line = through(stations, fits, known.u_reading)
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
        flags=_flags(line, fits, known),
    )


def _fit(row: Sequence[Number], angles: Sequence[float] | None) -> Fit:
    """The first harmonic of one set of readings."""
    places = [turned(angle) for angle in (even(len(row)) if angles is None else angles)]
    refuse_equal(places)
    return fit(places, [float(as_decimal(value)) for value in row])


def _place(station: float, found: Fit, u: float | None) -> Place:
    """The centre as fitted at a station that was read."""
    return Place(
        station=float(station),
        eccentricity=found.eccentricity,
        high_at_deg=found.high_deg,
        fitted_tir=found.fitted_tir,
        expanded_uncertainty=None if u is None else expanded(of_fitted_tir(found, u)),
    )


def _flags(line: Axis, fits: Sequence[Fit], known: Limits) -> tuple[str, ...]:
    """What the readings show by themselves."""
    keys = {hidden(one) for one in fits} | {form(one, known.u_reading) for one in fits}
    keys.add("tilt" if line.stands_out else None)
    return in_order({key for key in keys if key is not None})


def _json(place: Place) -> dict[str, float | None]:
    """A place as the answer names it."""
    u = place.expanded_uncertainty
    return {
        "station": place.station,
        "eccentricity": tidy(place.eccentricity),
        "high_at_deg": place.high_at_deg,
        "fitted_tir": tidy(place.fitted_tir),
        "expanded_uncertainty": None if u is None else tidy(u),
    }
