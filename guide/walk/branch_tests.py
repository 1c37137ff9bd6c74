"""The closed vocabulary of branch tests: a named yes/no question on the record."""

from __future__ import annotations

from guide.plain import N_
from guide.walk.state import State

MOST_ROUNDS = 6
"""Rounds of correcting before the tool stops offering another (judgement of the trade)."""

MEANS = {
    "within": N_("the last judged result lies within the tolerance"),
    "outside": N_("the last judged result lies outside the tolerance"),
    "undecided": N_("the last judged result cannot be told from the tolerance"),
    "face-out": N_("the plate's face or register was judged out"),
    "found-within": N_("the turn read as found was judged within the tolerance"),
    "accepted": N_("the person accepted the result"),
    "another-round": N_("the person chose another round"),
    "another-turn": N_("the person chose to read another turn"),
    "stopped": N_("the person stopped truing with a reason"),
    "more-rounds": N_("fewer rounds of correcting than the limit have been made"),
    "may-run-slow": N_(
        "the lathe's lowest speed is known to be no more than the chuck's marked speed"
    ),
}
"""Each test and what it asks."""

WAYS_OUT = frozenset({"more-rounds", "accepted", "another-round", "another-turn", "stopped"})
"""Tests that end a loop for a reason: a count, or a person's decision."""


DECIDED = {
    "accepted": "accept",
    "another-round": "another-round",
    "another-turn": "another-turn",
    "stopped": "stop",
}
"""Tests that ask what a person decided, and the decision each asks for."""


def answer(name: str, state: State) -> bool:
    """The answer to one branch test on the record so far."""
    if name in ("within", "outside", "undecided"):
        return state.verdict == name
    if name in DECIDED:
        return state.decision == DECIDED[name]
    if name == "more-rounds":
        return state.rounds < MOST_ROUNDS
    if name == "may-run-slow":
        return state.may_run_slow
    if name == "face-out":
        return state.face_out
    if name == "found-within":
        return _found_within(state)
    raise KeyError(name)


def _found_within(state: State) -> bool:
    """Whether the turn as found was within: a luckier grip read after it takes nothing back."""
    found = state.taken.get("as-found")
    return found is not None and found.figures.get("verdict") == "within"
