"""The proof: every reachable step × machine state × closed facts of a procedure is walked.

At each, the truth and every single change that making sure might find. It checks the procedure,
not the machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.plain import N_, NotAllowed
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Place, Problem, problem
from guide.walk.as_found import expected_at_look
from guide.walk.asked import unasked
from guide.walk.bits import encode, holds, made_ready
from guide.walk.closed import closed_facts
from guide.walk.flow import doings, looks, performed, world_after
from guide.walk.landing import Plan, Ways
from guide.walk.looking import DECIDE_ANSWERS, changes
from guide.walk.loops import endless
from guide.walk.making_safe import next_to_safe, tries_to_start
from guide.walk.refused import SEVERAL, Spot, first_refused, to_author
from guide.walk.spelling import misspelled
from guide.walk.spoken import unspoken
from guide.walk.world import (
    ACTIONS,
    NEVER,
    TABLE_FACTS,
    UNKNOWN,
    VARIABLES,
    Facts,
    World,
    changed,
    do,
    finished,
    made_safe,
    value,
)

NEVER_IN_BITS = tuple((each.text, made_ready(each, {})) for each in NEVER)
LONGEST_TO_SAFE = 40
"""Actions within which the table's own way to made safe has always arrived."""


Onward = tuple[str, str]
"""A step and the place that a walk goes to from it."""


@dataclass(frozen=True)
class Finding:
    """What `check` says of one procedure."""

    problems: tuple[Problem, ...]
    spots: int
    """Step × machine state × closed facts that were walked."""
    changes: int
    """Changes that making sure might find, tried."""
    ways: frozenset[Onward] = frozenset()
    """Every way on that some walk takes, where there is no problem."""


def check(procedure: Procedure) -> Finding:
    """Everything that is wrong with a procedure; see DEVELOPERS.md for what is shown."""
    unclear = tuple(misspelled(procedure))
    if unclear:
        return Finding(unclear, 0, 0)
    problems: dict[tuple[str, str], Problem] = {}
    reached: set[str] = set()
    ways: set[Onward] = set()
    spots = tried = 0
    for walk in walks(procedure):
        walk.make_sure()
        for each in walk.problems:
            problems.setdefault((each.step, each.sentence), each)
        reached |= walk.reached()
        ways |= walk.went
        spots += len(walk.came_from)
        tried += walk.tried
    found = (
        *problems.values(),
        *(() if problems else _never_reached(procedure, reached)),
        *endless(procedure),
        *unspoken(procedure),
        *unasked(procedure),
    )
    ordered = tuple(sorted(found, key=lambda each: (each.place.file, each.place.line)))
    return Finding(ordered, spots, tried, frozenset(ways))


def walks(procedure: Procedure) -> Iterator[Walk]:
    """One walk for each set of closed facts that makes a difference."""
    tried_before = Tried({}, {})
    plan = Plan(procedure)
    asked: set[frozenset[tuple[str, str]]] = set()
    for facts in closed_facts(procedure):
        if not any(each <= facts.items() for each in asked):
            walk = Walk(plan, facts, tried_before)
            walk.go()
            yield walk
            asked.add(frozenset((n, facts[n]) for n in walk.asked() if n in facts))


@dataclass(frozen=True)
class Tried:
    """What depends on few facts, kept from one set of facts to the next."""

    changes: dict[tuple[World, tuple[str, ...]], tuple[tuple[World, int], ...]]
    """The changes of a world under the facts that looking depends on, as worlds and as bits."""
    safe: dict[tuple[World, tuple[str, ...]], int | None]
    """Where making safe arrives, under the facts that the table looks at."""


