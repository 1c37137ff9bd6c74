"""Which form a place of the walk has, filled with plain values."""

from __future__ import annotations

from collections.abc import Mapping

from guide.plain import N_, Refusal
from guide.present.questions import (
    answers_to,
    asks,
    before_safe,
    hangs_where,
    instruction,
    wrench_rule,
)
from guide.present.visible import visible
from guide.present.words import refused
from guide.procedure.model import Fact, Procedure, Step
from guide.screens.steps.besides import EndForm, SafeActionForm, WaitingForm
from guide.screens.steps.facts import FactsForm, Question
from guide.screens.steps.form import Form
from guide.screens.steps.gate import Check, GateForm
from guide.screens.steps.making_sure import Look, LookForm
from guide.screens.steps.task import TaskForm
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Option
from guide.walk.answers import accepted
from guide.walk.flow import looks
from guide.walk.looking import ASKED, answers
from guide.walk.making_safe import Wanted, wanted_to_safe
from guide.walk.recording import checks_of
from guide.walk.remembered import filled_in, left_by_the_last
from guide.walk.state import MADE_SAFE, MAKING_SAFE, MAKING_SURE, PAUSED, State
from guide.walk.world import value, with_values


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
        return _making_safe(wanted_to_safe(state.world, state.facts))
    if state.place in (PAUSED, MADE_SAFE):
        return WaitingForm(_hangs(state))
    return EndForm(_hangs(state))


def _task(procedure: Procedure, step: Step, state: State) -> Form:
    """Nothing to fill in."""
    return TaskForm()


def _gate(procedure: Procedure, step: Step, state: State) -> Form:
    """Every check, for each person where it is asked so."""
    return GateForm(
        [
            Check(visible(check.say), visible(check.hazard), visible(check.look), visible(person))
            for check, person in checks_of(step, state)
        ]
    )


def _making_safe(wanted: Wanted) -> Form:
    """The next action, or the gate before it."""
    if wanted.trigger == "done":
        return SafeActionForm(wanted.action)
    lines = before_safe(wanted)
    checks = [Check(say(each.say), say(each.hazard), say(each.look)) for each in lines]
    return GateForm(checks, extra={"action": wanted.action})


def _facts(procedure: Procedure, step: Step, state: State) -> Form:
    """Every question, with what was answered before."""
    facts = [procedure.facts[name] for name in step.ask]
    return FactsForm(
        [question(fact, filled_in(fact, state)) for fact in facts],
        lambda name, text: trouble(procedure.facts[name], text),
    )


def question(fact: Fact, given: str = "") -> Question:
    """One fact as it is asked."""
    return Question(
        fact.name,
        visible(fact.ask),
        visible(fact.help),
        options(fact),
        fact.may_be_unknown and not fact.closed,
        given,
    )


def options(fact: Fact) -> tuple[Option, ...]:
    """The answers of a closed fact in words, and `unknown` where it is allowed."""
    if not fact.closed:
        return ()
    yes_no = {"yes": say(N_("yes")), "no": say(N_("no"))}
    told = [(each, visible(fact.of.get(each) or yes_no.get(each, each))) for each in fact.closed]
    if fact.may_be_unknown and "unknown" not in fact.closed:
        told.append(("unknown", say(N_("not known here"))))
    return tuple(told)


def trouble(fact: Fact, text: str) -> str:
    """What is wrong with an answer, as a sentence; blank when nothing is."""
    try:
        accepted(fact, text)
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def look_form(state: State, trigger: str) -> LookForm:
    """Every variable by looking; what is recorded last is shown and nothing is chosen."""

    def seen_under(power: str) -> Mapping[str, tuple[Option, ...]]:
        powered = with_values(state.world, {"power": power or "unknown"})
        return {
            name: tuple(
                (each, say(answers_to(name, each)))
                for each in answers(name, state.world if name == "power" else powered, state.facts)
            )
            for name in ASKED
        }

    def rule(power: str) -> str:
        if not power:
            return say(N_("First the power: it decides whether a wrench may be put on anything."))
        return say(wrench_rule(with_values(state.world, {"power": power})))

    return LookForm(
        [Look(name, say(asks(name)), _recorded(state, name)) for name in ASKED],
        seen_under,
        rule,
        trigger,
    )


def _recorded(state: State, name: str) -> str:
    """What was recorded last of a variable; blank for nothing."""
    last = value(state.world, name)
    last = left_by_the_last(name, state) if last == "unknown" else last
    return "" if last == "unknown" else say(answers_to(name, last))


def _hangs(state: State) -> tuple[tuple[str, str], ...]:
    """How the lathe stands by the record."""
    return tuple(
        (say(asks(name)), say(answers_to(name, each))) for name, each in hangs_where(state.world)
    )


def safe_title(state: State) -> str:
    """What the next thing is on the way to made safe."""
    return say(instruction(wanted_to_safe(state.world, state.facts).action))
