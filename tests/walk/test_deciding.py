"""A decision that is not open is refused with the reading that stands against it, and the mend."""

from __future__ import annotations

from typing import Any

import pytest

from guide.procedure.load import read
from guide.procedure.model import Step
from guide.walk.branch_tests import MOST_ROUNDS
from guide.walk.deciding import not_open, offered
from guide.walk.state import State, Taken

PROCEDURE = """
procedure: one
revision: "1"
title: One
rests-on: [invented]
stages:
  - stage: one
    title: One
    steps:
      - step: judged
        kind: verdict
        title: Judge it
        full: Judge it.
        brief: Judge it.
        decisions: [{decisions}]
"""


def verdict(decisions: str = "accept, another-round, another-turn, stop") -> Step:
    """A verdict that offers these."""
    return read(PROCEDURE.format(decisions=decisions), "one.yaml").steps[0]


def turn(serves_as: str = "as-left", take: str = "turn", **figures: str) -> Taken:
    """A reading of the step `last`."""
    return Taken(4, "last", serves_as, take, {"values": ["0", "1"], "figures": figures})


def state(judged: Taken | None = None, rounds: int = 0, **facts: str) -> State:
    """A setup in which that was read last."""
    named = {name.replace("_", "-"): each for name, each in facts.items()}
    taken = {judged.serves_as: judged} if judged else {}
    return State("one", "", "judged", facts=named, taken=taken, turn=judged, rounds=rounds)


KNOWN = {"tolerance": "0.001 in", "graduation": "0.0001 in", "unit": "in"}


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (state(), "nothing that is judged there was read"),
        (state(turn(), unit="in"), "as-left of the step last … not known: tolerance, graduation."),
        (state(turn(), **KNOWN | {"tolerance": "unknown"}), "is not known: tolerance."),
        (state(turn(), **KNOWN | {"graduation": "unknown"}), "is not known: graduation."),
        (state(turn(), **KNOWN, as_left_limit="0.1 in"), "as-left of the step last has no verdict"),
        (state(turn(), **KNOWN, as_limit="unknown"), "is not known: as-limit."),
        (state(turn("tail-side", "along"), **KNOWN), "is not known: tail-side-limit."),
        (state(turn(verdict="outside")), "as-left of the step last was judged outside its limit."),
        (state(turn(verdict="undecided")), "as-left of the step last cannot be told from"),
    ],
)
def test_accepting_is_refused_with_the_reading_and_what_it_lacks(at: State, says: str) -> None:
    """Named as the procedure names it, so that whoever writes it knows where to look."""
    assert "accept" not in offered(verdict(), at)
    told = str(not_open("accept", verdict(), at))
    for part in says.split(" … "):
        assert part in told
    assert told.startswith("“accept” is not open at “Judge it”: ")
    assert told.endswith("These are open: another-round, another-turn, stop.")
    assert "{" not in told


@pytest.mark.parametrize(
    ("at", "mend"),
    [
        (state(), "with `take: along` or with one of these after `serves-as`: as-found, "),
        (state(turn(), unit="in"), "Ask for it, and have it answered, before that step reads."),
        (state(turn(), **KNOWN), "Read it again, at three positions or more"),
    ],
)
def test_what_can_be_mended_is_told_how(at: State, mend: str) -> None:
    """A reading that is missing, a fact that nobody asked, a reading older than the fact."""
    assert mend in str(not_open("accept", verdict(), at))


def test_a_face_that_is_out_is_named_whatever_was_read_after_it() -> None:
    """The plate is judged by its face; the latest turn has no say there."""
    plate, at = verdict("accept, stop"), state(turn("face-runout", verdict="outside"))
    told = str(not_open("accept", plate, at))
    assert "the reading face-runout of the step last was judged outside its limit" in told
    assert "no screw cures that. These are open: stop." in told


def test_a_round_too_many_is_refused_by_their_number_and_not_by_the_verdict() -> None:
    """As many as are offered were made."""
    at = state(turn(verdict="outside"), MOST_ROUNDS)
    told = str(not_open("another-round", verdict(), at))
    assert f"{MOST_ROUNDS} rounds of correcting have been made" in told


def test_what_the_verdict_never_offers_is_said_to_be_none_of_its_decisions() -> None:
    """A slip of the pen is told from a result that is out."""
    told: Any = not_open("acept", verdict(), state())
    assert str(told).startswith("“acept” is none of the decisions at “Judge it”.")
