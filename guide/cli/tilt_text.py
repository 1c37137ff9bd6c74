"""What the radial screws can do for a bar that leans, as a machinist reads it."""

from __future__ import annotations

from collections.abc import Iterator

from guide.cli.figures_said import bare, clock, figure, rule_lines
from guide.measure.axis import Place
from guide.measure.tilt import Tilt
from guide.measure.two_stations import TILT_ALONE, Compromise
from guide.measure.verdict import SAID


def lines(found: Tilt, best: Compromise) -> Iterator[str]:
    """The best shift, what then remains, and what no screw cures."""
    unit, along = found.unit, found.station_unit
    near, far = (bare(z, along) for z in best.working)
    over = f"at {near} {along}" if near == far else f"from {near} to {far} {along}"
    yield ""
    yield f"Best for working {over}: shift the whole body {_with(best.shift, best.off, unit)}"
    yield f"  toward {best.toward_deg:.0f}° from screw 1, about {clock(best.toward_deg)}."
    if best.slope_uncertainty is not None:
        spread = bare(best.slope_uncertainty, unit, finer=1)
        yield f"Uncertainty of the slope U = {spread} {unit} for each {along} (k = 2)."
    yield ""
    yield f"  station ({along})   full runout left   ({unit})"
    for place in best.remains:
        yield f"  {bare(place.station, along):<14} {_left(place, unit)}"
    yield from _judged(best, unit, along)


def _with(shift: float, off: Place, unit: str) -> str:
    """The shift with its uncertainty, which is half that of the runout it undoes."""
    spread = off.expanded_uncertainty
    more = "" if spread is None else f" ± {figure(spread / 2, unit)}"
    return f"{figure(shift, unit)}{more}"


def _left(place: Place, unit: str) -> str:
    """What is left at a station, with its uncertainty."""
    spread = place.expanded_uncertainty
    return bare(place.fitted_tir, unit) + ("" if spread is None else f" ± {bare(spread, unit)}")


def _judged(best: Compromise, unit: str, along: str) -> Iterator[str]:
    """The verdict on what is left, and how far the tilt lets it hold."""
    verdict = "" if best.decision is None else f", {SAID[best.decision.verdict].upper()}"
    yield f"At most {figure(best.largest.fitted_tir, unit)} is left{verdict}."
    if best.within_for is not None:
        yield f"The tilt alone uses up the tolerance {figure(best.within_for, along)} either side."
    if best.tilt_alone is not None:
        yield TILT_ALONE[best.tilt_alone.verdict]
    if best.decision is not None:
        yield from rule_lines(best.decision, unit)
    yield "Tighten to torque and read again: the figures are for a straight bar and an exact shift."
