"""`spindleside calc play`: push and pull readings in, which joint gives out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

import click

from guide.cli.figures_said import figure, flag_lines
from guide.cli.measured import AS_JSON, UNIT, typed, typed_list, typed_two
from guide.cli.output import emit
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.measure.joints import Joint, Joints
    from guide.measure.play import Place


@click.command()
@click.option("--nose", help='Pushed and pulled at the bare nose, perhaps again: "-0.2 0.3".')
@click.option("--plate", help="The same on the plate.")
@click.option("--bar", help="The same at the bar.")
@click.option("--unit", type=UNIT, required=True, help="Unit of every length.")
@click.option("--graduation", help="One division of the dial, below which nothing is said.")
@click.option("--reach", help='How far each place is from where the spindle rocks: "3 4 9".')
@click.option("--tolerance", help="The largest full runout allowed.")
@AS_JSON
def play(
    nose: str | None,
    plate: str | None,
    bar: str | None,
    unit: str,
    graduation: str | None,
    reach: str | None,
    tolerance: str | None,
    as_json: bool,
) -> None:
    """Which joint gives: spindle, seat or grip, from pushing and pulling by hand.

    The lathe is isolated and standing. Push and pull about as hard at each place, with the
    fingertips, and read the dial both times. A bar magnifies by its length what rocks further in:
    --reach, one distance for each place in the order nose, plate, bar, allows for it.

    \b
    Example:
      spindleside calc play --nose "-0.2 0.3" --plate "-0.3 0.3" --bar "-0.5 0.6" --unit thou
    """
    from guide.measure.findings import spindle_limit
    from guide.measure.joints import joints
    from guide.measure.limits import Limits

    limits = Limits(tolerance=typed(tolerance), graduation=typed(graduation))
    plays = _plays(nose, plate, bar)
    division = None if limits.graduation is None else float(limits.graduation)
    found = joints(plays, graduation=division, reach=_reach(reach, tuple(plays)))
    flags = ("spindle-limit",) if spindle_limit(found.play.plays.get("nose"), limits) else ()
    emit(_answer(found, unit, flags), as_json, _lines(found, unit, flags))


def _plays(
    nose: str | None, plate: str | None, bar: str | None
) -> dict[Place, tuple[Decimal, ...]]:
    """The plays at each place that was read, one for each push and pull."""
    places: tuple[tuple[Place, str | None], ...] = (("nose", nose), ("plate", plate), ("bar", bar))
    return {place: _pairs(text, f"--{place}") for place, text in places if text is not None}


def _pairs(text: str, what: str) -> tuple[Decimal, ...]:
    """The play of each push and pull; an odd count is refused."""
    from guide.measure.play import play as between

    numbers = typed_list(text)
    if len(numbers) % 2:
        return (between(*typed_two(text, what)),)
    return tuple(between(*pair) for pair in zip(numbers[::2], numbers[1::2], strict=True))


def _reach(text: str | None, places: tuple[Place, ...]) -> dict[Place, float] | None:
    """How far each place read is from where the spindle rocks, or None."""
    if text is None:
        return None
    distances = typed_list(text)
    if len(distances) != len(places):
        raise BadInput(
            N_("There are {places} places and {distances} distances."),
            N_("Give one distance for each place read, in the order nose, plate, bar."),
            places=len(places),
            distances=len(distances),
        )
    return {place: float(z) for place, z in zip(places, distances, strict=True)}


def _answer(found: Joints, unit: str, flags: tuple[str, ...]) -> dict[str, object]:
    """The answer as JSON keys; `joints` says what each adds at most, at least, and how surely."""
    return {
        "unit": unit,
        "plays": {place: float(amount) for place, amount in found.play.plays.items()},
        "added": {giver: float(amount) for giver, amount in found.play.added.items()},
        "joints": [joint.to_json() for joint in found.joints],
        "looks_to": found.play.looks_to,
        "why": found.play.why,
        "flags": list(flags),
    }


def _lines(found: Joints, unit: str, flags: tuple[str, ...]) -> Iterator[str]:
    """The answer as a machinist reads it."""
    yield f"Look to: {found.play.looks_to}. {found.play.why}"
    yield ""
    for place, amount in found.play.plays.items():
        times = found.repeats[place]
        again = f"   mean of {times}" if times > 1 else ""
        yield f"  play at the {place:<6} {figure(amount, unit)}{again}"
    for joint in found.joints:
        yield f"  the {joint.gives:<12} adds {_adds(joint, unit)}"
    yield from flag_lines(flags)


def _adds(joint: Joint, unit: str) -> str:
    """What a joint adds, between least and most, with its uncertainty."""
    most, spread = figure(joint.at_most, unit), joint.expanded_uncertainty
    ranged = joint.at_least is not None and joint.at_least != joint.at_most
    added = f"{figure(joint.at_least or 0, unit)} to {most}" if ranged else most
    added += "" if spread is None else f", U = {figure(spread, unit)}"
    if joint.stands_out:
        return added
    by_reach = joint.at_most > (spread or 0.0)
    return f"{added}: {'the reach alone may do that' if by_reach else 'no more than noise'}"
