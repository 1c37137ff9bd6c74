"""What a procedure names that the table, its facts or the branch tests do not have."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.procedure.condition import Condition
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Place, Problem, problem
from guide.walk.branch_tests import DECIDED, MEANS
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
        yield from _unfit(step)
    if procedure.steps and procedure.steps[-1].kind != "sign-off":
        last = procedure.steps[-1]
        yield problem(last.place, N_("the last step must be a sign-off"), last.name)
    yield from _shadowed(procedure)
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


def _unfit(step: Step) -> Iterator[Problem]:
    """What is written well and means less, or more, than its author thought."""
    names = [doing.action for doing in step.does]
    if LOOK in names and (len(names) > 1 or step.kind != "task" or step.does[0].only_if):
        yield problem(
            step.places.get("does", step.place),
            N_("`look` stands alone in a task: what is seen is recorded before anything is done"),
            step.name,
        )
    if step.kind == "readings" and "read" not in names:
        yield problem(step.place, N_("a readings step does `read`, or nothing is read"), step.name)
    if step.kind == "readings" and not step.serves_as:
        yield problem(step.place, N_("`serves-as` is missing"), step.name)
    if step.kind == "verdict" and "stop" not in step.decisions:
        yield problem(
            step.places.get("decisions", step.place),
            N_("a verdict offers `stop`: whoever is at the lathe can always stop"),
            step.name,
        )
    for branch in step.go:
        for term in branch.condition.terms if branch.condition else ():
            if step.kind == "verdict" and _never_decided(term.name, step):
                yield problem(
                    branch.place,
                    N_("`{name}` is tested and the verdict does not offer it"),
                    step.name,
                    name=term.name,
                )
    if step.opens == "power" and not any(check.each_person for check in step.checks):
        yield problem(
            step.place,
            N_("a gate that opens power asks each person's lock (`each-person: yes`)"),
            step.name,
        )


def _never_decided(name: str, step: Step) -> bool:
    """Whether a branch test asks for a decision that the verdict does not offer."""
    return name in DECIDED and DECIDED[name] not in step.decisions


def _shadowed(procedure: Procedure) -> Iterator[Problem]:
    """A fact named like a variable or a branch test, or tested before it can have been asked."""
    asked: set[str] = set()
    for fact in procedure.facts.values():
        if fact.name in VARIABLES or fact.name in MEANS:
            yield problem(
                fact.place, N_("a variable or branch test has this name already"), fact.name
            )
    for step in procedure.steps:
        entered = (step.when,) if step.when else ()
        for term in (t for c in (*entered, *step.needs) for t in c.terms):
            if term.name in procedure.facts and term.name not in asked:
                yield problem(
                    step.place,
                    N_("the fact `{name}` is looked at before any step has asked it"),
                    step.name,
                    name=term.name,
                )
        asked |= set(step.ask)


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
