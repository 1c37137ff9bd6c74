"""Loops of steps, and whether each has a way out that a count or a person's decision opens."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Place, Problem, problem
from guide.walk.branch_tests import WAYS_OUT
from guide.walk.flow import Exit, exits


def endless(procedure: Procedure) -> Iterator[Problem]:
    """Every loop of steps is gone round for a reason: a count, or a person's decision.

    Ways that such a test opens are taken out; what is left may not come back on itself.
    """
    onward = {
        step.name: [way.to for way in exits(procedure, step) if not _reasoned(way)]
        for step in procedure.steps
    }
    for ring in _rings(onward):
        step, place = _way_back(procedure, ring)
        yield problem(
            place,
            N_(
                "the loop {ring} has no reasoned way out: `if` at the way back has to ask a count"
                " or what a person decided at a verdict ({tests})"
            ),
            step.name,
            ring=" → ".join(sorted(ring, key=procedure.order.__getitem__)),
            tests=", ".join(sorted(WAYS_OUT)),
        )


def come_round(procedure: Procedure) -> frozenset[str]:
    """The steps that a walk can come back to by going on."""
    onward = {step.name: [way.to for way in exits(procedure, step)] for step in procedure.steps}
    return frozenset(name for ring in _rings(onward) for name in ring)


def _way_back(procedure: Procedure, ring: set[str]) -> tuple[Step, Place]:
    """The last step of a loop that is written to go back in it, and where that is written."""
    order = procedure.order
    found = [
        (order[step.name], branch.place, step)
        for step in (procedure.by_name[name] for name in ring)
        for branch in step.go
        if branch.to in ring and order[branch.to] <= order[step.name]
    ]
    _, place, step = max(found, key=lambda each: (each[0], each[1].line))
    return step, place


def _reasoned(way: Exit) -> bool:
    """Whether every alternative of some condition asks for a count or a decision."""
    return any(
        all(any(t.name in WAYS_OUT and not t.negated for t in terms) for terms in each.either)
        for each in way.conditions
    )


def _rings(onward: dict[str, list[str]]) -> Iterator[set[str]]:
    """The strongly connected sets of steps that are loops (Tarjan's algorithm, iterative)."""
    number: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    for root in onward:
        if root in number:
            continue
        todo = [(root, iter(onward[root]))]
        number[root] = low[root] = len(number)
        stack.append(root)
        while todo:
            here, ways = todo[-1]
            for each in ways:
                if each not in onward:
                    continue
                if each not in number:
                    number[each] = low[each] = len(number)
                    stack.append(each)
                    todo.append((each, iter(onward[each])))
                    break
                if each in stack:
                    low[here] = min(low[here], number[each])
            else:
                todo.pop()
                if todo:
                    low[todo[-1][0]] = min(low[todo[-1][0]], low[here])
                if low[here] == number[here]:
                    ring = set()
                    while (each := stack.pop()) != here:
                        ring.add(each)
                    ring.add(here)
                    if len(ring) > 1 or here in onward[here]:
                        yield ring
