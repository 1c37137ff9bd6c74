"""What the readings since the last torque amount to, at the worst of the stations."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from math import hypot, inf, sqrt

from guide.measure.findings import hidden
from guide.measure.harmonic import Fit, can_hide_lobes
from guide.measure.judged import judged
from guide.measure.truing.noise import FINEST, first_idea, unaveraged
from guide.measure.truing.story import Story
from guide.measure.uncertainty import expanded, of_fitted_tir
from guide.measure.verdict import FACTORS, Decision, decide

ROOM = 0.25
"""The part of a tolerance that has to be left beside the guard band for it to be provable."""
ONE_IN_TWO_HUNDRED = 2.576
"""99.5 % on one side of a normal distribution (NIST TN 1297 table B.1: 99 % in the middle)."""
MOST_TURNS = 2
"""How many fine turns are reckoned with when it is said beforehand what can be proved."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """One station: lengths in the facts' unit."""

    station: Decimal
    found: Fit
    judged: float
    u_tir: float
    decision: Decision
    shows_lobes: bool
    """Whether the positions read so far would show three lobes."""
    form: bool
    """Whether the readings show more than the centre being off."""

    @property
    def guard(self) -> float:
        """The guard band."""
        return self.decision.guard


def judge(story: Story, station: Decimal) -> Judgement | None:
    """The station judged by every reading since the bolts were torqued; None before enough."""
    found = story.found(station)
    if found is None:
        return None
    u = story.u_at(found)
    figure = judged(found, u)
    u_tir = hypot(of_fitted_tir(found, u), unaveraged(story.facts))
    decision = decide(figure, u_tir, float(story.facts.tolerance), story.facts.rule)
    return Judgement(
        station,
        found,
        figure,
        u_tir,
        decision,
        shows_lobes=not can_hide_lobes([angle % 360 for angle in _places(found)]),
        form=found.squares > _by_chance(found.spare) * u * u,
    )


def _by_chance(freedom: int) -> float:
    """The 99.5 % point of χ² (Wilson and Hilferty): what noise leaves once in two hundred."""
    if freedom < 1:
        return inf
    nine = 2 / (9 * freedom)
    return float(freedom * (1 - nine + ONE_IN_TWO_HUNDRED * sqrt(nine)) ** 3)


def _places(found: Fit) -> tuple[float, ...]:
    """The different positions read."""
    return tuple(sorted({round(angle % 360, 6) for angle in found.angles}))


def guard_of(story: Story, readings: int) -> float:
    """The guard band that so many even readings near the axis would have."""
    u_tir = hypot(2 * story.u * (2 / readings) ** 0.5, unaveraged(story.facts))
    return FACTORS[story.facts.rule] * u_tir  # type: ignore[index] # checked by Facts


def provable(story: Story, fine: int) -> bool:
    """Whether these instruments can prove the tolerance, said before the first reading.

    It holds where the tolerance is two divisions or more and the guard band of two fine turns
    leaves a quarter of it; else the advisor says so and ends undecided.
    """
    tolerance = float(story.facts.tolerance)
    if tolerance < FINEST * float(story.facts.graduation) * (1 - 1e-9):
        return False
    u_tir = hypot(2 * first_idea(story.facts) * (2 / (MOST_TURNS * fine)) ** 0.5,
                  unaveraged(story.facts))  # fmt: skip
    return 1.645 * u_tir <= (1 - ROOM) * tolerance


def flags_of(one: Judgement) -> set[str]:
    """Flags that the readings raise by themselves."""
    keys = {hidden(one.found)} if not one.shows_lobes else set()
    keys |= {"form"} if one.form else set()
    return {key for key in keys if key}


def u_expanded(one: Judgement) -> float:
    """The reported uncertainty."""
    return expanded(one.u_tir)
