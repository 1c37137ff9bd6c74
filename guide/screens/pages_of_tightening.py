"""The form of a tightening."""

from __future__ import annotations

from guide.front.tightening import passes, tightening, torque_trouble
from guide.procedure.model import Step
from guide.screens.steps.tightening import TighteningForm
from guide.walk.state import State


def tightening_form(step: Step, state: State) -> TighteningForm:
    """Order, stages, and for a torque what was given before."""
    told = tightening(step, state)
    return TighteningForm(told, lambda typed: passes(step, state, typed), torque_trouble)
