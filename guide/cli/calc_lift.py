"""`spindleside calc lift`: the revised NIOSH lifting equation for one person's lift."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict

import click

from guide.cli.output import emit
from guide.measure.numerals import parse_many, parse_number
from guide.plain import N_, BadInput
from guide.shop.lift import Hands, Lift
from guide.shop.lift import lift as equation
from guide.shop.lift_limits import OUTSIDE
from guide.shop.lift_multipliers import averaged_frequency

UNIT_HELP = "metric: cm and kg; us: in and lb; for every figure."


@click.command()
@click.option("--h", required=True, help="H: from between the ankles forward to the hands.")
@click.option("--v", required=True, help="V: from the floor up to the hands, at the start.")
@click.option("--d", help="D: how far up or down; worked out when --destination is given.")
@click.option("--a", default="0", help="A: degrees the body turns from straight ahead (0).")
@click.option("--destination", help='"H V A" where it is set down with care; the lower end holds.')
@click.option("--per-minute", default="0.2", help="Lifts a minute; 0.2 or less for a single lift.")
@click.option("--for-minutes", help="Minutes of lifting in any 15, if not steady.")
@click.option("--hours", default="1", help="How long the lifting goes on, at most 8 (1).")
@click.option(
    "--coupling",
    type=click.Choice(["good", "fair", "poor"]),
    required=True,
    help="The grip: handles, or fingers under at 90°, or neither.",
)
@click.option("--load", help="What it weighs; use the heavier end of an estimate.")
@click.option("--unit", type=click.Choice(["metric", "us"]), required=True, help=UNIT_HELP)
@click.option(
    "--condition",
    multiple=True,
    type=click.Choice(list(OUTSIDE)),
    help="Anything that holds here; each is outside the equation. May be repeated.",
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def lift(
    h: str,
    v: str,
    d: str | None,
    a: str,
    destination: str | None,
    per_minute: str,
    for_minutes: str | None,
    hours: str,
    coupling: str,
    load: str | None,
    unit: str,
    condition: tuple[str, ...],
    as_json: bool,
) -> None:
    """Recommended weight limit and lifting index of one person's lift with two hands, standing.

    The revised NIOSH equation (DHHS 94-110). Outside its limits there is no figure. An index is
    never permission; two people or a hoist are outside it, and leaning over a lathe bed may be:
    then say --condition restricted-space.

    Example: spindleside calc lift --unit us --h 18 --v 30 --a 30 --destination "24 42 0"
    --coupling fair --load 50
    """
    often = _number(per_minute)
    found = equation(
        Hands(_number(h), _number(v), _number(a)),
        None if d is None else _number(d),
        unit=unit,
        coupling=coupling,
        per_minute=often
        if for_minutes is None
        else averaged_frequency(often, _number(for_minutes)),
        hours=_number(hours),
        load=None if load is None else _number(load),
        destination=None if destination is None else _hands(destination),
        outside=condition,
    )
    emit(found.to_json(), as_json, _lines(found, load, unit))


def _number(text: str) -> float:
    """One number, decimals with a dot."""
    return float(parse_number(text))


def _hands(text: str) -> Hands:
    """The "H V A" of the place where the load is set down; A may be left out."""
    sizes = [float(size) for size in parse_many(text)]
    if len(sizes) not in (2, 3):
        raise BadInput(
            N_("The destination {text} is not two or three numbers."),
            N_('Write H, V and A with spaces, such as "24 42 0".'),
            text=text[:24],
        )
    return Hands(*sizes)


def _lines(found: Lift, load: str | None, unit: str) -> Iterator[str]:
    """The answer, what it rests on, and what it does not say."""
    if not found.applicable:
        yield "The equation does not apply here, so there is no weight limit and no index."
        yield from (str(reason) for reason in found.why_not)
        yield "That is no pass: use gear that carries the load, and ask a competent person."
    else:
        yield from _figures(found, load, "lb" if unit == "us" else "kg")
    yield (
        "It does not say that the lift is safe. It counts one person, two hands, standing on a"
        " sound floor; not a slip, a pinch between chuck and bed, two people, or a hoist. Local"
        " rules and a competent person come first."
    )


def _figures(found: Lift, load: str | None, mass: str) -> Iterator[str]:
    """The limit, the index and the multipliers."""
    both = {"lb": found.rwl_lb, "kg": found.rwl_kg}
    other = "kg" if mass == "lb" else "lb"
    yield (
        f"Recommended weight limit: {both[mass]:.1f} {mass} ({both[other]:.1f} {other}),"
        f" set by the {found.governs}."
    )
    if found.lifting_index is not None:
        yield f"Lifting index: {found.lifting_index:.2f} for {load} {mass}. {_meaning(found)}"
    sizes = asdict(found.multipliers).items()
    yield "Multipliers: " + ", ".join(f"{name} {size:.3f}" for name, size in sizes) + "."


def _meaning(found: Lift) -> str:
    """What an index above, or not above, 1 says."""
    if found.lifting_index is not None and found.lifting_index > 1:
        return "Above 1: do not plan it as one person's lift; use a hoist or a cradle."
    return "Not above 1; that is a comparison, not permission."
