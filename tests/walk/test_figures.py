"""What the walk makes of readings, and what it never advises twice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from guide.plain import BadInput
from guide.walk.figures import turn_values
from guide.walk.state import State, Taken

FACTS = {"unit": "in", "screw-count": "4", "sense": "toward", "graduation": "0.0001 in"}
TURN = {
    "angles": ("0", "90", "180", "270"),
    "values": ("0.0000", "0.0010", "0.0040", "0.0030"),
}
"""Pair 1-3 is 4 thou apart, pair 2-4 is 2 thou apart (invented)."""


def standing(**more: object) -> State:
    """A state behind one turn."""
    turn = Taken(1, "round-turn", "round", "turn", TURN)
    return replace(State("s", "t", "first-pair", facts=FACTS, turn=turn), **more)


def test_a_dial_that_may_have_rolled_over_is_asked_about_and_then_unwrapped() -> None:
    """0, 96, 93, 97 of 100 a turn may mean 0, −4, −7, −3: never taken so without being told."""
    state = standing()
    state = replace(
        state,
        facts={**FACTS, "unit": "thou", "numbering": "continuous", "range-per-turn": "100 thou"},
    )
    typed = {"values": ("0", "96", "93", "97")}
    with pytest.raises(BadInput, match="passed its zero"):
        turn_values(typed, state)
    assert [int(v) for v in turn_values({**typed, "rolled_over": "yes"}, state)] == [0, -4, -7, -3]
    assert [int(v) for v in turn_values({**typed, "rolled_over": "no"}, state)] == [0, 96, 93, 97]
