"""The forms at the dial: play, along a bar, one screw, a turn, and the correction that follows."""

from __future__ import annotations

from collections.abc import Sequence

from guide.front.correction import advice, nothing_to_turn, screws_moved
from guide.front.turn import (
    move_doubt,
    pair_doubt,
    plain_turn,
    reading_doubt,
    reading_trouble,
    rolls_here,
    turn_at,
)
from guide.measure.numerals import parse_number
from guide.plain import Refusal
from guide.present.sweep import sweep
from guide.procedure.model import Step
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.form import Form
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import AlongForm, PairForm, PlayForm
from guide.walk.advised import next_screw
from guide.walk.figures import unit_of
from guide.walk.state import State


def high_spot(angles: Sequence[str], values: Sequence[str]) -> float | None:
    """The high spot of the readings so far, in degrees; None while it cannot be told."""
    try:
        numbers = [float(parse_number(each)) for each in values]
    except Refusal:
        return None
    return sweep([float(each) for each in angles], numbers).high


def readings_form(step: Step, state: State) -> Form:
    """Play, along a bar, one screw, or a turn."""
    if step.take == "play":
        return PlayForm(unit_of(state), reading_trouble)
    if step.take == "along":
        return AlongForm(unit_of(state), reading_trouble)
    if step.take == "pair":
        return PairForm(next_screw(state), plain_turn(state), pair_doubt(state))
    turn, rolls = turn_at(step, state), rolls_here(state)
    return TurnForm(turn, reading_trouble, high_spot, reading_doubt, rolls)


def correction_form(state: State) -> Form:
    """The move at the screw just read."""
    turn, screws = plain_turn(state), screws_moved(state)
    return CorrectionForm(advice(state), nothing_to_turn(state), turn, screws, move_doubt(state))
