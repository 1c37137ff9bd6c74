"""`spindleside calc weight`: what a chuck or plate is likely to weigh, as a band."""

from __future__ import annotations

import re

import click

from guide.cli.output import emit
from guide.measure.quantity import Length
from guide.plain import N_, BadInput
from guide.shop.weight import DENSITIES, Weight
from guide.shop.weight import weight as estimate

WITH_UNIT = re.compile(r"(.*?)\s*(mm|in)")


@click.command()
@click.option("--diameter", required=True, help="Across the body, with its unit: 200 mm or 8 in.")
@click.option("--length", required=True, help="Body front to back without jaws: 85 mm or 3 3/8 in.")
@click.option("--bore", default="0 mm", help="Hole right through; left out if there is none.")
@click.option("--material", type=click.Choice(list(DENSITIES)), required=True, help="Of the body.")
@click.option("--jaws", type=int, default=3, show_default=True, help="Fitted; 0 for a plain plate.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def weight(diameter: str, length: str, bore: str, material: str, jaws: int, as_json: bool) -> None:
    """Estimate between what and what a chuck or plate weighs, to plan its lift with the heavier.

    A mark on it, the maker's figure or scales beat the estimate. The JSON has low_kg, high_kg,
    low_lb, high_lb, plan_with_kg and plan_with_lb, rounded outward to whole units.

    Example: spindleside calc weight --diameter "8 in" --length "85 mm" --bore "55 mm"
    --material steel --jaws 3
    """
    found = estimate(
        length_mm(diameter), length_mm(length), length_mm(bore), material=material, jaws=jaws
    )
    emit(found.to_json(), as_json, _lines(found))


def length_mm(text: str) -> float:
    """A length typed with its unit, such as 15 mm or 1 1/2 in, in millimetres."""
    found = WITH_UNIT.fullmatch(text.strip())
    if found is None:
        raise BadInput(
            N_("The length {text} has no unit."),
            N_("Write it with mm or in, such as 15 mm."),
            text=text.strip()[:24],
        )
    return float(Length.parse(found.group(1), found.group(2)).exactly("mm"))


def _lines(found: Weight) -> list[str]:
    """The band, the end to plan with, and what is not in it."""
    return [
        f"Between {found.low_kg} and {found.high_kg} kg"
        f" ({found.low_lb} and {found.high_lb} lb), estimated from its size.",
        f"Plan the lift with the heavier end: {found.high_kg} kg ({found.high_lb} lb).",
        "A mark on the part, the maker's figure or scales beat this estimate.",
        "It does not say what hangs with it: a plate still bolted on, a bar in the jaws, the board"
        " and the lifting gear come on top. It does not say that the lift is safe.",
    ]
