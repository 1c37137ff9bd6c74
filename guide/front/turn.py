"""What a turn is read with, in plain values, and what is said of what is typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from guide.measure.numerals import parse_number
from guide.measure.truing.asked import Why
from guide.plain import N_, Refusal
from guide.present.chuck_face import WAYS, allowed_counts, screw_marks
from guide.present.nouns import in_jaws, spoken
from guide.present.recorded_words import reason
from guide.present.tongue import language, say
from guide.present.words import refused
from guide.procedure.model import Step
from guide.walk.advised import (
    contradicts,
    ends_far_off,
    knows_aim,
    next_screw,
    planned,
    said_before,
    turned_round,
)
from guide.walk.deciding import TURNS_ON_THE_BAR
from guide.walk.figures import rolls_over, screws_of, unit_of
from guide.walk.state import State

Trouble = Callable[[str], str]
"""What is wrong with a reading as typed; blank when nothing is."""
High = Callable[[Sequence[str], Sequence[str]], float | None]
"""The high spot by angles and values so far, where it can be told."""
Doubt = Callable[[Sequence[str], str], str]
"""Why a value beside the others may be a slip; blank when it may well be so."""
Rolls = Callable[[Sequence[str]], bool]
"""Whether the pointer may have passed its zero in these values."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The unit, the chuck and the positions of a turn, and what is said about them."""

    unit: str
    marks: Mapping[float, str]
    """Screws by their angle; empty where there are none yet."""
    counts: tuple[int, ...]
    """How many positions may be chosen, the best first."""
    way: str
    """Which way the face turns, seen from the tailstock."""
    why: str = ""
    """A sentence why so many positions, shown above them."""
    told: tuple[str, ...] = ()
    """What is said once before anything is read."""
    jaws: int = 3
    """Jaws of the chuck, drawn where there are screws."""

    in_jaws: bool = False
    """Whether independent jaws move the work, and no screws move the body."""

    def say(self, sentence: str, **values: object) -> str:
        """A sentence about a screw, said of what this chuck has."""
        return say(spoken(sentence, jaws=self.in_jaws), **values)


NEAR = N_("Near the headstock it reads ({unit}):")
FAR = N_("Near the tailstock, same zero, it reads ({unit}):")
"""What is asked where a dial is carried along a bar."""
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


def pair_doubt(state: State) -> Trouble:
    """What is wrong with a value at the screw that is next; one that contradicts the turn is
    doubted once, and stands when it is said again."""
    return _doubted_once(state, lambda value: contradicts(next_screw(state), value, state))


def move_doubt(state: State) -> Trouble:
    """The same of what the dial came to, where the move can hardly have ended there."""
    return _doubted_once(state, lambda value: ends_far_off(value, state))


def _doubted_once(state: State, against: Callable[[Decimal], Why | None]) -> Trouble:
    """What is wrong with a reading; a doubt is said once, and the value stands said again."""
    doubted: set[Decimal] = set()

    def trouble(typed: str) -> str:
        if sentence := reading_trouble(typed):
            return sentence
        value = parse_number(typed)
        doubt = None if value in doubted else against(value)
        doubted.add(value)
        return reason(doubt, state) if doubt else ""

    return trouble


def turn_at(step: Step, state: State) -> Turn:
    """What a turn is read with at a step, as the advisor would read it."""
    return _planned(plain_turn(state, step.serves_as in TURNS_ON_THE_BAR), step, state)


def rolls_here(state: State) -> Rolls:
    """Whether the pointer may have passed its zero, by the dial of the setup."""
    return lambda values: rolls_over([parse_number(each) for each in values], state)


def plain_turn(state: State, on_bar: bool = True) -> Turn:
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
    if step.serves_as not in TURNS_ON_THE_BAR:
        return turn
    said = said_before(state) if not state.heard else None
    told = tuple(reason(each, state) for each in (turned_round(state), said) if each)
    plan = planned(state) if knows_aim(state) else None
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
