"""A procedure as frozen records; each keeps the place it was written at."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from guide.procedure.condition import Condition
from guide.procedure.problem import Place


@dataclass(frozen=True, slots=True)
class Doing:
    """One action of a step, or one that is done only where a condition on the machine holds."""

    action: str
    only_if: Condition | None
    place: Place


@dataclass(frozen=True, slots=True)
class Branch:
    """Where the walk goes when a condition holds; without one, always."""

    condition: Condition | None
    to: str
    place: Place


@dataclass(frozen=True, slots=True)
class Check:
    """One line of a gate: what is confirmed, the hazard it is about, how to look."""

    say: str
    hazard: str
    look: str
    sets: str
    confirms: Condition | None
    each_person: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt, and what to do about it."""

    hazard: str
    action: str


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing asked and recorded: how it is asked, what may be answered."""

    name: str
    ask: str
    kind: str
    of: dict[str, str]
    """The closed set of answers with their words, for a choice."""
    help: str
    may_be_unknown: bool
    place: Place
    usual: str = ""
    """What stands there until it is answered, to be confirmed like any other; blank for nothing."""

    @property
    def closed(self) -> tuple[str, ...]:
        """The values a branch may test; empty for an open fact."""
        return ("yes", "no") if self.kind == "yes-no" else tuple(self.of)


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do or record."""

    name: str
    kind: str
    stage: str
    title: str
    full: str
    brief: str
    why: str
    good: str
    wrong: str
    cautions: tuple[Caution, ...]
    does: tuple[Doing, ...]
    needs: tuple[Condition, ...]
    when: Condition | None
    go: tuple[Branch, ...]
    again: tuple[Doing, ...] | None
    checks: tuple[Check, ...]
    opens: str
    ask: tuple[str, ...]
    take: str
    serves_as: str
    tighten: str
    decisions: tuple[str, ...]
    witness: str
    """The role of the second person that the step asks for, blank for none."""
    place: Place
    places: dict[str, Place] = field(hash=False, compare=False)


@dataclass(frozen=True, slots=True)
class Stage:
    """A part of the job."""

    name: str
    title: str


@dataclass(frozen=True, eq=False)
class Procedure:
    """One procedure file; the same text is read into the same one (`load.read`)."""

    name: str
    revision: str
    author: str
    """Who wrote it; blank where that is not said."""
    approved_by: str
    """Who let it be used; blank until somebody did."""
    approved_on: str
    title: str
    purpose: str
    rests_on: tuple[str, ...]
    facts: dict[str, Fact]
    stages: tuple[Stage, ...]
    steps: tuple[Step, ...]
    file: str
    text: str

    @cached_property
    def by_name(self) -> dict[str, Step]:
        """Steps by name."""
        return {step.name: step for step in self.steps}

    @cached_property
    def order(self) -> dict[str, int]:
        """The place of each step in the file's order, from 0."""
        return {step.name: number for number, step in enumerate(self.steps)}
