"""The machine state as it is asked by looking, and how a lathe stands by the record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from guide.front.questions import Option
from guide.plain import N_
from guide.present.questions import answers_to, asks, hangs_where, wrench_rule
from guide.present.tongue import say
from guide.walk.looking import ASKED, answers
from guide.walk.remembered import left_by_the_last
from guide.walk.state import State
from guide.walk.world import value, with_values

PROVEN = N_(
    "Proven is what you tried yourself just now: own lock on, start pressed, nothing moved. "
    "If you did not try it, say: not proven yet."
)
"""What an answer about the power rests on; an interruption ends what was proven before it."""


@dataclass(frozen=True, slots=True)
class Look:
    """One variable as it is asked."""

    name: str
    ask: str
    recorded: str
    """What was recorded last, in words; blank for nothing."""


def looks_of(state: State) -> tuple[Look, ...]:
    """Every variable that is looked at, in order."""
    return tuple(Look(name, say(asks(name)), _recorded(state, name)) for name in ASKED)


def seen_under(state: State, power: str) -> Mapping[str, tuple[Option, ...]]:
    """For an answer about the power, what may be seen of each variable."""
    powered = with_values(state.world, {"power": power or "unknown"})
    return {
        name: tuple(
            (each, say(answers_to(name, each)))
            for each in answers(name, state.world if name == "power" else powered, state.facts)
        )
        for name in ASKED
    }


def rule_under(state: State, power: str) -> str:
    """Whether a wrench may be put on anything, for an answer about the power."""
    if not power:
        return say(N_("First the power: it decides whether a wrench may be put on anything."))
    rule = say(wrench_rule(with_values(state.world, {"power": power})))
    return f"{say(PROVEN)} {rule}" if power == "isolated" else rule


def _recorded(state: State, name: str) -> str:
    """What was recorded last of a variable; blank for nothing."""
    last = value(state.world, name)
    last = left_by_the_last(name, state) if last == "unknown" else last
    return "" if last == "unknown" else say(answers_to(name, last))


def how_it_stands(state: State) -> tuple[tuple[str, str], ...]:
    """How the lathe stands by the record."""
    return tuple(
        (say(asks(name)), say(answers_to(name, each))) for name, each in hangs_where(state.world)
    )
