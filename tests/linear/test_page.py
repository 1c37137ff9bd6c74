"""What is read out of a place: what has to be done at once comes before anything is asked."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

from guide.linear.page import read_out
from guide.walk.state import MAKING_SURE, State
from guide.walk.world import UNKNOWN, changed


def test_a_lathe_that_may_turn_is_stopped_first_in_lines_too() -> None:
    """Who hears the lines and sees no page is told of stop and isolator before the first question.

    The danger names both, and what is told first is to press stop.
    """
    world = changed(UNKNOWN, power="restored", spindle="turning")
    state = State(setup="s", text="", place=MAKING_SURE, world=world)
    said: list[str] = []
    lines = SimpleNamespace(tell=lambda words="": said.append(words))
    read_out(cast(Any, lines), cast(Any, SimpleNamespace(step=None, state=state)), "brief")
    danger = next(each for each in said if each.startswith("Danger: "))
    assert "the stop and the isolator" in danger
    assert said[said.index(danger) + 1].startswith("If it turns, press stop now")
