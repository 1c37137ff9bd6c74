"""A corrected answer: what rested on it is judged anew and says so, and nothing else changes."""

from __future__ import annotations

from collections.abc import Mapping
from types import ModuleType
from typing import Any

import pytest

from guide.journal.canonical import canonical
from guide.plain import NotAllowed
from guide.present.sheet import lines, seen
from guide.procedure.shelf import find
from guide.records.of_setup import does_not_stand
from guide.records.results import results_of
from guide.walk.completed import completed, otherwise
from guide.walk.deciding import offered
from guide.walk.setup import Setup

CHOSEN = {"nose": "camlock", "on-nose": "this-chuck", "chuck-kind": "independent"}
TRUE = -3


@pytest.fixture
def judged(driver: ModuleType, memory: ModuleType) -> Setup:
    """Work centred within its tolerance, at the verdict that would accept it."""
    walk: Setup = driver.opened(memory.Memory(), find("quick-centring"))
    while walk.step is None or walk.step.kind != "verdict":
        driver.do(walk, driver.usual(walk, CHOSEN, TRUE))
    assert walk.state.verdict == "within"
    return walk


def correct(walk: Setup, driver: ModuleType, fact: str, new: str) -> None:
    """Correct an answer, once more where it is odd."""
    change = {"fact": fact, "old": walk.state.facts[fact], "new": new, "why": "misread"}
    driver.do(walk, ("correct", change))


def judgement(walk: Setup) -> Mapping[str, Any]:
    """The figures of the latest turn."""
    assert walk.state.turn is not None
    return walk.state.turn.figures


def test_a_division_that_was_ten_times_finer_than_the_dial_takes_its_verdict_along(
    judged: Setup, driver: ModuleType
) -> None:
    """U was too small by the same ten times; what was within is not told apart any more."""
    before = float(judgement(judged)["expanded_uncertainty"])
    correct(judged, driver, "graduation", "0.001 in")
    assert float(judgement(judged)["expanded_uncertainty"]) > 4 * before
    assert judged.state.verdict != "within"
    assert judged.step is not None
    assert "accept" not in offered(judged.step, judged.state)
    with pytest.raises(NotAllowed):
        driver.do(judged, ("record", {"decision": "accept"}))


def test_the_sheet_says_what_was_judged_anew(judged: Setup, driver: ModuleType) -> None:
    """The old figures stay on their own line, and the new ones stand at the correction."""
    old = [
        each for each in lines(judged.state, judged.procedure) if "within tolerance" in each.value
    ]
    correct(judged, driver, "graduation", "0.001 in")
    told = lines(judged.state, judged.procedure)
    assert "judged anew" in told[-1].note
    assert "undecided" in told[-1].note
    assert all(each in told for each in old)


def test_an_answer_that_no_figure_rests_on_judges_nothing(
    judged: Setup, driver: ModuleType
) -> None:
    """Where the bar is read, or who is told, is no part of the arithmetic."""
    before = judged.state.taken
    correct(judged, driver, "direction", "reverse")
    assert judged.state.taken == before
    assert "judged_anew" not in judged.state.entries[-1].data


def test_what_a_correction_judged_anew_is_replayed_and_worked_out_again(
    judged: Setup, driver: ModuleType
) -> None:
    """The journal holds the figures, and whoever verifies it comes to the same ones."""
    before = judged.state
    correct(judged, driver, "graduation", "0.001 in")
    assert driver.replays_the_same(judged)
    data = judged.state.entries[-1].data
    entered = {name: data[name] for name in ("fact", "old", "new", "why")}
    again = completed(judged.procedure, before, "correct", entered)
    assert canonical(again) == canonical(data)


def test_what_comes_to_the_same_is_not_said_to_be_judged_anew(
    judged: Setup, driver: ModuleType
) -> None:
    """The same tolerance in other words changes no figure."""
    correct(judged, driver, "tolerance", "1 thou")
    assert "judged_anew" not in judged.state.entries[-1].data


def test_put_back_as_it_was_the_figures_are_what_they_were(
    judged: Setup, driver: ModuleType
) -> None:
    """A correction of a correction brings nothing else along."""
    before = judgement(judged)
    correct(judged, driver, "tolerance", "0.0006 in")
    correct(judged, driver, "tolerance", "0.001 in")
    assert canonical(judgement(judged)) == canonical(before)


def test_a_correction_of_the_finer_dial_leaves_what_the_first_dial_read(
    driver: ModuleType, memory: ModuleType
) -> None:
    """Its division was told anew after those turns: they are another dial's."""
    walk: Setup = driver.opened(memory.Memory(), find("adjustable-chuck"))
    lathe = {"nose": "camlock", "on-nose": "nothing", "plate": "loose"}
    assert driver.stands_at(walk, "bar-half-round", lathe, TRUE)
    coarse, fine = (canonical(walk.state.taken[name].figures) for name in ("after-torque", "finer"))
    correct(walk, driver, "graduation", "0.0005 in")
    taken = walk.state.taken
    assert canonical(taken["after-torque"].figures) == coarse
    assert canonical(taken["finer"].figures) != fine
    assert list(walk.state.entries[-1].data["judged_anew"]) == ["finer"]


def test_the_record_shows_the_result_as_it_is_judged_now(judged: Setup, driver: ModuleType) -> None:
    """With the corrected limit and the event that changed it: no row says within any more."""
    correct(judged, driver, "tolerance", "0.00005 in")
    event = judged.state.sequence
    found = [*results_of(tuple(seen(judged.state, judged.procedure)), "en")]
    judged_by_it = [each for each in found if each.verdict]
    assert judged_by_it
    for each in judged_by_it:
        assert each.tolerance == "0.00005 in"
        assert "within" not in each.verdict
        assert f"Judged anew by event {event}" in each.flags


def test_a_result_that_a_correction_took_its_verdict_from_does_not_stand(
    judged: Setup, driver: ModuleType
) -> None:
    """It was accepted before, by a figure that was wrong."""
    driver.do(judged, ("record", {"decision": "accept"}))
    assert "corrected" not in does_not_stand(judged.state)
    correct(judged, driver, "graduation", "0.001 in")
    assert "corrected" in does_not_stand(judged.state)


def test_corrections_of_an_earlier_reckoning_alone_are_not_worked_out_again(
    judged: Setup, driver: ModuleType
) -> None:
    """They judged nothing anew then; every other event is held to what it says."""
    correct(judged, driver, "graduation", "0.001 in")
    left_out = otherwise("2") or frozenset()
    for each in judged.state.entries:
        assert bool(left_out & each.data.keys()) == (each.kind == "correct")
