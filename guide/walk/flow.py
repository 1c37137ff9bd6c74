"""What a step does to the machine and where the walk may go from it.

The one idea of the order of steps: the state machine, the landing after making sure and the proof
all ask here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guide.plain import N_, NotAllowed
from guide.procedure.condition import Condition, condition
from guide.procedure.model import Doing, Procedure, Step
from guide.procedure.problem import Place
from guide.walk.world import (
    FINISHED,
    Facts,
    Test,
    World,
    all_hold,
    changed,
    do,
    no_test,
    ready,
)

LOOK = "look"
"""The action that records what is seen: the whole machine state, one variable a line."""


def _doings(*lines: str) -> tuple[Doing, ...]:
    """Built-in actions, written as in a procedure."""
    parts = (line.partition(" if ") for line in lines)
    return tuple(Doing(a, condition(c) if c else None, Place()) for a, _, c in parts)


BUILT_IN = {
    "correction": _doings(
        "fit screw-key if not chuck-kind=independent and screw-key=out",
        "screws turn if not chuck-kind=independent",
        "remove screw-key if not chuck-kind=independent",
        "fit chuck-key if chuck-kind=independent and chuck-key=out",
        "jaws shift if chuck-kind=independent",
        "remove chuck-key if chuck-kind=independent",
    ),
    "ease": _doings("fit spanner if spanner=out", "bolts ease if bolts=tight", "remove spanner"),
    "snug": _doings("fit spanner if spanner=out", "bolts snug if bolts=caught", "remove spanner"),
    "torque": _doings("fit spanner if spanner=out", "bolts tighten", "remove spanner"),
    "check": _doings("fit spanner if spanner=out", "bolts tighten", "remove spanner"),
    "touch": _doings(
        "fit screw-key if screw-key=out", "screws touch if screws=free", "remove screw-key"
    ),
    "nip": _doings(
        "fit screw-key if screw-key=out", "screws nip if screws=touching", "remove screw-key"
    ),
}
"""What corrections and tightenings do: the key or spanner goes in, and comes out every time."""


STOP_AND_ISOLATE = _doings("stop", "isolate")
"""From restored power a pause is stop, isolate, then pause."""


def doings(step: Step) -> tuple[Doing, ...]:
    """What a step does, its own or what is built into its kind."""
    if step.kind == "correction":
        return BUILT_IN["correction"]
    if step.kind == "tightening":
        return BUILT_IN.get(step.tighten, ())
    if step.kind == "gate":
        return tuple(Doing(each.sets, None, each.place) for each in step.checks if each.sets)
    return step.does


def may_deviate(step: Step) -> bool:
    """Whether a step may be recorded as not done as written: a task, never a gate or a look."""
    return step.kind == "task" and not looks(step)


def looks(step: Step) -> bool:
    """Whether the step records what is seen."""
    return any(doing.action == LOOK for doing in step.does)


def carry_out(actions: Iterable[Doing], world: World, facts: Facts) -> World:
    """The world after some actions in order; raises `NotAllowed` at the first that may not be."""
    for doing in actions:
        if doing.only_if is None or ready(doing.only_if)(world, facts, no_test):
            world = do(doing.action, world, facts)
    return world


def performed(actions: Iterable[Doing], world: World, facts: Facts) -> tuple[str, ...]:
    """The names of the actions that are really done, in order."""
    names = []
    for doing in actions:
        if doing.only_if is None or ready(doing.only_if)(world, facts, no_test):
            names.append(doing.action)
            world = do(doing.action, world, facts)
    return tuple(names)


def confirm(step: Step, world: World, facts: Facts) -> None:
    """A gate's check may agree with the machine state, never change it."""
    for check in step.checks:
        if check.confirms and not ready(check.confirms)(world, facts, no_test):
            raise NotAllowed(
                N_("The gate “{title}” stays shut: it needs {needs}, and that is not so."),
                N_("Go back to the step that makes that true."),
                title=step.title,
                needs=check.confirms.text,
            )


def require(step: Step, world: World, facts: Facts) -> None:
    """A step's own needs, and for handing over what `finished` means."""
    wanted = (*step.needs, *(FINISHED if step.kind == "sign-off" else ()))
    if not all_hold(wanted, world, facts):
        unmet = "; ".join(c.text for c in wanted if not ready(c)(world, facts, no_test))
        raise NotAllowed(
            N_("“{title}” cannot be done yet: it needs {needs}."),
            N_("Go back to the step that makes that true."),
            title=step.title,
            needs=unmet,
        )


def world_after(step: Step, world: World, facts: Facts, moved: bool = True) -> World:
    """The world after a step; a correction left alone moves nothing."""
    require(step, world, facts)
    confirm(step, world, facts)
    if step.kind == "correction" and not moved:
        return world
    if looks(step):
        return world
    world = carry_out(doings(step), world, facts)
    return changed(world, gate=step.opens) if step.opens else world


@dataclass(frozen=True, slots=True)
class Exit:
    """One way on: taken when all its conditions hold."""

    conditions: tuple[Condition, ...]
    to: str


def exits(procedure: Procedure, step: Step) -> Iterator[Exit]:
    """Every way on from a step, in the order in which they are tried."""
    for branch in step.go:
        held = (branch.condition,) if branch.condition else ()
        yield from _entries(procedure, branch.to, held)
        if not branch.condition:
            return
    yield from _from(procedure, procedure.order[step.name] + 1, ())


def _entries(procedure: Procedure, name: str, held: tuple[Condition, ...]) -> Iterator[Exit]:
    """Into a named step, or past it where its `when` does not hold."""
    if name in procedure.order:
        yield from _from(procedure, procedure.order[name], held)
    else:
        yield Exit(held, name)


def _from(procedure: Procedure, number: int, held: tuple[Condition, ...]) -> Iterator[Exit]:
    """The first step from a number on whose `when` holds."""
    for step in procedure.steps[number:]:
        if step.when is None:
            yield Exit(held, step.name)
            return
        yield Exit((*held, step.when), step.name)
    yield Exit(held, "finished")


def next_place(procedure: Procedure, step: Step, world: World, facts: Facts, test: Test) -> str:
    """Where the walk goes from a step."""
    return taken(exits(procedure, step), world, facts, test)


def taken(ways: Iterable[Exit], world: World, facts: Facts, test: Test) -> str:
    """Where the first way leads whose conditions all hold; there always is one."""
    for way in ways:
        for each in way.conditions:
            if not ready(each)(world, facts, test):
                break
        else:
            return way.to
    raise KeyError


def first_place(procedure: Procedure, world: World, facts: Facts, test: Test) -> str:
    """Where a walk begins."""
    for way in _from(procedure, 0, ()):
        if all(ready(each)(world, facts, test) for each in way.conditions):
            return way.to
    raise KeyError(procedure.name)
