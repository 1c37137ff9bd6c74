"""Where the walk goes on after making sure, and which steps it can be walked from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product

from guide.procedure.condition import Condition, Term
from guide.procedure.model import Procedure, Step
from guide.walk.as_found import LOOKED_AT, expected_at_look
from guide.walk.bits import (
    BIT,
    MASK,
    TRUE,
    Doings,
    Wanted,
    all_of,
    carry_out,
    decode,
    encode,
    holds,
    made_ready,
    ready_doings,
)
from guide.walk.branch_tests import MEANS
from guide.walk.flow import Exit, doings, exits, first_place, looks
from guide.walk.liveness import live
from guide.walk.world import FINISHED, MADE_SAFE, UNKNOWN, Facts

Spot = tuple[str, int]
"""A step and the machine state, as bits, in which the walk stands there."""
Way = tuple[tuple[Condition, ...], str]
"""What is left to look at, and where the walk then goes."""


class Plan:
    """What is the same in a procedure whatever the facts: its ways on, and what is live where."""

    def __init__(self, procedure: Procedure) -> None:
        self.procedure = procedure
        self.forks = {s.name: _forks(tuple(exits(procedure, s))) for s in procedure.steps}
        self.live = {
            name: sum(MASK[each] for each in variables)
            for name, variables in live(procedure).items()
        }
        self._ready: dict[tuple[int, tuple[str, ...]], Wanted] = {}
        self._steps: dict[object, _Step] = {}

    def ready(self, condition: Condition, facts: Facts) -> Wanted:
        """A condition made ready, once for each set of answers to the facts it names."""
        told = tuple(facts.get(t.name, "") for t in condition.terms if t.name not in MASK)
        key = id(condition), told
        if key not in self._ready:
            self._ready[key] = made_ready(condition, facts)
        return self._ready[key]

    def step(self, step: Step, facts: Facts) -> _Step:
        """A step made ready; facts that make no difference to it share one, and what it found."""
        confirmed = [check.confirms for check in step.checks if check.confirms]
        wanted = [*step.needs, *confirmed, *(FINISHED if step.kind == "sign-off" else ())]
        needs = all_of(wanted, facts)
        does = () if looks(step) else ready_doings(doings(step), facts)
        forks = tuple(
            tuple((tuple(self.ready(c, facts) for c in left), to) for left, to in fork)
            for fork in self.forks[step.name]
        )
        told = tuple(facts.get(name) for name in LOOKED_AT) if looks(step) else ()
        key = step.name, needs, does, forks, told
        if key not in self._steps:
            self._steps[key] = _Step(step, facts, needs, does, forks, self.live)
        return self._steps[key]


LONG = 16
"""Steps of a way back that is kept."""
AS_FOUND = BIT["power", "unknown"] | BIT["power", "as-found"]
"""Nothing has been touched yet: a walk may be abandoned there as it may where it is made safe."""


class Ways:
    """All the ways on in one procedure under one set of closed facts.

    A branch test on the record may come out either way, so every combination of the tests that a
    step's exits name is tried. What has been found out about a spot is kept.
    """

    def __init__(self, plan: Plan, facts: Facts) -> None:
        self.procedure = plan.procedure
        self.facts = facts
        self.may_be_left = all_of(MADE_SAFE, facts)
        self.good: set[Spot] = set()
        self.bad: set[Spot] = set()
        self._steps = {step.name: plan.step(step, facts) for step in plan.procedure.steps}
        self._live = plan.live
        self._landed: dict[int, dict[int, str | None]] = {}
        """Where long ways back came to, by the state and the place that they began at."""
        self._backwards: list[tuple[str, Wanted, int]] = []
        """Every step that these facts let in, last first: name, what lets in, what is live."""
        self._from: dict[str, int] = {}
        """Where in that list the search from each step begins, counted from the end."""
        for step in plan.procedure.steps:
            entries = _entries(step.when, facts)
            if entries:
                self._backwards.insert(0, (step.name, entries, self._live[step.name]))
            self._from[step.name] = len(self._backwards)

    def first(self) -> str:
        """The step a walk begins at."""
        return first_place(self.procedure, UNKNOWN, self.facts, lambda name: False)

    def spot(self, place: str, bits: int) -> Spot:
        """A spot with what can no longer matter there taken out."""
        return place, bits & self._live[place]

    def onward(self, spot: Spot) -> frozenset[Spot] | None:
        """Every spot that one step leads to, or None where the step is refused."""
        name, bits = spot
        step = self._steps.get(name)
        if step is not None:
            return step.onward(bits)
        left = bits & AS_FOUND or all(holds(wanted, bits) for wanted in self.may_be_left)
        return frozenset() if left else None

    def places(self, name: str, bits: int) -> set[str]:
        """Where the walk may go from a step, for every outcome of its branch tests."""
        return self._steps[name].places(bits)

    def lets_in(self, name: str, bits: int) -> bool:
        """Whether a step is entered in a state, whatever follows from it."""
        place = self._from[name]
        at = len(self._backwards) - place
        return self._backwards[at:] != [] and (
            self._backwards[at][0] == name and self._is_open(at, bits)
        )

    def walkable(self, place: str, bits: int) -> bool:
        """Whether nothing that can follow from a spot is ever refused."""
        start = self.spot(place, bits)
        return start in self.good or (start not in self.bad and self._explored(start))

    def _explored(self, start: Spot) -> bool:
        """Follow everything from a spot that nothing is known of yet."""
        seen: dict[Spot, Spot | None] = {start: None}
        todo = [start]
        while todo:
            here = todo.pop()
            if here in self.good or here[0] == "finished":
                continue
            following = None if here in self.bad else self.onward(here)
            if following is None:
                self._condemn(here, seen)
                return False
            for each in following:
                if each not in seen:
                    seen[each] = here
                    todo.append(each)
        self.good.update(seen)
        return True

    def _condemn(self, here: Spot, seen: dict[Spot, Spot | None]) -> None:
        """A spot that is refused condemns the chain of spots that led to it."""
        link: Spot | None = here
        while link is not None:
            self.bad.add(link)
            link = seen[link]

    def land(self, present: str, bits: int) -> str | None:
        """The step to go on at: the present one, else the nearest one before it that goes well.

        Where that stands right behind a gate, the gate: nobody says that it was ever passed.
        """
        first = len(self._backwards) - self._from.get(present, len(self._backwards))
        if self._backwards[first:] and self._backwards[first][0] == present:
            if self._lets_in(first, bits):
                return present
            first += 1
        return self._nearest(first, bits)

    def _nearest(self, first: int, bits: int) -> str | None:
        """The first that lets in from one on; long ways there are gone once for each state."""
        known = self._landed.get(bits, {})
        found, place = None, first
        for place in range(first, len(self._backwards)):
            if place in known:
                found = known[place]
                break
            if self._lets_in(place, bits):
                found = self._at_its_gate(place, bits)
                break
        if place - first > LONG:
            self._landed.setdefault(bits, {}).update(dict.fromkeys(range(first, place + 1), found))
        return found

    def _at_its_gate(self, place: int, bits: int) -> str:
        """The step at a place, or the gate that stands right before it."""
        found = self._backwards[place][0]
        for before in range(place + 1, len(self._backwards)):
            name = self._backwards[before][0]
            if not self._is_open(before, bits):
                continue
            if not (self._steps[name].is_gate and self._lets_in(before, bits)):
                break
            found = name
        return found

    def _is_open(self, place: int, bits: int) -> bool:
        """Whether a state is among those that a step is entered in."""
        for mask, count in self._backwards[place][1]:  # noqa: SIM110 - asked millions of times
            if (bits & mask).bit_count() == count:
                return True
        return False

    def _lets_in(self, place: int, bits: int) -> bool:
        """Whether the step at a place is entered in a state, and goes well."""
        name, _, live_here = self._backwards[place]
        return self._is_open(place, bits) and self._goes_well(name, bits & live_here)

    def _goes_well(self, name: str, bits: int) -> bool:
        """Whether a spot is not refused at once, nor anything that can follow from it."""
        spot = name, bits
        if spot in self.good or spot in self.bad:
            return spot in self.good
        if self.onward(spot) is None:
            self.bad.add(spot)
            return False
        return self._explored(spot)


class _Step:
    """A step made ready for bits, and where it was found to lead."""

    def __init__(
        self,
        step: Step,
        facts: Facts,
        needs: tuple[Wanted, ...],
        does: Doings,
        forks: tuple[tuple[tuple[tuple[Wanted, ...], str], ...], ...],
        live: Mapping[str, int],
    ) -> None:
        self.facts, self.needs, self.does, self.forks, self.live = facts, needs, does, forks, live
        self.may_be_left = step.kind == "correction"
        self.looks = looks(step)
        self.is_gate = step.kind == "gate"
        self.opens = BIT["gate", step.opens] if step.opens else 0
        self.known: dict[int, frozenset[Spot] | None] = {}

    def onward(self, bits: int) -> frozenset[Spot] | None:
        """Where the step leads from a state, None where it is refused; worked out once."""
        if bits not in self.known:
            self.known[bits] = self._work_out(bits)
        return self.known[bits]

    def _work_out(self, bits: int) -> frozenset[Spot] | None:
        """What the step does, both where a correction moves and where it is left alone."""
        new = self.after(bits)
        if new is None:
            return None
        both = (new, bits) if self.may_be_left else (new,)
        return frozenset((to, each & self.live[to]) for each in both for to in self.places(each))

    def after(self, bits: int) -> int | None:
        """The state after the step, None where it is refused."""
        for wanted in self.needs:
            if not holds(wanted, bits):
                return None
        if self.looks:
            return encode(expected_at_look(decode(bits), self.facts))
        new = carry_out(self.does, bits)
        return new if new is None or not self.opens else new & ~MASK["gate"] | self.opens

    def places(self, bits: int) -> set[str]:
        """Where the walk may go with this state."""
        found = set()
        for fork in self.forks:
            for left, to in fork:
                for wanted in left:
                    if not holds(wanted, bits):
                        break
                else:
                    found.add(to)
                    break
        return found


def _entries(when: Condition | None, facts: Facts) -> Wanted:
    """What lets a walk into a step, whatever the branch tests in its `when` say."""
    if when is None:
        return TRUE
    either = (tuple(t for t in terms if t.name not in MEANS) for terms in when.either)
    return made_ready(Condition(when.text, tuple(either)), facts)


def _forks(ways: tuple[Exit, ...]) -> list[tuple[Way, ...]]:
    """The ways on for each outcome of the branch tests they name, the tests taken out."""
    terms = (term for way in ways for c in way.conditions for term in c.terms)
    names = sorted({term.name for term in terms if term.name in MEANS})
    outcomes = (dict(zip(names, each, strict=True)) for each in _outcomes(len(names)))
    return list(dict.fromkeys(tuple(_open_ways(ways, told)) for told in outcomes))


def _outcomes(count: int) -> Iterator[tuple[bool, ...]]:
    """Every combination of answers."""
    return product((True, False), repeat=count)


def _open_ways(ways: tuple[Exit, ...], told: dict[str, bool]) -> Iterator[Way]:
    """The ways that the told tests leave open, up to the first that is always taken."""
    for way in ways:
        left = [_left_of(each, told) for each in way.conditions]
        if None in left:
            continue
        rest = tuple(each for each in left if each is not None and each.either != ((),))
        yield rest, way.to
        if not rest:
            return


def _left_of(wanted: Condition, told: dict[str, bool]) -> Condition | None:
    """A condition with its branch tests answered: None when false, an empty one when true."""
    if not any(term.name in told for term in wanted.terms):
        return wanted
    either: list[tuple[Term, ...]] = []
    for terms in wanted.either:
        if all(told[t.name] is not t.negated for t in terms if t.name in told):
            either.append(tuple(t for t in terms if t.name not in told))
    if () in either:
        return Condition("", ((),))
    return Condition(wanted.text, tuple(either)) if either else None
