"""Reasons and recorded answers as a person reads them."""

from __future__ import annotations

from guide.measure.truing.asked import Why
from guide.present.nouns import named
from guide.present.tongue import say
from guide.present.visible import visible
from guide.walk.state import State


def known(state: State, name: str) -> str:
    """A fact that was answered with something known, else blank."""
    told = state.facts.get(name, "")
    return "" if told == "unknown" else visible(told)


def reason(why: Why, state: State) -> str:
    """A reason in the user's language."""
    return " ".join(say(named(each, state), **why.values) for each in why.sentences)
