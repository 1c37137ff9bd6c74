"""What the commands that measure share: their options, and figures as they are typed."""

from __future__ import annotations

from decimal import Decimal

import click

from guide.plain import N_, BadInput
from guide.settings import from_environment

UNITS = ("in", "mm", "thou", "tenth", "um")


class OneLineChoice(click.Choice[str]):
    """A choice whose refusal stays on one line when the option is missing."""

    def get_missing_message(self, param: click.Parameter, ctx: click.Context | None) -> str:
        """The choices, in one sentence."""
        return f"Choose from {', '.join(self.choices)}."


UNIT = OneLineChoice(UNITS)
"""The type of every --unit option."""
ANGLES = click.option("--angles", help="Degrees from screw 1. Even unless given.")
GRADUATION = click.option(
    "--graduation", help="One division of the dial; u is then graduation/√12."
)
U = click.option("--u", help="Standard uncertainty of one reading, in place of --graduation.")
RULE = click.option(
    "--rule",
    type=click.Choice(["guarded", "simple"]),
    default="guarded",
    show_default=True,
    help="How the uncertainty counts in the verdict.",
)
SURFACE = click.option(
    "--surface",
    type=click.Choice(["outside", "inside"]),
    default="outside",
    show_default=True,
    help="Where the plunger touches.",
)
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Answer as one JSON object.")


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


def refuse_both(graduation: str | None, u: str | None) -> None:
    """Refuse two answers to one question."""
    if graduation is not None and u is not None:
        raise BadInput(
            N_("Both --graduation and --u say how fine a reading is."), N_("Give one of them.")
        )
