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
    from guide.measure.reading import Sweep
    from guide.measure.runout import Runout

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
@click.option("--play", help="Play at the bare nose.")
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
    play: str | None,
    closure: str | None,
    watched: str | None,
    surface: Literal["outside", "inside"],
    as_json: bool,
) -> None:
    """Runout, high spot and what to bring the dial to at each screw.

    Turn the spindle by hand, with the lathe isolated, to take the readings. A runout outside
    tolerance is a result, not an error.

    \b
    Example:
      spindleside calc runout --readings "0 12 20 8" --unit thou --tolerance 1 --graduation 0.5
    """
    from guide.measure import runout as measure

    refuse_both(graduation, u)
    found = measure.runout(
        typed_list(readings),
        unit,
        typed_angles(angles),
        tolerance=typed(tolerance),
        graduation=typed(graduation),
        u=typed(u),
        screws=screws,
        rule=rule,
        clearance=typed(clearance),
        play=typed(play),
        closure=typed(closure),
        watched=_sweep(watched),
        surface=surface,
    )
    emit(found.to_json(), as_json, _lines(found, typed(tolerance), typed_list(readings)))


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


def flag_lines(keys: tuple[str, ...]) -> Iterator[str]:
    """Each flag as a sentence, with what to check in order."""
    from guide.measure.flags import FLAGS

    for key in keys:
        yield ""
        yield f"! {key}: {FLAGS[key].sentence}"
        for number, cause in enumerate(FLAGS[key].causes, start=1):
            yield f"    {number}. {cause}"


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


def _lines(
    found: Runout, tolerance: Decimal | None, readings: tuple[Decimal, ...]
) -> Iterator[str]:
    """The result as a machinist reads it: the judged figure first."""
    if found.pair_error is not None:
        yield from _pair_lines(found)
        return
    yield from _headline(found, tolerance)
    yield from _high_spot(found)
    yield from _table(found)
    yield from _fineness(found)
    yield from _slips(readings)
    yield from flag_lines(found.flags or ())


def _pair_lines(found: Runout) -> Iterator[str]:
    """One pair only."""
    yield f"This pair is {figure(found.pair_error or 0, found.unit)} off."
    yield f"Bring the dial to {figure(found.bring_to or 0, found.unit)} at either screw."
    yield "Two readings say nothing of the other direction: read all the screws for the runout."


def _headline(found: Runout, tolerance: Decimal | None) -> Iterator[str]:
    """Judged runout and verdict."""
    from guide.measure.verdict import SAID

    judged = figure(found.judged or 0, found.unit)
    verdict = "" if found.decision is None else f", {SAID[found.decision.verdict].upper()}"
    against = "" if tolerance is None else f" (tolerance {figure(tolerance, found.unit)})"
    yield f"Judged runout {judged}{verdict}{against}"
    if tolerance is not None and found.decision is None:
        yield "No verdict without an uncertainty: give --graduation or --u."
    if found.at_most is not None:
        yield f"So near zero the fit reads high: no more than {figure(found.at_most, found.unit)}."


def _high_spot(found: Runout) -> Iterator[str]:
    """Where the high spot is, and by how much the centre is off."""
    from guide.measure.angles import nearest_screw

    angle, off = found.high_at_deg or 0.0, found.eccentricity or 0.0
    if not off:
        yield "No high spot: the centre is not off."
        return
    screw = nearest_screw(angle, len(found.targets or ()))
    yield f"High spot {angle:.0f}° from screw 1, nearest screw {screw}, about {clock(angle)}"
    yield "  with screw 1 at the top and the numbers running clockwise."
    yield f"The centre is {figure(off, found.unit)} off."


def _table(found: Runout) -> Iterator[str]:
    """What to bring the dial to at each screw."""
    yield ""
    yield f"  screw   reads      bring to   ({found.unit})"
    for target in found.targets or ():
        reads = "-" if target.reads is None else bare(target.reads, found.unit)
        bring = bare(target.bring_to, found.unit)
        yield f"  {target.screw:<7} {reads:<10} {bring}"


def _fineness(found: Runout) -> Iterator[str]:
    """What lies behind the judged figure."""
    unit = found.unit
    form = "not known" if found.form is None else figure(found.form, unit)
    yield ""
    yield f"Fitted TIR {figure(found.fitted_tir or 0, unit)}; form {form};"
    yield f"  range of the readings {figure(found.observed_tir or 0, unit)}."
    if found.expanded_uncertainty is not None:
        spread = figure(found.expanded_uncertainty, unit)
        yield f"Uncertainty of the fitted TIR U = {spread} (k = 2)."
    if found.decision is not None:
        yield f"Rule: {found.decision.edition}."


def _slips(readings: tuple[Decimal, ...]) -> Iterator[str]:
    """Readings that look like a slipped decimal point."""
    from guide.measure.numerals import suspicious

    for i, reading in enumerate(readings):
        doubt = suspicious(readings[:i] + readings[i + 1 :], reading)
        if doubt is not None:
            yield ""
            yield str(doubt)
