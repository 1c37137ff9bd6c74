"""`spindleside calc reversal`: a turn before and one after the bar was turned in the jaws."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.figures_said import clock, figure, flag_lines
from guide.cli.measured import (
    AS_JSON,
    GRADUATION,
    SURFACE,
    UNIT,
    U,
    refuse_both,
    typed,
    typed_angles,
    typed_list,
)
from guide.cli.output import emit

if TYPE_CHECKING:
    from guide.measure.reversal import Reversal, Share


@click.command()
@click.option("--before", required=True, help='Readings as gripped first: "0 12 20 8".')
@click.option("--after", required=True, help="Readings with the bar turned half round.")
@click.option("--unit", type=UNIT, required=True, help="Unit of every length.")
@click.option("--angles", help="Degrees from screw 1, both times. Even unless given.")
@GRADUATION
@U
@click.option("--grip", help="How far the centre may differ from one grip to the next.")
@click.option("--turned-within", help="Degrees by which the half turn may be off, either way.")
@SURFACE
@AS_JSON
def reversal(
    before: str,
    after: str,
    unit: str,
    angles: str | None,
    graduation: str | None,
    u: str | None,
    grip: str | None,
    turned_within: str | None,
    surface: str,
    as_json: bool,
) -> None:
    """Whether the bar or the chuck runs out, from turning the bar half round in the jaws.

    Mark the bar where screw 1 is, read a turn, loosen the jaws, turn the bar half round, grip as
    before and read the same places again. Turn the spindle by hand, with the lathe isolated, and
    take the chuck key out each time.

    \b
    Example:
      spindleside calc reversal --before "0 3 6 3" --after "4 3 2 3" --unit thou
        --graduation 0.5 --grip 0.3
    """
    from guide.measure import reversal as measure

    refuse_both(graduation, u)
    found = measure.reversal(
        typed_list(before),
        typed_list(after),
        unit,
        typed_angles(angles),
        graduation=typed(graduation),
        u=typed(u),
        grip=typed(grip),
        turned_within_deg=float(typed(turned_within) or 0),
        surface=surface,
    )
    emit(found.to_json(), as_json, _lines(found))


def _lines(found: Reversal) -> Iterator[str]:
    """What stands out first, then both parts."""
    yield found.why
    if found.looks_to == "both" and found.larger is not None:
        yield f"The larger part is that of the {found.larger}."
    yield ""
    yield f"  follows the bar        {_share(found.bar, found.unit)}"
    yield f"  stays with the chuck   {_share(found.chuck, found.unit)}"
    yield "Full runout that each alone would show, and its high spot before the bar was turned,"
    yield "  with screw 1 at the top and the numbers running clockwise."
    yield from flag_lines(found.flags)


def _share(part: Share, unit: str) -> str:
    """One part: full runout, uncertainty, high spot."""
    spread = part.expanded_uncertainty
    more = "" if spread is None else f" ± {figure(spread, unit)}"
    where = "" if not part.eccentricity else f", high at {part.high_at_deg:.0f}°"
    clocked = "" if not where else f" (about {clock(part.high_at_deg)})"
    noise = ", no more than noise" if part.stands_out is False else ""
    return f"{figure(part.fitted_tir, unit)}{more}{where}{clocked}{noise}"
