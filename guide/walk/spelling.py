"""What a procedure names that the table, its facts or the branch tests do not have."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.procedure.condition import Condition
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Place, Problem, problem
from guide.walk.branch_tests import MEANS
from guide.walk.closed import placed_conditions
from guide.walk.flow import LOOK
from guide.walk.table import DRESSING
from guide.walk.world import ACTIONS, TABLE_FACTS, VARIABLES


def misspelled(procedure: Procedure) -> Iterator[Problem]:
    """Unknown actions, variables, facts, values and tests, each with its line."""
    for step in procedure.steps:
        for doing in (*step.does, *(step.again or ())):
            if doing.action not in ACTIONS and doing.action != LOOK:
                yield problem(
                    doing.place,
                    N_("`{action}` is not an action of the table"),
                    step.name,
                    action=doing.action,
                )
            elif ACTIONS.get(doing.action) and doing.action in DRESSING:
                yield problem(
                    doing.place,
                    N_("`{action}` is a gate's to confirm, not a step's to do"),
                    step.name,
                    action=doing.action,
                )
        for wanted, place in placed_conditions(step):
            yield from _terms(procedure, step, wanted, place)
    if procedure.steps and procedure.steps[-1].kind != "sign-off":
        last = procedure.steps[-1]
        yield problem(last.place, N_("the last step must be a sign-off"), last.name)
    for name, values in TABLE_FACTS.items():
        fact = procedure.facts.get(name)
        if fact and not set(fact.closed) <= set(values):
            yield problem(
                fact.place,
                N_("the fact {name} may only be {values}"),
                name,
                name=name,
                values=", ".join(values),
            )


def _terms(procedure: Procedure, step: Step, wanted: Condition, place: Place) -> Iterator[Problem]:
    """The terms of one condition."""
    for term in wanted.terms:
        known = VARIABLES.get(term.name) or (
            procedure.facts[term.name].closed if term.name in procedure.facts else ()
        )
        if term.values and not term.values <= set(known):
            yield problem(
                place,
                N_("`{text}` names a variable, fact or value that is not known"),
                step.name,
                text=wanted.text,
            )
        if not term.values and term.name not in MEANS:
            yield problem(place, N_("`{name}` is not a branch test"), step.name, name=term.name)
