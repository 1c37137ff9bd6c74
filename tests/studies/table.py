"""The whole table walked: every state, every nose; run by hand.

    PYTHONPATH=tests/walk .venv/bin/python tests/studies/table.py

Prints, for each nose and support, how many machine states there are, how many actions lead from
one without a danger named by hand into one with it (must be none), how many states of any kind can
be made safe by the fixed order of `guide.walk.making_safe` and in at most how many actions, and how
many of the made-safe ones can be finished. Minutes of running; `tests/walk/test_table.py` walks the
part that is reached from a lathe as found.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from time import perf_counter

import by_hand
import set_aside

from guide.cli.progress import Progress
from guide.plain import Refusal
from guide.walk.making_safe import next_to_safe, wanted_to_safe
from guide.walk.world import TABLE_FACTS, Facts, World, after, changed, do, finished, may, value

FINISHING = (
    "remove indicator", "fit chuck-key", "release bar", "close jaws", "remove chuck-key",
    "clear away", "shut guard", "set controls neutral",
)  # fmt: skip
LONGEST = 80
"""Acts, gates counted too, after which a way counts as one that goes round."""


@dataclass
class Counted:
    """What is counted under one set of facts."""

    states: int = 0
    sound: int = 0
    led: list[tuple[str, str]] = field(default_factory=list)
    stuck: list[World] = field(default_factory=list)
    longest: int = 0
    safe: int = 0
    unfinished: int = 0


def every_state() -> Iterator[World]:
    """Every state of the core, with what can be put right at its worst and at its best."""
    for world in set_aside.every_world(set_aside.CORE):
        yield changed(
            world, controls="other", small_things="about", guard="open", bystanders="near",
            dressed="other", swing="not", reads="none", series="none", result="none", gate="none",
        )  # fmt: skip


def dangers_led_into(table: set_aside.Reduced, counted: Counted) -> None:
    """Every action from every state without a danger."""
    looked: dict[int, set[str]] = {}

    def dangers(state: int) -> set[str]:
        if state not in looked:
            looked[state] = by_hand.dangers(set_aside.told(state))
        return looked[state]

    for world in set_aside.every_world(set_aside.CORE):
        state = table.encode(world)
        counted.states += 1
        if not dangers(state):
            counted.sound += 1
            onward = table.onward(state)
            counted.led += [(act, each) for act, new in onward for each in dangers(new)]


def ways_to_safe(facts: Facts, counted: Counted) -> set[World]:
    """Follow the way to made safe from every state; the made-safe ones that it arrives at."""
    steps: dict[World, int | None] = {}
    safe: set[World] = set()
    for start in every_state():
        world, chain = start, list[tuple[World, int]]()
        while world not in steps and len(chain) < LONGEST:
            if next_to_safe(world, facts) is None:
                steps[world] = 0
                safe.add(world)
                break
            wanted = wanted_to_safe(world, facts)
            acts = wanted.trigger == "done"
            chain.append((world, acts))
            try:
                world = do(wanted.action, world, facts) if acts else wanted.through(world, facts)
            except Refusal:
                break
        length = steps.get(world)
        for passed, acted in reversed(chain):
            length = None if length is None else length + acted
            steps[passed] = length
        counted.stuck += [start] if steps[start] is None else []
        counted.longest = max(counted.longest, steps[start] or 0)
    counted.safe = len(safe)
    return safe


def can_be_finished(world: World, facts: Facts) -> bool:
    """Breadth first over the actions that put away."""
    seen, todo = {world}, [world]
    for here in todo:
        if finished(here, facts):
            return True
        onward = {after(each, here, facts) for each in FINISHING if may(each, here, facts)}
        todo += onward - seen
        seen |= onward
    return False


def study(nose: str, turns: str) -> Counted:
    """Everything under one nose and one kind of support."""
    facts = {
        "nose": nose, "support-turns": turns, "guard-fitted": "yes", "chuck-kind": "independent",
    }  # fmt: skip
    counted = Counted()
    dangers_led_into(set_aside.Reduced(facts, set_aside.CORE), counted)
    safe = ways_to_safe(facts, counted)
    counted.unfinished = sum(not can_be_finished(world, facts) for world in safe)
    assert all(value(world, "power") == "isolated" for world in safe)
    return counted


if __name__ == "__main__":
    wanted = [*product(TABLE_FACTS["nose"], TABLE_FACTS["support-turns"])]
    progress = Progress(len(wanted))
    for nose, turns in wanted:
        began = perf_counter()
        c = study(nose, turns)
        progress.clear()
        print(
            f"{nose}, support turns {turns}: {c.states} states, {c.sound} without danger, "
            f"{len(c.led)} led into one; {len(c.stuck)} not made safe, longest way {c.longest} "
            f"actions; {c.safe} made safe, {c.unfinished} not finished; "
            f"{perf_counter() - began:.0f} s",
            flush=True,
        )
        progress.add(1)
