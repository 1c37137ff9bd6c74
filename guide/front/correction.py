"""A correction in words: which screw, from what to what, what to ease first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guide.measure.angles import of_screw
from guide.measure.numerals import in_sign
from guide.measure.truing.asked import Move
from guide.plain import N_
from guide.present.nouns import named
from guide.present.numbers import figure
from guide.present.recorded_words import reason
from guide.present.tongue import language, say
from guide.walk.advised import next_move, no_move, stands_against_the_turn
from guide.walk.figures import screws_of, unit_of
from guide.walk.state import State


@dataclass(frozen=True, slots=True)
class Advice:
    """The move as plain text; `screw` is the one under the plunger."""

    screw: int
    reads: str
    by: str
    bring_to: str
    ease: str
    tighten: str
    """Blank until it is known which way the screws move the body."""
    why: str
    angle: float
    high: float | None
    eases: tuple[int, ...] = ()
    """Numbers of the screws to ease first, for the picture."""
    tightens: tuple[int, ...] = ()
    """Numbers of the screws to tighten then."""


def advice(state: State) -> Advice | None:
    """The move at the screw just read; None where nothing is left that the dial could set."""
    move = next_move(state)
    screws = screws_of(state)
    if move is None:
        return None
    unit = unit_of(state)
    return Advice(
        screw=move.screw,
        reads=in_sign(str(state.pair.get("value", "")), language()),
        by=_signed(move.by, unit),
        bring_to=_bare(move.bring_to, unit),
        ease=_screws(move.ease, state),
        tighten=_screws(move.tighten, state),
        why=_why(move, state),
        angle=of_screw(move.screw, screws),
        high=_high(state),
        eases=tuple(move.ease or ()),
        tightens=tuple(move.tighten or ()),
    )


def nothing_to_turn(state: State) -> str:
    """Why no screw is to be turned here."""
    why = no_move(state)
    return say(why or N_("What is left here is less than this dial can set. Turn no screw."))


def _why(move: Move, state: State) -> str:
    """The reason of the move, behind what speaks against the value that it is worked out from."""
    against = stands_against_the_turn(state)
    return reason(against.and_then(move.why) if against else move.why, state)


def screws_moved(state: State) -> tuple[int, ...]:
    """The screws of which one may have been tightened at the move: a pair, else all."""
    move = next_move(state)
    if move is None:
        return ()
    return (move.screw, move.across) if move.across else tuple(range(1, screws_of(state) + 1))


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
