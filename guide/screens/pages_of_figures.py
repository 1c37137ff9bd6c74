"""The forms that measure: readings, corrections, tightenings, verdicts and the sign-off."""

from __future__ import annotations

from guide.front.results import summary
from guide.procedure.model import Procedure, Step
from guide.screens.pages_of_readings import correction_form, readings_form
from guide.screens.pages_of_results import verdict_form
from guide.screens.pages_of_tightening import tightening_form
from guide.screens.steps.form import Form
from guide.screens.steps.sign_off import SignOffForm
from guide.walk.state import State


def figures_form(procedure: Procedure, step: Step, state: State) -> Form:
    """The form of a step that measures, judges or hands over."""
    if step.kind == "readings":
        return readings_form(step, state)
    if step.kind == "correction":
        return correction_form(state)
    if step.kind == "tightening":
        return tightening_form(step, state)
    if step.kind == "verdict":
        return verdict_form(step, state)
    return SignOffForm(summary(state), state.people[-1:])