class Walk:
    """One walk over everything that can happen under one set of closed facts."""

    def __init__(self, plan: Plan, facts: Facts, tried_before: Tried) -> None:
        self.tried_before = tried_before
        self.procedure = plan.procedure
        self.tries = tries_to_start(plan.procedure)
        self.facts = facts
        self.ways = Ways(plan, facts)
        self.came_from: dict[Spot, Spot | None] = {}
        self.went: set[Onward] = set()
        self.problems: list[Problem] = []
        self.landed: set[tuple[str, int]] = set()
        self.from_safe: dict[tuple[str, int], bool] = {}
        self.tried = 0

    def go(self) -> None:
        """From the first step on, breadth first, so that the way to a finding is the shortest."""
        first = self.ways.first(), UNKNOWN
        self.came_from = {first: None}
        todo: list[Spot] = [first]
        for spot in todo:
            if spot[0] not in self.procedure.by_name:
                self._ended(spot)
                continue
            for each in self._onward(spot):
                self.went.add((spot[0], each[0]))
                if each not in self.came_from:
                    self.came_from[each] = spot
                    todo.append(each)

    def make_sure(self) -> None:
        """At every spot the truth and every single change, where nothing is wrong without them."""
        if not self.problems:
            for spot in self.came_from:
                self._making_sure(spot)

    def reached(self) -> set[str]:
        """The steps that some walk came to, after a change that making sure found too."""
        return {name for name, _ in (*self.came_from, *self.ways.good)}

    def asked(self) -> set[str]:
        """The facts that some reached step asks; another value of the rest would walk the same."""
        return {
            name
            for step in self.reached() & self.procedure.by_name.keys()
            for name in self.procedure.by_name[step].ask
        }

    def _onward(self, spot: Spot) -> list[Spot]:
        """What follows, with every refusal and every danger reported."""
        step = self.procedure.by_name[spot[0]]
        try:
            worlds = self._worlds(step, spot[1])
        except NotAllowed as refusal:
            self._report(spot, to_author(refusal))
            return []
        self._invariants(step, spot)
        return self._places(step, worlds)

    def _places(self, step: Step, worlds: list[World]) -> list[Spot]:
        """Where the walk may go on from a step, for each of the worlds after it."""
        return [
            (place, new)
            for new in worlds
            for place in sorted(self.ways.places(step.name, encode(new)))
        ]

    def _worlds(self, step: Step, world: World) -> list[World]:
        """What the machine may be after a step; raises `NotAllowed` with the reason."""
        if looks(step):
            return [expected_at_look(world, self.facts)]
        still = [world] if step.kind == "correction" else []
        return [world_after(step, world, self.facts), *still]

    def _invariants(self, step: Step, spot: Spot) -> None:
        """No action of the step leads into a danger that was not there before it."""
        world = spot[1]
        if looks(step):
            return
        before = _dangers(world)
        for action in performed(doings(step), world, self.facts):
            world = do(action, world, self.facts)
            for danger in _dangers(world) - before:
                self._report(spot, f"“{action}” leads into a danger: {danger}")
        if value(world, "carried") in ("plate", "body", "chuck"):
            self._hangs_in_a_support(step, spot, world)

    def _hangs_in_a_support(self, step: Step, spot: Spot, world: World) -> None:
        """Hands alone are never the state between two steps."""
        by_hand = value(world, "carried") == "plate" and value(world, "seat") in ("off", "on-nose")
        if by_hand and value(world, "lifting-gear") != "rigged":
            self._report(spot, "the step ends with the plate in the hands and not caught")

    def _ended(self, spot: Spot) -> None:
        """Finished means finished; abandoned by a branch means untouched, or made safe."""
        place, world = spot
        if place == "finished" and not finished(world, self.facts):
            self._report(spot, "the walk ends and the lathe is not finished")
        if not self._may_end(spot):
            self._report(spot, "the walk ends and the lathe is not made safe")

    def _may_end(self, spot: Spot) -> bool:
        """Whether a walk that is abandoned at a spot leaves the lathe untouched, or made safe."""
        place, world = spot
        untouched = value(world, "power") in ("unknown", "as-found")
        return place != "abandoned" or untouched or made_safe(world, self.facts)

    def _making_sure(self, spot: Spot) -> None:
        """The truth and every single change lead somewhere."""
        place, world = spot
        step = self.procedure.by_name.get(place)
        if step is None or value(world, "power") == "unknown":
            return
        if looks(step):
            new = expected_at_look(world, self.facts)
            for following in self.ways.places(step.name, encode(new)):
                self._changed(spot, following, new)
            return
        if value(world, "seat") == "unknown":
            world = expected_at_look(world, self.facts)
        self._changed(spot, place, world)

    def _changed(self, spot: Spot, present: str, world: World) -> None:
        """Land from each change once."""
        for new, bits in self._changes(world):
            self.tried += 1
            if (present, bits) not in self.landed:
                self.landed.add((present, bits))
                if not self._lands(present, new, bits):
                    found, why = _difference(world, new), self._why_not(present, new)
                    self._report(spot, f"making sure finds {found}, and there is no way on: {why}")

    def _why_not(self, present: str, world: World) -> str:
        """The nearest step that is refused, from here on or from the steps before."""
        names = [step.name for step in self.procedure.steps]
        upto = names.index(present) + 1 if present in names else len(names)
        for name in reversed(names[:upto]):
            if not self.ways.lets_in(name, encode(world)):
                continue
            if found := first_refused((name, world), self._following, self._may_end):
                return _said(name, *found)
        return SEVERAL

    def _following(self, spot: Spot) -> list[Spot]:
        """What follows from a spot, nothing reported; raises `NotAllowed`."""
        step = self.procedure.by_name.get(spot[0])
        return self._places(step, self._worlds(step, spot[1])) if step else []

    def _changes(self, world: World) -> tuple[tuple[World, int], ...]:
        """The truth and every single change, worked out once for all noses."""
        key = world, tuple(self.facts.get(name, "") for name in DECIDE_ANSWERS)
        known = self.tried_before.changes
        if key not in known:
            known[key] = tuple((w, encode(w)) for w in changes(world, self.facts))
        return known[key]

    def _lands(self, present: str, world: World, bits: int) -> bool:
        """Some step before goes well from here, or from what making safe leads to."""
        if self.ways.land(present, bits) is not None:
            return True
        safe_by = self.tried_before.safe
        key = world, tuple(self.facts.get(name, "") for name in TABLE_FACTS)
        if key not in safe_by:
            safe = _made_safe(world, self.facts, self.tries)
            safe_by[key] = None if safe is None else encode(safe)
        made_safe = safe_by[key]
        return made_safe is not None and self._goes_on(present, made_safe)

    def _goes_on(self, present: str, safe: int) -> bool:
        """Whether the walk can be taken up again once it is made safe."""
        if (present, safe) not in self.from_safe:
            self.from_safe[present, safe] = self.ways.land(present, safe) is not None
        return self.from_safe[present, safe]

    def _report(self, spot: Spot, sentence: str) -> None:
        """A finding with the shortest way to it, as steps and the actions they do."""
        chain = self._chain(spot)
        name = next((n for n, _ in reversed(chain) if n in self.procedure.by_name), "")
        self.problems.append(
            problem(
                self.procedure.by_name[name].place if name else Place(),
                N_("{finding} (facts: {facts}; way there: {way})"),
                name,
                finding=sentence,
                facts=", ".join(f"{k}={v}" for k, v in self.facts.items()) or "none",
                way=" → ".join(filter(None, map(self._told, chain[:-1]))) or "the start",
            )
        )

    def _chain(self, spot: Spot) -> list[Spot]:
        """The spots that lead to one, itself last."""
        chain = [spot]
        while (before := self.came_from.get(chain[-1])) is not None:
            chain.append(before)
        return chain[::-1]

    def _told(self, spot: Spot) -> str:
        """A step and its actions; nothing for a step that does none."""
        step = self.procedure.by_name[spot[0]]
        if looks(step):
            return f"{step.name} (look)"
        actions = performed(doings(step), spot[1], self.facts)
        gate = [f"gate opens {step.opens}"] if step.opens else []
        told = ", ".join((*actions, *gate))
        return f"{step.name} ({told})" if told else ""


