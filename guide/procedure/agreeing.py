"""Whether the steps and facts of one procedure, its parts written in, fit each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guide.plain import N_
from guide.procedure.model import Fact, Step
from guide.procedure.problem import Problem, problem


def disagreeing(facts: Mapping[str, Fact], steps: tuple[Step, ...], file: str) -> Iterator[Problem]:
    """A name that two steps share, a branch that leads nowhere, a fact not asked or described."""
    yield from _names_shared(steps, file)
    yield from _targets_missing(steps)
    yield from _facts_missing(facts, steps)


def otherwise_described(first: Fact, second: Fact, file: str) -> Problem:
    """One name means one thing, in a procedure and in all of its parts."""
    return problem(
        second.place,
        N_("the fact `{name}` is described otherwise in {there} on line {line}"),
        name=first.name,
        there=first.place.file or file,
        line=first.place.line,
    )


def _names_shared(steps: tuple[Step, ...], file: str) -> Iterator[Problem]:
    """No two steps share a name."""
    on_line = N_("a step of this name stands already on line {line}")
    in_file = N_("a step of this name stands already in {there} on line {line}")
    seen: dict[str, Step] = {}
    for step in steps:
        first = seen.setdefault(step.name, step)
        if first is not step:
            here = first.place.file == step.place.file
            there, line = first.place.file or file, first.place.line
            sentence = on_line if here else in_file
            yield problem(step.place, sentence, step.name, there=there, line=line)


def _targets_missing(steps: tuple[Step, ...]) -> Iterator[Problem]:
    """Every branch leads to a step that is there; a part's may lead out of it."""
    names = {step.name for step in steps} | {"abandoned"}
    for step in steps:
        for branch in step.go:
            if branch.to not in names:
                yield problem(branch.place, N_("there is no step `{to}`"), step.name, to=branch.to)


def _facts_missing(facts: Mapping[str, Fact], steps: tuple[Step, ...]) -> Iterator[Problem]:
    """Every fact that a step asks is described, and every fact described is asked."""
    for step in steps:
        for name in step.ask:
            if name not in facts:
                yield problem(
                    step.places.get("ask", step.place),
                    N_("the fact `{name}` is asked and not described under `facts`"),
                    step.name,
                    name=name,
                )
    asked = {name for step in steps for name in step.ask}
    for fact in facts.values():
        if fact.name not in asked:
            yield problem(fact.place, N_("the fact `{name}` is never asked"), name=fact.name)
