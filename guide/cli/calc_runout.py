"""`spindleside calc runout`: readings in, judged runout and what to bring each screw to out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import click

from guide.cli.measured import (
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
    from guide.measure.orders import Order
    from guide.measure.reading import Sweep
    from guide.measure.runout import Runout


@click.command()
@click.option("--readings", required=True, help='Dial readings in order: "0 12 20 8".')
@click.option("--unit", type=UNIT, required=True, help="Unit of every length.")
@click.option("--angles", help='Degrees from screw 1: "0 90 180 270". Even unless given.')
@click.option("--tolerance", help="The largest full runout allowed.")
@GRADUATION
@U
@click.option("--screws", type=int, default=4, show_default=True, help="How many screws.")
@RULE
@click.option("--clearance", help="Diametral clearance between body and register.")
@click.option("--play", help="Play at the bare nose; a part of the uncertainty too.")
@click.option("--repeats", help='One place read again and again: "12 12.5 12".')
@click.option("--permissible-error", help="The indicator's largest error, either way.")
@click.option("--angle-error", help="Degrees by which a position may be off, either way.")
@click.option("--hysteresis", help="Dial up against dial down at one place.")
@click.option("--roundness", help="How far the bar is from round.")
@click.option("--grip", help="How far one grip and the next differ, to speak for any grip.")
@click.option("--drift", help="How far the zero may have moved over the turn.")
@click.option("--orders", is_flag=True, help="List what is oval and three-lobed too.")
@click.option("--closure", help="The first position read again after a whole turn.")
@click.option("--watched", help='Lowest and highest seen over a whole turn: "0 21".')
@SURFACE
@AS_JSON
def runout(
    readings: str,
    unit: str,
    angles: str | None,
    tolerance: str | None,
    graduation: str | None,
    u: str | None,
    screws: int,
    rule: str,
    clearance: str | None,
    closure: str | None,
    watched: str | None,
    surface: Literal["outside", "inside"],
    orders: bool,
    as_json: bool,
    **of_parts: str | None,
) -> None:
    """Runout, high spot and what to bring the dial to at each screw.

    Turn the spindle by hand, with the lathe isolated, to take the readings. A runout outside
    tolerance is a result, not an error.

    \b
    Example:
      spindleside calc runout --readings "0 12 20 8" --unit thou --tolerance 1 --graduation 0.5
    """
    from guide.cli.runout_parts import parts_of
    from guide.cli.runout_text import lines
    from guide.measure import runout as measure

    refuse_both(graduation, u)
    values, places = typed_list(readings), typed_angles(angles)
    found = measure.runout(
        values,
        unit,
        places,
        tolerance=typed(tolerance),
        graduation=typed(graduation),
        u=typed(u),
        screws=screws,
        rule=rule,
        clearance=typed(clearance),
        play=typed(of_parts["play"]),
        closure=typed(closure),
        watched=_sweep(watched),
        surface=surface,
        parts=parts_of(values, unit, places, graduation, u, of_parts),
    )
    more = added(found, any(of_parts.values()), watched is not None, orders)
    emit(found.to_json() | more, as_json, lines(found, typed(tolerance), values, more))


def added(found: Runout, parts: bool, watched: bool, orders: bool) -> dict[str, object]:
    """What the answer holds beyond the contract's keys, where it was asked for."""
    more: dict[str, object] = {}
    if parts and found.budget is not None:
        more["uncertainty"] = found.budget.to_json()
        more["decision"] = None if found.decision is None else found.decision.to_json()
    if watched and found.fit is not None:
        agrees = None if found.budget is None else found.contradicted is None
        more["watched"] = {"agrees": agrees, "flag": found.contradicted}
    if orders and found.fit is not None:
        more["orders"] = [each.to_json() for each in listed(found)]
    return more


def listed(found: Runout) -> tuple[Order, ...]:
    """The harmonics of these readings, as many as the positions tell apart."""
    from guide.measure.orders import orders

    if found.fit is None:
        return ()
    u = None if found.budget is None else found.budget.u_reading
    return orders(found.fit.angles, found.fit.values, u)


def _sweep(text: str | None) -> Sweep | None:
    """The watched sweep, or None."""
    from guide.measure import reading

    return None if text is None else reading.Sweep(*typed_two(text, "--watched"))
