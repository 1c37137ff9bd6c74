"""`spindleside calc runout`: readings in, judged runout and what to bring each screw to out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING, Literal

import click

from guide.cli.output import emit
from guide.plain import N_, BadInput
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.measure.orders import Order
    from guide.measure.reading import Sweep
    from guide.measure.runout import Runout
    from guide.measure.verdict import Decision

UNITS = ("in", "mm", "thou", "tenth", "um")


class OneLineChoice(click.Choice[str]):
    """A choice whose refusal stays on one line when the option is missing."""

    def get_missing_message(self, param: click.Parameter, ctx: click.Context | None) -> str:
        """The choices, in one sentence."""
        return f"Choose from {', '.join(self.choices)}."


UNIT = OneLineChoice(UNITS)
"""The type of every --unit option."""


@click.command()
@click.option("--readings", required=True, help='Dial readings in order: "0 12 20 8".')
@click.option("--unit", type=UNIT, required=True, help="Unit of every length.")
@click.option("--angles", help='Degrees from screw 1: "0 90 180 270". Even unless given.')
@click.option("--tolerance", help="The largest full runout allowed.")
@click.option("--graduation", help="One division of the dial; u is then graduation/√12.")
@click.option("--u", help="Standard uncertainty of one reading, in place of --graduation.")
@click.option("--screws", type=int, default=4, show_default=True, help="How many screws.")
@click.option(
    "--rule",
    type=click.Choice(["guarded", "simple"]),
    default="guarded",
    show_default=True,
    help="How the uncertainty counts in the verdict.",
)
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
@click.option(
    "--surface",
    type=click.Choice(["outside", "inside"]),
    default="outside",
    show_default=True,
    help="Where the plunger touches.",
)
@click.option("--json", "as_json", is_flag=True, help="Answer as one JSON object.")
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


def typed(text: str | None) -> Decimal | None:
    """A number typed in the user's language, or None where none was."""
    from guide.measure.numerals import parse_number

    return None if text is None else parse_number(text, from_environment().language)


def typed_list(text: str) -> tuple[Decimal, ...]:
    """A list of numbers typed in the user's language."""
    from guide.measure.numerals import parse_many

    return parse_many(text, from_environment().language)


def typed_angles(text: str | None) -> tuple[float, ...] | None:
    """Angles in degrees, or None where none were typed."""
    return None if text is None else tuple(float(angle) for angle in typed_list(text))


def typed_two(text: str, what: str) -> tuple[Decimal, Decimal]:
    """Exactly two numbers, such as a lowest and a highest; `what` names them in the refusal."""
    numbers = typed_list(text)
    if len(numbers) != 2:
        raise BadInput(
            N_("{what} takes two numbers and was given {count}."),
            N_("Write them as in 0 21."),
            what=what,
            count=len(numbers),
        )
    return numbers[0], numbers[1]


def figure(number: float | Decimal, unit: str) -> str:
    """A length as a person reads it, in the user's decimal sign."""
    from guide.present import numbers

    return numbers.figure(number, unit, from_environment().language)


def bare(number: float | Decimal, unit: str, finer: int = 0) -> str:
    """The same without its unit, perhaps some places finer."""
    from guide.present import numbers

    return numbers.plain(number, numbers.PLACES[unit] + finer, from_environment().language)


def factor(number: float, places: int = 3) -> str:
    """A number without a unit, such as k, in the user's decimal sign."""
    from guide.present import numbers

    return numbers.plain(number, places, from_environment().language)


def flag_lines(keys: tuple[str, ...]) -> Iterator[str]:
    """Each flag as a sentence, with what to check in order."""
    from guide.measure.flags import FLAGS

    for key in keys:
        yield ""
        yield f"! {key}: {FLAGS[key].sentence}"
        for number, cause in enumerate(FLAGS[key].causes, start=1):
            yield f"    {number}. {cause}"


def rule_lines(decision: Decision, unit: str) -> Iterator[str]:
    """The rule, its factor and what it is named after."""
    guard = figure(decision.guard, unit)
    yield f"Rule: {decision.rule}, factor {factor(decision.factor)}, guard band {guard};"
    yield f"  {decision.edition}."


def clock(angle: float) -> str:
    """An angle as a clock with screw 1 at the top and the numbers running clockwise."""
    halves = round(angle / 15) % 24
    hour = halves // 2 or 12
    return f"half past {hour}" if halves % 2 else f"{hour} o'clock"


def refuse_both(graduation: str | None, u: str | None) -> None:
    """Refuse two answers to one question."""
    if graduation is not None and u is not None:
        raise BadInput(
            N_("Both --graduation and --u say how fine a reading is."), N_("Give one of them.")
        )


def _sweep(text: str | None) -> Sweep | None:
    """The watched sweep, or None."""
    from guide.measure import reading

    return None if text is None else reading.Sweep(*typed_two(text, "--watched"))
