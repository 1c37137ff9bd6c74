"""Each lesson can be solved by somebody careful, and springs its trap for somebody who is not."""

from __future__ import annotations

import pytest

from guide.plain import BadInput
from guide.practice.debrief import debrief
from guide.practice.lessons import FREE, LESSONS, free, in_unit, lesson, number_of


@pytest.mark.parametrize("one", LESSONS, ids=lambda each: each.name)
def test_a_careful_learner_ends_every_lesson_right(one, room, with_care) -> None:
    """Every decision right, within what the lesson calls good, with no value misread."""
    told = debrief(room.walked(one, decide=with_care))
    assert [each for each in told.decisions if not each.right] == []
    assert told.well_ended
    assert told.decisions[-1].decision == one.right
    assert told.rounds <= one.rounds
    assert told.readings <= one.readings
    assert (told.misread, told.elsewhere, told.rolled, told.hints) == ((), 0, 0, 0)
    assert (told.runout <= told.tolerance) or one.flag


TRAPS = {
    "three-lobes": "corrected what no screw cures: {flag}",
    "tilt": "accepted though it was out",
    "worn-bearing": "corrected what no screw cures: {flag}",
    "chip": "corrected what no screw cures: {flag}",
    "bar-or-chuck": "it seemed within, but nobody could prove it: {flag}",
}


@pytest.mark.parametrize("name", TRAPS)
def test_a_trap_springs_for_a_learner_who_only_follows_the_figures(name: str, room) -> None:
    """Going on by the verdict alone ends in the mistake that the lesson is about."""
    told = debrief(room.walked(name))
    assert TRAPS[name] in [each.why for each in told.decisions if not each.right]


def test_three_lobes_read_at_four_put_the_chuck_out(room) -> None:
    """At four positions they pass for eccentricity, and the correction makes it worse."""

    def once(one) -> tuple[str, str]:
        return ("another-round" if not one.walk.state.rounds else "stop"), "it is no better"

    told = debrief(room.walked("three-lobes", positions=4, decide=once))
    assert told.decisions[1].runout > told.decisions[0].runout
    assert abs(told.path[-1]) > abs(told.path[0])


def test_a_knocked_turn_is_not_corrected_on_unpunished(room) -> None:
    """Whoever corrects on a turn whose zero had moved is told."""

    def hasty(one) -> tuple[str, str]:
        return ("accept" if one.walk.state.verdict == "within" else "another-round"), ""

    told = debrief(room.walked("knock", decide=hasty))
    assert told.decisions[0].why == "corrected on a turn whose zero had moved"


def test_a_dial_taken_as_typed_across_zero_is_told(room) -> None:
    """Values typed as they stand, and no said to the question whether the pointer passed zero."""

    def once(one) -> tuple[str, str]:
        return "stop", "the figures cannot be"

    told = debrief(room.walked("across-zero", signs=False, rolled="no", decide=once))
    assert told.rolled >= 1
    assert not told.well_ended


def test_slack_bolts_are_told(room, learner, with_care) -> None:
    """Easing them twice each time is seen in the debrief."""

    class Slacking(learner):  # type: ignore[misc] # a fixture's class
        def tighten(self) -> dict[str, str]:
            """One stage too many."""
            if self.walk.step.tighten == "ease":
                self.walk.bench.ease_bolts()
            return super().tighten()

    told = debrief(Slacking(room.open("bolts"), with_care).go())
    assert told.counts["slack"] >= 1


@pytest.mark.parametrize("wanted", ["3", "half-difference"])
def test_a_lesson_is_found_by_number_and_by_name(wanted: str) -> None:
    """Both lead to the same."""
    assert lesson(wanted) is LESSONS[2]
    assert number_of(lesson(wanted).name) == 3


def test_a_lesson_that_is_not_there_is_refused() -> None:
    """With a sentence that says where they are listed."""
    with pytest.raises(BadInput, match="no lesson 99"):
        lesson("99")
    assert number_of("drawn") is None


@pytest.mark.parametrize("one", LESSONS, ids=lambda each: each.name)
def test_a_lesson_is_what_it_is_in_both_units(one) -> None:
    """The truth stays, the dial and its tolerance change, and the right end is the same."""
    for unit in ("in", "mm"):
        other = in_unit(one, unit)
        assert other.truth == one.truth
        assert other.dial.unit == unit
        assert other.reach().flag == one.flag
        assert other.tolerance.endswith(unit)


def test_a_seed_draws_the_same_chuck_every_time_and_other_seeds_others() -> None:
    """What is drawn depends on the seed alone."""
    assert free(12345) == free(12345)
    assert len({abs(free(seed).truth.centre) for seed in range(40)}) == 40


def test_what_is_drawn_can_be_seen_in_one_turn_of_the_needle_and_has_every_fault() -> None:
    """No centre is further off than the dial can show, and each right end comes up."""
    drawn = [free(seed) for seed in range(120)]
    assert all(abs(each.truth.centre) <= max(FREE, 0.0022) for each in drawn)
    assert {each.flag for each in drawn} == {"", "form", "spindle-limit", "beyond-travel"}
    assert {each.truth.screws for each in drawn} == {4, 6}


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_a_drawn_chuck_is_walked_to_its_end_by_a_careful_learner(
    seed: int, room, with_care
) -> None:
    """Whatever it hides."""
    one = free(seed)
    told = debrief(room.walked(one, seed, decide=with_care))
    assert told.decisions[-1].decision in ("accept", "stop")
    assert told.lesson == "drawn"
    assert told.seed == str(seed)
