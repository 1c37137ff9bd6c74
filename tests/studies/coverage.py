"""Walks that between them come to every step of every procedure and take every way on; by hand.

    .venv/bin/python tests/studies/coverage.py [PROCEDURE …]

All of them go through the real engine. First whole walks, each in another manner, until every way
on that the check knows was taken. Then walks that are broken off, where making sure finds one
thing changed: some steps are come to by nothing else. It ends with 1 where anything is left.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import product
from math import cos, radians
from pathlib import Path
from typing import Any, NamedTuple

sys.path.insert(0, str(Path(__file__).parents[2]))

from guide.plain import Refusal
from guide.procedure.condition import Term
from guide.procedure.model import Fact, Procedure, Step
from guide.procedure.shelf import find, shipped_files
from guide.procedure.vocabulary import TRIGGER
from guide.walk.as_found import expected_at_look
from guide.walk.figures import unit_of
from guide.walk.flow import doings, looks
from guide.walk.looking import answers
from guide.walk.proof import Onward, walks
from guide.walk.recording import offered
from guide.walk.setup import Setup
from guide.walk.state import State
from guide.walk.world import World, value, with_values
from tests.walk import driver
from tests.walk.memory import Memory

MOST = 600
"""Acts after which a walk has hung."""
DECISIONS = ("accept", "another-round", "another-turn", "stop")
CHANGES_THE_RECORD = ("readings", "verdict", "correction")
MANY = 12
"""Sets of facts that are broken off under."""
FURTHER = 25
"""Acts behind a change that are looked at."""
BREAKS = (("pause", "resume"), ("resume",))
"""How a walk is broken off and gone on with: after a pause, or after the plug was pulled."""
WHO = ({}, {"dressed": "for-turning", "bystanders": "clear"})
"""Who comes back: somebody in what they came in with people about, or dressed as they went."""
OFF = (0, 1, 2, 3, 99)
"""How many readings are off before one is true; with the last, all of them."""


class Manner(NamedTuple):
    """How somebody goes through a procedure wherever there is a choice."""

    at: str = ""
    """The step at which something else is decided than elsewhere; blank for everywhere."""
    decides: str = "accept"
    out: int = 0
    """Readings that are off before one is true."""
    off_by: float = 0.0
    """Inches that those are off."""
    leaves: bool = False
    """Whether every screw is left alone."""
    knows: bool = True
    """Whether a figure is known that may be unknown."""
    finds: str = "expected"
    """What a look finds: what is expected, or the weakest that may be answered."""


def manners(step: str) -> Iterator[Manner]:
    """Every manner that may matter to where a walk goes from a step, the plainest first."""
    yield Manner()
    yield Manner(knows=False)
    yield Manner(finds="weakest")
    for at, off_by, out, decides in product((step, ""), (0.004, 0.0005), OFF, DECISIONS):
        yield Manner(at, decides, out, off_by)
    for off_by, out in product((0.004, 0.0005), OFF):
        yield Manner(step, "accept", out, off_by, leaves=True)


def wanted(procedure: Procedure) -> dict[Onward, list[Mapping[str, str]]]:
    """Every way on that there is, with the closed facts under which it is taken."""
    found: dict[Onward, list[Mapping[str, str]]] = {}
    for walk in walks(procedure):
        for each in walk.went:
            if not speaks_against_itself(procedure, *each):
                found.setdefault(each, []).append(dict(walk.facts))
    return found


def speaks_against_itself(procedure: Procedure, name: str, to: str) -> bool:
    """Whether one step wants what the next one excludes, and nothing between them changes it.

    The check lets every question on the record be answered anew at each step, which is more than
    can happen.
    """
    step, then = procedure.by_name[name], procedure.by_name.get(to)
    if step.kind in CHANGES_THE_RECORD or doings(step) or not (step.when and then and then.when):
        return False
    return all(clash(*each) for each in product(step.when.either, then.when.either))


def clash(wanted: tuple[Term, ...], then: tuple[Term, ...]) -> bool:
    """Whether two sets of terms cannot both hold."""
    for one, other in product(wanted, then):
        if one.name != other.name:
            continue
        if one.negated != other.negated and one.values == other.values:
            return True
        if not (one.negated or other.negated or {*one.values} & {*other.values}):
            return bool(one.values)
    return False


@dataclass
class Covered:
    """What walks came to between them."""

    ways: set[Onward]
    """Every way on that there is."""
    left: set[Onward]
    """Those that no walk took."""
    steps: set[str] = field(default_factory=set)
    """Steps that no walk came to."""
    walks: int = 0


def covered(procedure: Procedure) -> Covered:
    """Walk until every way on was taken, or everything was tried for those that are left."""
    under = wanted(procedure)
    told = Covered({*under}, {*under}, {*procedure.by_name})
    for way in sorted(under):
        for facts, manner in product(spread(under[way]), manners(way[0])):
            if way not in told.left:
                break
            went = {*taken(procedure, facts, manner)}
            told.left -= went
            told.steps -= {place for each in went for place in each}
            told.walks += 1
    several = spread([each for some in under.values() for each in some], MANY)
    for manner, facts in product(rounds(procedure), several):
        broken_off(procedure, facts, manner, told)
    return told


def rounds(procedure: Procedure) -> Iterator[Manner]:
    """Straight on, round until nothing is left, and round again from each verdict."""
    yield Manner()
    yield Manner(decides="another-round")
    yield Manner(decides="another-round", out=4, off_by=0.004)
    verdicts = (step.name for step in procedure.steps if step.kind == "verdict")
    for at, decides in product(verdicts, ("another-round", "another-turn")):
        yield Manner(at, decides)


def broken_off(
    procedure: Procedure, facts: Mapping[str, str], manner: Manner, told: Covered
) -> None:
    """One walk, left at each of its steps and gone on with after each single change."""
    walk = driver.opened(Memory(), procedure)
    seen_before: set[tuple[str, World]] = set()
    while not walk.state.ended and told.steps:
        spot = walk.state.place, walk.state.world
        if spot in seen_before:
            return
        seen_before.add(spot)
        if walk.step and value(walk.state.world, "power") not in ("unknown", "as-found"):
            for change, broken, who in product(changes_here(walk), BREAKS, WHO):
                other = driver.forked(walk)
                told.steps -= {*after_a_change(other, facts, broken, {**who, **change})}
                told.walks += 1
        driver.do(walk, act(walk, facts, manner))


def changes_here(walk: Setup) -> Iterator[dict[str, str]]:
    """What was left, and every single thing that may be found otherwise."""
    yield {}
    recorded = driver.as_recorded(walk.state)
    powered = with_values(walk.state.world, {"power": recorded["power"]})
    for name, was in recorded.items():
        for each in answers(name, powered, walk.state.facts):
            if each != was:
                yield {name.replace("-", "_"): each}


def after_a_change(
    walk: Setup, facts: Mapping[str, str], broken: Sequence[str], change: Mapping[str, str]
) -> Iterator[str]:
    """The steps come to from a break on, as far as what the change brings."""
    with suppress(Refusal):
        for trigger in broken:
            driver.do(walk, (trigger, {}))
        driver.do(walk, ("record", {"seen": driver.as_recorded(walk.state, **change)}))
        for _ in range(FURTHER):
            yield walk.state.place
            if walk.state.ended or walk.step is None:
                return
            driver.do(walk, act(walk, facts, Manner()))


def spread(facts: Sequence[Mapping[str, str]], few: int = 4) -> Sequence[Mapping[str, str]]:
    """A few of many, from one end to the other."""
    return facts[:: max(len(facts) // few, 1)][:few]


def taken(procedure: Procedure, facts: Mapping[str, str], manner: Manner) -> Iterator[Onward]:
    """The ways on of one walk to its end."""
    walk = driver.opened(Memory(), procedure)
    for _ in range(MOST):
        before = walk.state
        if before.ended:
            return
        driver.do(walk, act(walk, facts, manner))
        if before.place in procedure.by_name:
            yield before.place, walk.state.place


def act(walk: Setup, facts: Mapping[str, str], manner: Manner) -> driver.Act:
    """What is done next in this manner."""
    step, state = walk.step, walk.state
    if step is None:
        return driver.usual(walk, facts)
    if looks(step):
        return TRIGGER[step.kind], {"seen": seen(state, manner)}
    if step.kind == "readings":
        return TRIGGER[step.kind], read(state, step, manner)
    if step.kind == "correction" and manner.leaves:
        return TRIGGER[step.kind], {"left": "yes"}
    if step.kind == "facts":
        told = {name: answer(walk.procedure.facts[name], facts, manner) for name in step.ask}
        return TRIGGER[step.kind], {"facts": told}
    if step.kind == "verdict":
        return TRIGGER[step.kind], {"decision": decision(step, state, manner), "why": "invented"}
    return driver.usual(walk, facts)


def seen(state: State, manner: Manner) -> Mapping[str, str]:
    """What a look finds."""
    expected = driver.asked(expected_at_look(state.world, state.facts))
    found = driver.answerable(state, expected)
    if manner.finds == "expected":
        return found
    powered = with_values(state.world, {"power": found["power"]})
    return {name: answers(name, powered, state.facts)[0] for name in found} | {
        "power": found["power"]
    }


def answer(fact: Fact, facts: Mapping[str, str], manner: Manner) -> str:
    """A closed fact as it was chosen, a figure or a word invented."""
    chosen = facts.get(fact.name, "")
    if chosen == "unknown" or (fact.may_be_unknown and not (manner.knows or fact.closed)):
        return "unknown"
    return chosen if chosen in fact.closed else driver.told(fact, {})


def decision(step: Step, state: State, manner: Manner) -> str:
    """What is decided: what the manner wants at its step, elsewhere what ends the loop."""
    may_be = offered(step, state)
    wants = (manner.decides,) if manner.at in ("", step.name) else ()
    order = (*wants, "accept", "another-round", "stop")
    return next(each for each in order if each in may_be)


def read(state: State, step: Step, manner: Manner) -> dict[str, Any]:
    """Readings that are off as often as the manner has it, true afterwards."""
    told = driver.read(state, step, driver.NEVER_OUT)
    read_before = sum(event_has_readings(entry.data) for entry in state.entries)
    if read_before >= manner.out:
        return told
    per_inch, places = (1.0, 4) if unit_of(state) == "in" else (25.4, 3)
    off = manner.off_by * per_inch
    if "values" in told:
        around = (cos(radians(float(each))) for each in told["angles"])
        return {**told, "values": [f"{off * each - off:.{places}f}" for each in around]}
    name = next(each for each in ("far", "pulled", "value") if each in told)
    return {**told, name: f"{off:.{places}f}"}


def event_has_readings(data: Mapping[str, Any]) -> bool:
    """Whether an entry is one of readings."""
    return any(name in data for name in ("values", "far", "pulled", "value"))


def main(*names: str) -> int:
    """Walk and say."""
    left = 0
    for name in names or tuple(path.stem for path in shipped_files()):
        procedure = find(name)
        told = covered(procedure)
        steps, ways = len(procedure.steps), len(told.ways)
        print(f"{name}: {steps - len(told.steps)} of {steps} steps, {ways - len(told.left)} of"
              f" {ways} ways on, {told.walks} walks",
              *sorted(told.steps), *sorted(told.left), flush=True)  # fmt: skip
        left += len(told.steps) + len(told.left)
    return min(left, 1)


if __name__ == "__main__":
    raise SystemExit(main(*sys.argv[1:]))
