"""`spindleside calc`: the calculators, one command each."""

from __future__ import annotations

import click

from guide.cli.lazily import LazyGroup

CALCULATORS = {
    "runout": "guide.cli.calc_runout:runout",
    "tilt": "guide.cli.calc_tilt:tilt",
    "play": "guide.cli.calc_play:play",
    "reversal": "guide.cli.calc_reversal:reversal",
    "lift": "guide.cli.calc_lift:lift",
    "torque": "guide.cli.calc_torque:torque",
    "weight": "guide.cli.calc_weight:weight",
    "sling": "guide.cli.calc_sling:sling",
    "bar": "guide.cli.calc_bar:bar",
    "cradle": "guide.cli.calc_cradle:cradle",
    "nose": "guide.cli.calc_nose:nose",
    "fit": "guide.cli.calc_fit:fit",
    "lever": "guide.cli.calc_lever:lever",
    "balance": "guide.cli.calc_balance:balance",
    "speed": "guide.cli.calc_speed:speed",
}


@click.group(cls=LazyGroup, places=CALCULATORS)
def calc() -> None:
    """Work out one thing from numbers.

    A calculated torque, lift or speed is a figure to compare with, never a permission.

    \b
    Example:
      spindleside calc runout --readings "0 12 20 8" --unit thou
    """
