"""What the readings since the last torque amount to, at the worst of the stations."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from math import hypot, inf, pi, sqrt

from guide.measure.coarse import unseen, unseen_at
from guide.measure.findings import hidden
from guide.measure.harmonic import Fit, can_hide_lobes
from guide.measure.judged import judged
from guide.measure.truing.facts import Facts
from guide.measure.truing.noise import FINEST, LEAST, first_idea, unaveraged
from guide.measure.truing.story import Story
from guide.measure.uncertainty import COVERAGE, expanded, of_fitted_tir
from guide.measure.verdict import FACTORS, Decision, decide

ROOM = 0.25
"""The part of a tolerance that has to be left beside the guard band for it to be provable."""
ONE_IN_TWO_HUNDRED = 2.576
"""99.5 % on one side of a normal distribution (NIST TN 1297 table B.1: 99 % in the middle)."""
MOST_U = 0.5
"""The part of the tolerance that U may be under simple acceptance."""
SAWTOOTH = 2 * sqrt(2) / pi
"""What a drift that was taken out leaves in a TIR, in u of one reading."""
WANDERS = 0.3
"""Gaussian noise of so many divisions leaves 0.05 of one in the mean of readings to the nearest:
exp(−2π²·0.3²)/π (identity, the first term of the rounding error's Fourier series)."""
COARSE = 0.9
"""The part of a division by which 95 turns in 100 err where the needle stands still and readings
differ by one to three divisions, however many they are (`tests/studies/truing.py`, part `coarse`).
Readings that differ by four err more, on the safe side: what is judged is then too large."""
FINE = 8
"""Positions of a fine turn, or more."""
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
    u_tir = max(hypot(of_fitted_tir(found, u), _remains(story)), _unseen(story, found))
    shows_lobes = not can_hide_lobes([angle % 360 for angle in _places(found)])
    decision = decide(figure, u_tir, float(story.facts.tolerance), rule_for(story.facts, u_tir))
    if decision.verdict == "outside" and not (shows_lobes or _shown(story, found)):
        decision = replace(decision, verdict="undecided")
    return Judgement(
        station,
        found,
        figure,
        u_tir,
        decision,
        shows_lobes,
        form=found.squares > _by_chance(found.spare) * u * u,
    )


def _remains(story: Story) -> float:
    """The part of u of a TIR that more readings leave as it is, with that of a drift taken out.

    The drift is told by two readings; their error is a slope over the turn, a sawtooth of √2·u,
    whose first harmonic is 1/π of it (identity).
    """
    slope = SAWTOOTH * story.u if story.drifting else 0.0
    return hypot(unaveraged(story.facts), slope)


def _unseen(story: Story, found: Fit) -> float:
    """The least u of a TIR on a dial whose readings repeat their errors, however many there are.

    Where they are all the same U is what one division can hide (`coarse.unseen`), else `COARSE` of
    one. Nothing where the needle itself wanders by a good part of a division.
    """
    division = float(story.facts.graduation)
    if wanders(story.facts):
        return 0.0
    hidden_by = unseen_at(division, found.angles) if found.observed_tir <= 0 else COARSE * division
    return hidden_by / COVERAGE


def wanders(facts: Facts) -> bool:
    """Whether the needle wanders by enough of a division that readings of one place differ."""
    return facts.inches(LEAST) >= WANDERS * float(facts.graduation)


def _shown(story: Story, found: Fit) -> bool:
    """Whether a coarse turn shows a runout beyond the tolerance: by the dial, or by its range."""
    least = found.observed_tir - float(story.facts.graduation)
    return provable(story, FINE) or least > float(story.facts.tolerance)


def rule_for(facts: Facts, u_tir: float) -> str:
    """The rule of the facts, but no simple acceptance where U can be above half of the tolerance.

    JCGM 106:2012 gives simple acceptance together with a largest uncertainty that is allowed; the
    half is common practice, no source. It is a question of the dial and not of how one turn came
    out: what a fine turn can hide counts whether or not these readings hide it.
    """
    hides = 0.0 if wanders(facts) else unseen(float(facts.graduation), FINE)
    wide = max(COVERAGE * u_tir, hides) > MOST_U * float(facts.tolerance)
    return "guarded" if wide else facts.rule


def _by_chance(freedom: int) -> float:
    """The 99.5 % point of χ² (Wilson and Hilferty): what noise leaves once in two hundred."""
    if freedom < 1:
        return inf
    nine = 2 / (9 * freedom)
    return float(freedom * (1 - nine + ONE_IN_TWO_HUNDRED * sqrt(nine)) ** 3)


def _places(found: Fit) -> tuple[float, ...]:
    """The different positions read."""
    return tuple(sorted({round(angle % 360, 6) for angle in found.angles}))


def guard_of(story: Story, readings: int, like: Fit) -> float:
    """The guard band that so many even readings near the axis would have, spread like these."""
    u_tir = hypot(2 * story.u * (2 / readings) ** 0.5, _remains(story))
    u_tir = max(u_tir, _unseen(story, like))
    return FACTORS[rule_for(story.facts, u_tir)] * u_tir  # type: ignore[index] # of Facts


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
