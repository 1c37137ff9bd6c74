"""The conditions written in a procedure, and the closed facts that they look at."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from guide.procedure.condition import Condition, Term
from guide.procedure.model import Fact, Procedure, Step
from guide.procedure.problem import Place
from guide.walk.world import TABLE_FACTS, Facts

LOOKED_AT = ("on-nose", "plate")
"""Facts that say what a lathe is like as found, whether or not a condition names them."""


def closed_facts(procedure: Procedure) -> Iterator[Facts]:
    """Every combination of the closed facts that a branch, a need or the table looks at.

    A fact whose asking step is never entered under the others stays unanswered.
    """
    used = {term.name for each in conditions(procedure) for term in each.terms}
    used |= {*TABLE_FACTS, *LOOKED_AT}
    names = [name for name, fact in procedure.facts.items() if fact.closed and name in used]
    given: set[frozenset[tuple[str, str]]] = set()
    for combination in product(*(_answers(procedure.facts[name]) for name in names)):
        facts = dict(zip(names, combination, strict=True))
        told = {name: each for name, each in facts.items() if _asked(procedure, name, facts)}
        if frozenset(told.items()) not in given:
            given.add(frozenset(told.items()))
            yield told


def _answers(fact: Fact) -> tuple[str, ...]:
    """Everything that may be answered, `unknown` where that is allowed."""
    unknown = ("unknown",) if fact.may_be_unknown and "unknown" not in fact.closed else ()
    return (*fact.closed, *unknown)


def _asked(procedure: Procedure, name: str, facts: Facts) -> bool:
    """Whether some step that asks a fact can be entered, as far as other facts decide it."""
    return any(
        step.when is None or any(_facts_allow(terms, facts) for terms in step.when.either)
        for step in procedure.steps
        if name in step.ask
    )


def _facts_allow(terms: tuple[Term, ...], facts: Facts) -> bool:
    """Whether no fact named in an alternative speaks against it."""
    return all((facts[t.name] in t.values) is not t.negated for t in terms if t.name in facts)


def conditions(procedure: Procedure) -> Iterator[Condition]:
    """Every condition written in a procedure."""
    for step in procedure.steps:
        yield from (c for c, _ in placed_conditions(step))


def placed_conditions(step: Step) -> Iterator[tuple[Condition, Place]]:
    """A step's conditions with their places."""
    if step.when:
        yield step.when, step.places.get("when", step.place)
    yield from ((need, step.places.get("needs", step.place)) for need in step.needs)
    yield from ((b.condition, b.place) for b in step.go if b.condition)
    yield from ((d.only_if, d.place) for d in step.does if d.only_if)
    yield from ((d.only_if, d.place) for d in step.again or () if d.only_if)
    yield from ((c.confirms, c.place) for c in step.checks if c.confirms)
