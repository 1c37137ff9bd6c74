"""The form of a verdict."""

from __future__ import annotations

from guide.front.results import advised, decisions, results
from guide.procedure.model import Step
from guide.screens.steps.verdict import VerdictForm
from guide.walk.state import State


def verdict_form(step: Step, state: State) -> VerdictForm:
    """The results that are judged here and the decisions that are open."""
    return VerdictForm(results(step, state), decisions(step, state), advised(step, state))
