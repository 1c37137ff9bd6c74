"""How far the runout of one bar lies apart from grip to grip: what jaws repeat to at a diameter."""

from __future__ import annotations

import re
from cmath import rect
from collections.abc import Mapping, Sequence
from decimal import Decimal
from itertools import combinations
from math import radians
from typing import Any

from guide.measure.rounding import tidy
from guide.measure.verdict import decide
from guide.walk.answers import length
from guide.walk.limit import limit_name
from guide.walk.state import State

GRIP = re.compile(r"(?P<bar>repeats-[a-z]+)-(?P<number>[1-9])")
"""What a turn serves as that is one of several grips of the same bar."""
OF_THE_TURN = ("verdict", "rule", "factor")
"""What would judge the runout of a single grip, which nothing judges here."""


def is_grip(serves_as: str) -> bool:
    """Whether a turn is one of several grips of the same bar."""
    return GRIP.fullmatch(serves_as) is not None


def repeated(serves_as: str, turn: Mapping[str, Any], state: State) -> dict[str, Any]:
    """The figures of one grip, with the range over it and those before it, judged by its limit.

    The range is the largest judged runout less the smallest; both are uncertain, and U(range) is
    the sum of their two U, as the same dial may err against itself. From one grip there is none.
    """
    one = {name: each for name, each in turn.items() if name not in OF_THE_TURN}
    grips = [*_before(serves_as, str(one["unit"]), state), one]
    if len(grips) == 1:
        return one
    low, *_, high = sorted(grips, key=lambda each: Decimal(each["judged"]))
    size = Decimal(high["judged"]) - Decimal(low["judged"])
    told = {"range": f"{size:f}", "grips": str(len(grips)), "middle_moved": _moved(grips)}
    return one | told | _judged(size, low, high, serves_as, state)


def _before(serves_as: str, unit: str, state: State) -> list[Mapping[str, Any]]:
    """The figures of the grips of this bar before this one, read in the same unit."""
    found = GRIP.fullmatch(serves_as)
    assert found is not None
    names = (f"{found['bar']}-{number}" for number in range(1, int(found["number"])))
    figures = (state.taken[name].figures for name in names if name in state.taken)
    return [each for each in figures if each.get("unit") == unit]


def _moved(grips: Sequence[Mapping[str, Any]]) -> str:
    """How far the bar's middle lay apart in two of the grips, at the most.

    Twice that is never less than the range, which does not see a high spot that wanders.
    """
    middles = [
        rect(float(each["eccentricity"]), radians(float(each["high_at_deg"]))) for each in grips
    ]
    return f"{Decimal(str(tidy(max(abs(one - two) for one, two in combinations(middles, 2))))):f}"


def _judged(
    size: Decimal, low: Mapping[str, Any], high: Mapping[str, Any], serves_as: str, state: State
) -> dict[str, Any]:
    """What the range is uncertain by, and its verdict where a limit is known."""
    ends = [each.get("expanded_uncertainty") for each in (low, high)]
    if None in ends:
        return {}
    expanded = sum(float(str(each)) for each in ends)
    told = {"range_uncertainty": f"{Decimal(str(tidy(expanded))):f}"}
    limit = length(state.facts.get(limit_name(serves_as)), str(high["unit"]))
    if limit is None:
        return told
    rule = state.facts.get("rule", "guarded")
    found = decide(float(size), expanded / 2, float(limit), rule)
    factor = f"{Decimal(repr(found.factor)):f}"
    return {**told, "verdict": found.verdict, "rule": found.rule, "factor": factor}
