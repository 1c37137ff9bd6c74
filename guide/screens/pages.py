"""Which form a place of the walk has, filled with plain values."""

from __future__ import annotations

from functools import partial

from guide.front.looks import how_it_stands, looks_of, rule_under, seen_under
from guide.front.questions import at_this_step, trouble
from guide.present.gate_text import of_check, of_confirming
from guide.present.questions import (
    before_safe,
    instruction,
)
from guide.procedure.model import Procedure, Step
from guide.screens.steps.besides import EndForm, SafeActionForm, WaitingForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.steps.gate import GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.task import TaskForm
from guide.screens.tongue import say
from guide.walk.flow import looks
from guide.walk.going_on import goes_on_to
from guide.walk.making_safe import Wanted, wanted_to_safe
from guide.walk.recording import checks_of
from guide.walk.state import MADE_SAFE, MAKING_SAFE, MAKING_SURE, PAUSED, State


def form_for(procedure: Procedure, state: State) -> Form:
    """The form of the present place."""
    step = procedure.by_name.get(state.place)
    if step is None:
        return _besides(state)
    if looks(step):
        return look_form(state, "done")
    if step.kind in ("task", "gate", "facts"):
        return {"task": _task, "gate": _gate, "facts": _facts}[step.kind](procedure, step, state)
    from guide.screens.pages_of_figures import figures_form

    return figures_form(procedure, step, state)


def _besides(state: State) -> Form:
    """Making sure, paused, made safe, being made safe, or an end."""
    if state.place == MAKING_SURE:
        return look_form(state, "record")
    if state.place == MAKING_SAFE:
        return _making_safe(wanted_to_safe(state.world, state.facts, tries=state.tries))
    if state.place in (PAUSED, MADE_SAFE):
        return WaitingForm(how_it_stands(state))
    real = state.opening.get("mode") == "real"
    return EndForm(how_it_stands(state), leads_on=real and bool(goes_on_to(state)))


def _task(procedure: Procedure, step: Step, state: State) -> Form:
    """Nothing to fill in."""
    return TaskForm()


def _gate(procedure: Procedure, step: Step, state: State) -> Form:
    """Every check, for each person where it is asked so."""
    return GateForm([of_check(check, person) for check, person in checks_of(step, state)])


def _making_safe(wanted: Wanted) -> Form:
    """The next action, or the gate before it."""
    if wanted.trigger == "done":
        return SafeActionForm(wanted.action)
    checks = [of_confirming(each) for each in before_safe(wanted)]
    return GateForm(checks, extra={"action": wanted.action})


def _facts(procedure: Procedure, step: Step, state: State) -> Form:
    """Every question, with what was answered before."""
    facts = [procedure.facts[name] for name in step.ask]
    return FactsForm(
        [at_this_step(fact, state, procedure) for fact in facts],
        lambda name, text: trouble(procedure.facts[name], text),
    )


def look_form(state: State, trigger: str) -> LookForm:
    """Every variable by looking; what is recorded last is shown and nothing is chosen."""
    return LookForm(
        looks_of(state), partial(seen_under, state), partial(rule_under, state), trigger
    )


def safe_title(state: State) -> str:
    """What the next thing is on the way to made safe."""
    return say(instruction(wanted_to_safe(state.world, state.facts, tries=state.tries).action))
