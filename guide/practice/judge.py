"""Each decision against the truth: accepted though out, stopped too soon, corrected in vain."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from guide.plain import N_
from guide.practice.reach import Reach
from guide.procedure.model import Step
from guide.walk.setup import Setup
from guide.walk.state import Entry

MOST_ROUNDS = 6
"""As many as the walk counts."""
ROUNDS_TO_FIND_OUT = {"beyond-travel": 1, "tilt": 1, "process-limited": 1}
"""Rounds that it takes to find out what the readings alone do not show."""


@dataclass(frozen=True, slots=True)
class Decided:
    """One decision of a learner."""

    sequence: int
    decision: str
    right: bool
    why: str
    """A sentence of the catalogue."""
    values: Mapping[str, object] = field(default_factory=dict, hash=False)
    runout: float = 0.0
    """The true runout then, in inches."""


def decided(
    walk: Setup, met: Sequence[tuple[Step, Entry]], found: Reach, tolerance: float
) -> Iterator[Decided]:
    """Every decision with what it was worth; lengths in inches."""
    figures: Mapping[str, object] = {}
    rounds = 0
    for step, entry in met:
        figures = entry.data.get("figures") or figures
        if step.kind != "verdict":
            continue
        decision = str(entry.data["decision"])
        runout = float(entry.data["practice"]["runout"])
        case = Case(found, tolerance, runout, figures, rounds, walk.state.rounds)
        right, why = JUDGED[decision](case)
        rounds += decision == "another-round"
        yield Decided(entry.sequence, decision, right, why, {"flag": found.flag}, runout)


@dataclass(frozen=True, slots=True)
class Case:
    """What a decision was made on, and what was so."""

    found: Reach
    tolerance: float
    runout: float
    figures: Mapping[str, object] = field(hash=False)
    before: int
    """Rounds that were decided on before."""
    rounds: int
    """Rounds in all."""

    @property
    def within(self) -> bool:
        """Whether it truly was within."""
        return self.runout <= self.tolerance

    @property
    def stops(self) -> bool:
        """Whether a person who knew everything would stop."""
        return self.found.right == "stop"

    @property
    def moved(self) -> bool:
        """Whether the zero had moved in the turn that was read."""
        flags = self.figures.get("flags", ())
        return isinstance(flags, (list, tuple)) and "zero-moved" in flags


Judged = tuple[bool, str]


def accepted(case: Case) -> Judged:
    """Accepted: within, and provably so."""
    if case.stops and case.within:
        return False, NOT_PROVED
    return (True, WITHIN) if case.within else (False, ACCEPTED_OUT)


def stopped(case: Case) -> Judged:
    """Stopped: where no screw cures it."""
    if case.stops:
        return True, STOPPED
    if case.rounds >= MOST_ROUNDS:
        return True, USED_UP
    return False, STOPPED_WITHIN if case.within else STOPPED_SOON


def corrected(case: Case) -> Judged:
    """Another round: where it was out, and a screw could help."""
    if case.moved:
        return False, MOVED
    if case.stops and case.before >= ROUNDS_TO_FIND_OUT.get(case.found.flag, 0):
        return False, NO_CURE
    if case.within and case.figures.get("verdict") == "within":
        return False, AGAINST_NOISE
    return True, GOES_ON


def read_again(case: Case) -> Judged:
    """Another turn: never wrong, and right above all where the zero moved."""
    return True, READ_AGAIN if case.moved else MORE_SURE


JUDGED = {
    "accept": accepted,
    "stop": stopped,
    "another-round": corrected,
    "another-turn": read_again,
}
WITHIN = N_("it was within, and so it was left")
NOT_PROVED = N_("it seemed within, but nobody could prove it: {flag}")
ACCEPTED_OUT = N_("accepted though it was out")
STOPPED = N_("no screw cures this: {flag}")
USED_UP = N_("the rounds were used up")
STOPPED_WITHIN = N_("stopped though it was within")
STOPPED_SOON = N_("stopped though it could be trued")
MOVED = N_("corrected on a turn whose zero had moved")
NO_CURE = N_("corrected what no screw cures: {flag}")
AGAINST_NOISE = N_("corrected though it was within: only noise was left")
GOES_ON = N_("it was out, and a round could help")
READ_AGAIN = N_("the zero had moved, and nothing was corrected on it")
MORE_SURE = N_("another turn makes it surer")
