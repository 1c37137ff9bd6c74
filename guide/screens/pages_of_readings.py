"""The forms at the dial: play, one screw, a turn, and the correction that follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guide.measure.angles import of_screw
from guide.measure.numerals import parse_number
from guide.measure.truing.asked import Why
from guide.plain import N_, Refusal
from guide.present.chuck_face import WAYS, allowed_counts, screw_marks
from guide.present.nouns import in_jaws, named
from guide.present.numbers import figure
from guide.present.sweep import sweep
from guide.present.words import refused
from guide.procedure.model import Step
from guide.screens.recorded_words import reason
from guide.screens.steps.correction import Advice, CorrectionForm
from guide.screens.steps.form import Form
from guide.screens.steps.readings import Turn, TurnForm
from guide.screens.steps.readings_play import PairForm, PlayForm
from guide.screens.tongue import language, say
from guide.walk.advised import (
    knows_aim,
    next_move,
    next_screw,
    planned,
    said_before,
)
from guide.walk.figures import rolls_over, screws_of, unit_of
from guide.walk.recording import TURNS_ON_THE_BAR
from guide.walk.state import State

JAWS = 3
"""Jaws of an adjustable chuck."""


def reading_trouble(typed: str) -> str:
    """What is wrong with a reading as typed; blank when nothing is."""
    if not typed:
        return say(N_("Nothing is typed yet. Type what the dial shows."))
    try:
        parse_number(typed)
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def reading_doubt(values: Sequence[str], typed: str) -> str:
    """Why a value beside the others may be a slip of the point; blank when it may well be so."""
    from guide.measure.numerals import suspicious

    doubt = suspicious([parse_number(each) for each in values], parse_number(typed))
    return refused(doubt, language()) if doubt else ""


def high_spot(angles: Sequence[str], values: Sequence[str]) -> float | None:
    """The high spot of the readings so far, in degrees; None while it cannot be told."""
    try:
        numbers = [float(parse_number(each)) for each in values]
    except Refusal:
        return None
    return sweep([float(each) for each in angles], numbers).high


def readings_form(step: Step, state: State) -> Form:
    """Play, one screw, or a turn."""
    if step.take == "play":
        return PlayForm(unit_of(state), reading_trouble)
    if step.take == "pair":
        return PairForm(next_screw(state), _turn(state), reading_trouble)
    turn = _planned(_turn(state, step.serves_as in TURNS_ON_THE_BAR), step, state)

    def rolls(values: Sequence[str]) -> bool:
        return rolls_over([parse_number(each) for each in values], state)

    return TurnForm(turn, reading_trouble, high_spot, reading_doubt, rolls)


def _turn(state: State, on_bar: bool = True) -> Turn:
    """What a turn is read with."""
    screws = screws_of(state)
    way = WAYS[1] if state.facts.get("direction") == "reverse" else WAYS[0]
    marks = screw_marks(screws) if on_bar else {}
    independent = in_jaws(state)
    return Turn(
        unit_of(state),
        marks,
        allowed_counts(screws),
        way,
        jaws=screws if independent else JAWS,
        in_jaws=independent,
    )


def _planned(turn: Turn, step: Step, state: State) -> Turn:
    """The turn with as many positions as the advisor would read, and what it says about them."""
    if step.serves_as not in TURNS_ON_THE_BAR or not knows_aim(state):
        return turn
    said = said_before(state) if not state.heard else None
    told = () if said is None else (reason(said, state),)
    plan = planned(state)
    if plan is None:
        return replace(turn, told=told)
    wanted = len({angle % 360 for angle in plan.angles})
    count = min((each for each in turn.counts if each >= wanted), default=turn.counts[0])
    counts = (count, *(each for each in turn.counts if each != count))
    return replace(turn, counts=counts, told=told, why=reason(_without(plan.why, said), state))


def _without(why: Why, said: Why | None) -> Why:
    """A reason without what was said already."""
    before = said.sentences if said else ()
    return Why(tuple(each for each in why.sentences if each not in before), why.values)


def correction_form(state: State) -> Form:
    """The move at the screw just read."""
    move = next_move(state)
    screws = screws_of(state)
    if move is None:
        return CorrectionForm(None, _turn(state), (), reading_trouble)
    unit = unit_of(state)
    told = Advice(
        screw=move.screw,
        reads=str(state.pair.get("value", "")),
        by=_signed(move.by, unit),
        bring_to=_bare(move.bring_to, unit),
        ease=_screws(move.ease, state),
        tighten=_screws(move.tighten, state),
        why=reason(move.why, state),
        angle=of_screw(move.screw, screws),
        high=_high(state),
        eases=tuple(move.ease or ()),
        tightens=tuple(move.tighten or ()),
    )
    across = (move.screw, move.across) if move.across else tuple(range(1, screws + 1))
    return CorrectionForm(told, _turn(state), across, reading_trouble)


def _bare(value: object, unit: str) -> str:
    """A length without its unit."""
    return figure(value, unit, language()).removesuffix(unit).strip()


def _signed(value: object, unit: str) -> str:
    """A change with its sign."""
    text = _bare(value, unit)
    return text if text.startswith("-") else f"+{text}"


def _screws(numbers: Sequence[int] | None, state: State) -> str:
    """Screws by number."""
    return ", ".join(say(named(N_("screw {screw}"), state), screw=each) for each in numbers or ())


def _high(state: State) -> float | None:
    """The high spot of the latest turn."""
    told = state.turn.figures.get("high_at_deg") if state.turn else None
    return float(told) if told is not None else None
