"""Tilt of the bar: what is asked, and what the screws can do about it, in sentences."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from guide.measure.tilt import Tilt, tilt
from guide.measure.two_stations import TILT_ALONE, Compromise
from guide.plain import N_, BadInput
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.present.worked.dial import BY_HAND, GRADUATION, TOLERANCE, UNIT, flags, in_unit, maybe


def work(typed: Typed) -> Answer:
    """Two turns at two stations, and the best shift for where the work will be."""
    found = tilt(
        (typed.numbers("near"), typed.numbers("far")),
        _two(typed, "stations"),
        typed.text("unit"),
        _along(typed.text("unit")),
        graduation=maybe(typed, "graduation"),
        working=_working(typed),
        tolerance=maybe(typed, "tolerance"),
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _along(unit: str) -> str:
    """What distances along the bar are given in, beside a dial in this unit."""
    return "mm" if unit in ("mm", "um") else "in"


def _two(typed: Typed, name: str) -> tuple[float, float]:
    """Two distances."""
    found = typed.numbers(name)
    if len(found) != 2:
        raise BadInput(N_("Two distances are wanted here."), N_("Write them as in 1 5."))
    return found[0], found[1]


def _working(typed: Typed) -> tuple[Decimal, Decimal] | None:
    """The working distance twice, or from and to."""
    if not typed.has("working"):
        return None
    found = [Decimal(repr(each)) for each in typed.numbers("working")]
    if len(found) > 2:
        raise BadInput(N_("One or two distances are wanted here."), N_("Such as 2.5, or 0.5 4."))
    return found[0], found[-1]


def _lines(found: Tilt, typed: Typed) -> Iterator[str]:
    """The lean, each station, then what a shift of the body leaves."""
    unit = found.unit
    yield typed.say(
        N_("For each {unit} along the bar the centre moves {slope}, toward {at}° from screw 1."),
        unit=found.station_unit,
        slope=in_unit(found.slope, unit, typed, finer=1),
        at=typed.figure(found.toward_deg, 0),
    )
    for place in found.places:
        tir = in_unit(place.fitted_tir, unit, typed)
        station = f"{typed.figure(place.station, 3)} {found.station_unit}"
        yield typed.say(N_("At {station}: fitted TIR {tir}."), station=station, tir=tir)
    if found.working is not None:
        yield from _best(found.working, unit, typed)
    yield from flags(found.flags, typed)


def _best(best: Compromise, unit: str, typed: Typed) -> Iterator[str]:
    """The best shift, and what then remains at the worst place."""
    yield typed.say(
        N_("Best there: shift the whole body {shift} toward {at}° from screw 1."),
        shift=in_unit(best.shift, unit, typed),
        at=typed.figure(best.toward_deg, 0),
    )
    left = in_unit(best.largest.fitted_tir, unit, typed)
    yield typed.say(N_("At most {left} of runout is then left there."), left=left)
    if best.tilt_alone is not None:
        yield typed.say(TILT_ALONE[best.tilt_alone.verdict])


TILT = Calculator(
    "tilt",
    N_("Tilt: two stations"),
    N_("Two turns along the bar: how it leans, and the best that the screws can do."),
    (
        Asked("near", N_("Readings near the chuck"), "numbers", N_("even positions, one zero")),
        Asked("far", N_("Readings further out"), "numbers", N_("at the same places")),
        Asked("stations", N_("Distances from the chuck face"), "numbers",
              N_("in inches, or mm with a metric dial")),
        UNIT,
        Asked("working", N_("Where the work will be"), "numbers", N_("2.5, or from and to: 0.5 4"),
              needed=False),
        TOLERANCE,
        GRADUATION,
    ),
    work,
    (),
    caution=BY_HAND,
    assumed=N_(
        "A straight bar; the screws shift the whole body sideways and cure no tilt. "
        "Source: geometry (identity), uncertainty after JCGM 100:2008."
    ),
)  # fmt: skip
"""The calculator as it is asked."""