def _dangers(world: World) -> set[str]:
    """The invariants that a world breaks, in the words of the table."""
    bits = encode(world)
    return {text for text, wanted in NEVER_IN_BITS if holds(wanted, bits)}


def _said(begun: str, refused: str, why: str) -> str:
    """Where going on was tried from, which step is refused there, and why."""
    there = "" if begun == refused else f"gone on from {begun}, "
    return f"{there}{refused} is refused: {why}"


def _difference(before: World, after: World) -> str:
    """What making sure found other than recorded."""
    asked = (n for n in VARIABLES if n not in ("swing", "reads", "series", "result", "gate"))
    found = [
        f"{n}={value(after, n)} (recorded {value(before, n)})"
        for n in asked
        if value(before, n) != value(after, n)
    ]
    return ", ".join(found) or "everything as recorded"


def _made_safe(world: World, facts: Facts, tries: bool) -> World | None:
    """Where the table's own way to made safe arrives, gates acknowledged on the way."""
    for _ in range(LONGEST_TO_SAFE):
        action = next_to_safe(world, facts, tries=tries)
        if action is None:
            return world
        purpose = ACTIONS[action].gate
        if action == "try to start":
            world = do("bystanders clear", world, facts)
        world = changed(world, gate=purpose) if purpose else world
        try:
            world = do(action, world, facts)
        except NotAllowed:
            return None
    return None


def _never_reached(procedure: Procedure, reached: set[str]) -> Iterator[Problem]:
    """Steps that no walk comes to."""
    for step in procedure.steps:
        if step.name not in reached:
            yield problem(step.place, N_("no walk ever reaches this step"), step.name)
