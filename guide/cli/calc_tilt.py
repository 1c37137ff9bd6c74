"""`spindleside calc tilt`: readings at two stations in, how the bar leans out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

import click

from guide.cli.figures_said import bare, clock, figure, flag_lines
from guide.cli.measured import (
    ANGLES,
    AS_JSON,
    GRADUATION,
    RULE,
    SURFACE,
    UNIT,
    U,
    refuse_both,
    typed,
    typed_angles,
    typed_list,
    typed_two,
)
from guide.cli.output import emit

if TYPE_CHECKING:
    from guide.measure.tilt import Tilt


@click.command()
@click.option("--near", required=True, help='Readings near the chuck: "0 12 20 8".')
@click.option("--far", required=True, help="Readings further out, same angles and dial zero.")
@click.option("--stations", required=True, help='Distances from the chuck face: "1 5".')
@click.option("--unit", type=UNIT, required=True, help="Unit of the readings.")
@click.option("--station-unit", type=UNIT, help="Unit of the distances; else that of --unit.")
@ANGLES
@click.option("--at", help="A distance to work the runout out for.")
@GRADUATION
@U
@click.option("--working", help='The distance to be true at, or from and to: "2.5" or "0.5 4".')
@click.option("--tolerance", help="The largest full runout allowed there.")
@RULE
@click.option("--clearance", help="Diametral clearance between body and register.")
@SURFACE
@AS_JSON
def tilt(
    near: str,
    far: str,
    stations: str,
    unit: str,
    station_unit: str | None,
    angles: str | None,
    at: str | None,
    graduation: str | None,
    u: str | None,
    working: str | None,
    tolerance: str | None,
    rule: str,
    clearance: str | None,
    surface: str,
    as_json: bool,
) -> None:
    """How the bar leans, from runout at two stations, and its runout at a third.

    Turn the spindle by hand, with the lathe isolated, to take the readings. Runout that changes
    along the bar is not cured by the radial screws: they shift the whole body sideways. With
    --working, says which shift is best there and what then remains.

    \b
    Example:
      spindleside calc tilt --near "0 1 2 1" --far "0 3 6 3" --stations "1 5" --unit thou
        --station-unit in --at 3 --graduation 0.5 --working "0.5 4" --tolerance 2
    """
    from guide.measure import tilt as measure

    refuse_both(graduation, u)
    found = measure.tilt(
        (typed_list(near), typed_list(far)),
        tuple(float(z) for z in typed_two(stations, "--stations")),
        unit,
        station_unit or unit,
        typed_angles(angles),
        at=typed(at),
        graduation=typed(graduation),
        u=typed(u),
        surface=surface,
        working=_from_and_to(working),
        tolerance=typed(tolerance),
        rule=rule,
        clearance=typed(clearance),
    )
    emit(found.to_json(), as_json, _lines(found))


def _from_and_to(text: str | None) -> tuple[Decimal, Decimal] | None:
    """The working distance, twice, or the range; None where none was typed."""
    if text is None:
        return None
    numbers = typed_list(text)
    if len(numbers) > 1:
        return typed_two(text, "--working")
    return numbers[0], numbers[0]


def _lines(found: Tilt) -> Iterator[str]:
    """The lean as a machinist reads it."""
    from guide.cli import tilt_text

    slope = bare(found.slope, found.unit, finer=1)
    yield f"The centre moves {slope} {found.unit} for each {found.station_unit} along the bar,"
    yield f"  toward {found.toward_deg:.0f}° from screw 1, about {clock(found.toward_deg)}"
    yield "  with screw 1 at the top and the numbers running clockwise."
    yield ""
    yield f"  station ({found.station_unit})   fitted TIR   high spot"
    places = found.places if found.at is None else (*found.places, found.at)
    for place in sorted(places, key=lambda place: place.station):
        tir = figure(place.fitted_tir, found.unit)
        worked_out = "  worked out" if place is found.at else ""
        station = bare(place.station, found.unit)
        yield f"  {station:<14} {tir:<12} {place.high_at_deg:.0f}°{worked_out}"
    if found.at is not None and found.at.expanded_uncertainty is not None:
        spread = figure(found.at.expanded_uncertainty, found.unit)
        yield f"Uncertainty of the TIR worked out U = {spread} (k = 2)."
    if found.working is not None:
        yield from tilt_text.lines(found, found.working)
    yield from flag_lines(found.flags)
