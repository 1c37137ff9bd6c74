"""Which moves together centre the body, by screws; lengths as changes of the dial."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from math import atan2, cos, degrees, hypot, radians, sin

from guide.measure.angles import SAME, across, apart, of_screw
from guide.measure.harmonic import fit
from guide.measure.reading import Reading
from guide.measure.rounding import tidy
from guide.plain import N_, BadInput

FEWEST_SCREWS, MOST_SCREWS = 3, 12


def directions(readings: Sequence[Reading], screws: int) -> dict[int, Decimal]:
    """The moves that together centre the body: a screw for each, and the dial change wanted there.

    Four screws whose pairs were all read: half the difference of each pair. Otherwise the fitted
    offset is split along the two directions of screws that lie on either side of it; with three
    or six screws these are 60 degrees apart, so a move in one is felt in the other.
    """
    pairs = _pairs(readings, screws) if screws == 4 else {}
    if len(pairs) == 2:
        return pairs
    x, y = _offset(readings)
    return {screw: _exact(part, hypot(x, y)) for screw, part in split(x, y, screws).items()}


def change_at(
    screw: int, wanted: Mapping[int, Decimal], readings: Sequence[Reading], screws: int
) -> Decimal:
    """The dial change wanted at a screw: its own part, its opposite's undone, or the projection."""
    opposite = across(screw, screws)
    if screw in wanted:
        return wanted[screw]
    if opposite is not None and opposite in wanted:
        return -wanted[opposite]
    x, y = _offset(readings)
    angle = radians(of_screw(screw, screws))
    return _exact(x * cos(angle) + y * sin(angle), hypot(x, y))


def at_screw(reading: Reading, screws: int) -> int:
    """The screw that a reading was taken at; BadInput where there is none under the plunger."""
    for k in range(1, screws + 1):
        if _is_at(reading, k, screws):
            return k
    raise BadInput(
        N_("No screw is under the plunger at {angle} degrees."),
        N_("Bring a screw under the plunger and read there."),
        angle=reading.angle_deg,
    )


def last_at(screw: int, readings: Sequence[Reading], screws: int) -> Decimal | None:
    """The last reading taken at a screw, or None."""
    found = [reading.value for reading in readings if _is_at(reading, screw, screws)]
    return found[-1] if found else None


def refuse_screws(screws: int) -> None:
    """Refuse a number of screws that cannot centre a body."""
    if not FEWEST_SCREWS <= screws <= MOST_SCREWS:
        raise BadInput(
            N_("A chuck with {screws} adjusting screws is not known here."),
            N_("Give a number from {fewest} to {most}."),
            screws=screws,
            fewest=FEWEST_SCREWS,
            most=MOST_SCREWS,
        )


def _is_at(reading: Reading, screw: int, screws: int) -> bool:
    """Whether a reading was taken at a screw: by its number, else by its angle."""
    if reading.screw is not None:
        return reading.screw == screw
    return apart(reading.angle_deg, of_screw(screw, screws)) < SAME


def _pairs(readings: Sequence[Reading], screws: int) -> dict[int, Decimal]:
    """Half the difference of each pair of which both screws were read."""
    found = {}
    for k in range(1, screws // 2 + 1):
        here = last_at(k, readings, screws)
        there = last_at(k + screws // 2, readings, screws)
        if here is not None and there is not None:
            found[k] = (there - here) / 2
    return found


def _offset(readings: Sequence[Reading]) -> tuple[float, float]:
    """The dial change wanted, as its cosine and sine parts: the fitted first harmonic undone."""
    found = fit([r.angle_deg for r in readings], [float(r.value) for r in readings])
    return -found.a, -found.b


def split(x: float, y: float, screws: int) -> dict[int, float]:
    """A change of the dial (x toward screw 1, y a quarter on) along the two lines of screws beside.

    Of an even number of screws opposite ones share a line; with three the line of each is its own.
    """
    step = 180.0 / (screws if screws % 2 else screws // 2)
    size, toward = hypot(x, y), degrees(atan2(y, x)) % 360.0
    low = int(toward // step)
    past, whole = radians(toward - low * step), radians(step)
    near = _on_screw(low * step, size * sin(whole - past) / sin(whole), screws)
    far = _on_screw((low + 1) * step, size * sin(past) / sin(whole), screws)
    return dict((near, far))


def _on_screw(angle: float, part: float, screws: int) -> tuple[int, float]:
    """The screw on a line through the centre, and the dial change there."""
    for k in range(1, screws + 1):
        if apart(angle, of_screw(k, screws)) < SAME:
            return k, part
    return _on_screw(angle + 180.0, -part, screws)


def _exact(number: float, size: float) -> Decimal:
    """A worked-out number as a decimal, without the noise of rounding numbers of this size."""
    return Decimal(str(tidy(number, size)))
