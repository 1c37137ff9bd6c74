"""The best possible: nobody with the same hands does it in less."""

from __future__ import annotations

from cmath import exp, pi

import pytest

from guide.practice.best import PROOF, best, parts
from guide.practice.lessons import LESSONS, free
from guide.practice.reach import reach
from guide.practice.truth import Truth

TRUABLE = [each for each in LESSONS if not each.flag]


@pytest.mark.parametrize("one", TRUABLE, ids=lambda each: each.name)
def test_no_learner_does_with_less_than_the_best(one, room) -> None:
    """Rounds and readings of a learner who follows every advice are never fewer."""
    found = best(one.truth, 1, tolerance=one.tolerance_in, division=one.dial.division)
    walk = room.walked(one)
    assert found.trued
    assert found.runout <= one.tolerance_in
    assert found.rounds <= walk.state.rounds
    typed = [e for e in walk.state.entries if "got" in e.data or "value" in e.data]
    turns = [e for e in walk.state.entries if "closing" in e.data]
    assert found.readings <= len(typed) + 9 * len(turns)


@pytest.mark.parametrize("one", [each for each in LESSONS if each.flag], ids=lambda each: each.name)
def test_where_no_screw_helps_the_best_is_to_move_nothing(one) -> None:
    """Only the proof is counted."""
    found = best(one.truth, 1, tolerance=one.tolerance_in, stations=one.stations)
    assert (found.rounds, found.moves, found.readings, found.trued) == (0, 0, PROOF, False)


def test_what_is_within_already_needs_no_round() -> None:
    """A proof, and that is all."""
    found = best(Truth(centre=0.0001 + 0j), 1)
    assert (found.rounds, found.moves) == (0, 0)


def test_the_same_seed_gives_the_same_best() -> None:
    """It is played with the same chance."""
    one = free(12)
    assert best(one.truth, 12) == best(one.truth, 12)


@pytest.mark.parametrize("screws", [3, 4, 6])
@pytest.mark.parametrize("wanted", [0.001 + 0j, -0.0004 + 0.0012j, -0.002j])
def test_a_shift_is_shared_by_two_screws_and_none_of_it_is_lost(
    screws: int, wanted: complex
) -> None:
    """Both parts along their screws make up the whole."""
    made = sum(by * exp(2j * pi * (k - 1) / screws) for k, by in parts(wanted, screws))
    assert made == pytest.approx(wanted)


@pytest.mark.parametrize("one", LESSONS, ids=lambda each: each.name)
def test_a_lesson_says_of_itself_what_is_so(one) -> None:
    """Its flag is the one that can be worked out from what it hides."""
    assert one.reach().flag == one.flag


def test_what_is_out_of_reach_says_why() -> None:
    """Each reason by itself."""
    assert reach(Truth(lobes={3: 0.0006 + 0j}), 0.001).flag == "form"
    assert reach(Truth(tilt=0.0005 + 0j), 0.001, (1.0, 5.0)).flag == "tilt"
    assert reach(Truth(register=0.006 + 0j), 0.001).flag == "beyond-travel"
    assert reach(Truth(centre=0.002 + 0j, stuck=(1, 3)), 0.001).flag == "process-limited"
    assert reach(Truth(play=0.0009), 0.001).flag == "spindle-limit"
    assert reach(Truth(bent=0.0004 + 0j), 0.001).flag == "cannot-prove"
    assert reach(Truth(centre=0.004 + 0j, tilt=0.0005 + 0j), 0.001, (3.0,)).flag == ""
