"""What was measured in one round of a loop is not confirmed unseen in the next."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.front.questions import at_this_step
from guide.procedure.model import Procedure
from guide.procedure.shelf import find, shipped_files
from guide.walk.loops import come_round
from guide.walk.state import Entry, State

TOLD = {"register-size": "165.9 mm", "register-is": "large"}


@pytest.fixture
def fitting() -> Procedure:
    """A procedure that cuts and measures, round after round."""
    return find("backplate-fitting")


def state(place: str, *recorded: str) -> State:
    """A walk at a step, after these steps were each told the same."""
    entries = tuple(
        Entry(number, "", "A. Sample", each, "record", {"facts": TOLD})
        for number, each in enumerate(recorded)
    )
    return State("s", "d", place, facts=TOLD, entries=entries)


def test_in_the_next_round_nothing_stands_there_and_the_last_answer_is_told(fitting) -> None:
    """In words where it was picked, and as a figure where it was typed."""
    size, judged = (
        at_this_step(fitting.facts[name], state("size-now", "size-now"), fitting) for name in TOLD
    )
    assert size.given == judged.given == ""
    assert size.help.endswith("Told in the last round: 165.9 mm. Answer for this one.")
    assert dict(judged.options)["large"] in judged.help


def test_before_any_round_what_another_step_was_told_stands_there(fitting) -> None:
    """Only what this very step measured has changed since."""
    asked = at_this_step(fitting.facts["register-size"], state("size-now", "plate"), fitting)
    assert asked.given == "165.9 mm"
    assert "last round" not in asked.help


def test_a_step_outside_every_loop_that_is_done_again_keeps_its_answers(fitting) -> None:
    """One wrong line of many is then put right, and the others need not be typed anew."""
    outside = next(each.name for each in fitting.steps if each.ask)
    assert outside not in come_round(fitting)
    told = at_this_step(fitting.facts["register-size"], state(outside, outside), fitting)
    assert told.given == "165.9 mm"


@pytest.mark.parametrize("path", shipped_files(), ids=lambda each: each.stem)
def test_the_first_step_and_the_last_are_in_no_loop(path: Path) -> None:
    """Those that come round stand between a way back and where it leads."""
    procedure = find(path.stem)
    round_again = come_round(procedure)
    assert procedure.steps[0].name not in round_again
    assert not {step.name for step in procedure.steps if step.kind == "sign-off"} & round_again
