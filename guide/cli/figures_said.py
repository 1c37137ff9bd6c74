"""Figures, flags and rules as the commands that measure print them."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.measure.verdict import Decision


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
