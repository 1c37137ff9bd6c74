"""`spindleside calc play`: push and pull readings in, which joint gives out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

import click

from guide.cli.calc_runout import UNIT, figure, flag_lines, typed, typed_two
from guide.cli.output import emit

if TYPE_CHECKING:
    from guide.measure.play import Place, Play


@click.command()
@click.option("--nose", help='Pushed and pulled at the bare nose: "-0.2 0.3".')
@click.option("--plate", help="The same on the plate.")
@click.option("--bar", help="The same at the bar.")
@click.option("--unit", type=UNIT, required=True, help="Unit of every length.")
@click.option("--graduation", help="One division of the dial; a smaller difference is nothing.")
@click.option("--tolerance", help="The largest full runout allowed.")
@click.option("--json", "as_json", is_flag=True, help="Answer as one JSON object.")
def play(
    nose: str | None,
    plate: str | None,
    bar: str | None,
    unit: str,
    graduation: str | None,
    tolerance: str | None,
    as_json: bool,
) -> None:
    """Which joint gives: spindle, seat or grip, from pushing and pulling by hand.

    The lathe is isolated and standing. Push and pull about as hard at each place, with the
    fingertips, and read the dial both times.

    \b
    Example:
      spindleside calc play --nose "-0.2 0.3" --plate "-0.3 0.3" --bar "-0.5 0.6" --unit thou
    """
    from guide.measure.findings import spindle_limit
    from guide.measure.limits import Limits
    from guide.measure.play import compare

    limits = Limits(tolerance=typed(tolerance), graduation=typed(graduation))
    found = compare(_plays(nose, plate, bar), Decimal(typed(graduation) or 0))
    flags = ("spindle-limit",) if spindle_limit(found.plays.get("nose"), limits) else ()
    emit(_answer(found, unit, flags), as_json, _lines(found, unit, flags))


def _plays(nose: str | None, plate: str | None, bar: str | None) -> dict[Place, Decimal]:
    """The play at each place that was read."""
    from guide.measure.play import play as between

    places: tuple[tuple[Place, str | None], ...] = (("nose", nose), ("plate", plate), ("bar", bar))
    return {
        place: between(*typed_two(text, f"--{place}")) for place, text in places if text is not None
    }


def _answer(found: Play, unit: str, flags: tuple[str, ...]) -> dict[str, object]:
    """The answer as JSON keys."""
    return {
        "unit": unit,
        "plays": {place: float(amount) for place, amount in found.plays.items()},
        "added": {giver: float(amount) for giver, amount in found.added.items()},
        "looks_to": found.looks_to,
        "why": found.why,
        "flags": list(flags),
    }


def _lines(found: Play, unit: str, flags: tuple[str, ...]) -> Iterator[str]:
    """The answer as a machinist reads it."""
    yield f"Look to: {found.looks_to}. {found.why}"
    yield ""
    for place, amount in found.plays.items():
        yield f"  play at the {place:<6} {figure(amount, unit)}"
    for giver, amount in found.added.items():
        yield f"  the {giver:<12} adds {figure(amount, unit)}"
    yield from flag_lines(flags)
