"""A task recorded as not done as written: nothing of it becomes true, and nothing rests on it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

import pytest

from guide.plain import NotAllowed
from guide.procedure.model import Step
from guide.procedure.shelf import find
from guide.rehearse import Answers, give, read_answers
from guide.walk.bits import encode
from guide.walk.flow import exits, looks
from guide.walk.setup import Setup, open_setup
from guide.walk.world import value

ANSWERS = {
    path.stem: read_answers(path)
    for path in sorted((Path(__file__).parents[1] / "answers").glob("*.yaml"))
}
ALLOWED = {"why": "the stand is lent out", "allowed": {"person": "B. Sample"}}
each_rehearsal = pytest.mark.parametrize("name", ANSWERS)


class Tried(NamedTuple):
    """A deviation that was tried where a rehearsal stands."""

    before: Setup
    after: Setup
    step: Step


def opened(memory: ModuleType, answers: Answers) -> Setup:
    """The rehearsal's setup, just opened."""
    return open_setup(
        memory.Memory(), find(answers.procedure), setup="walk", person=answers.person,
        at=answers.at(0), lathe=answers.lathe, mode="rehearsal", typed_at="file",
    )  # fmt: skip


def stands(memory: ModuleType, answers: Answers) -> Iterator[Setup]:
    """The rehearsal before each of its answers, and at its end."""
    walk = opened(memory, answers)
    for number, answer in enumerate(answers.answers, start=1):
        yield walk
        give(walk, answer, answers.at(number))
    yield walk


def deviate(walk: Setup) -> None:
    """Try it as the one at the lathe."""
    walk.act("deviate", ALLOWED, person=walk.state.person, at="2031-03-02T08:00:00.000Z")


def tried(memory: ModuleType, driver: ModuleType, answers: Answers) -> Iterator[Tried]:
    """The deviation at each task that a rehearsal comes to, each world once."""
    met = set()
    for walk in stands(memory, answers):
        step, spot = walk.step, (walk.state.place, walk.state.world)
        if step is not None and step.kind == "task" and not looks(step) and spot not in met:
            met.add(spot)
            other = driver.forked(walk)
            deviate(other)
            yield Tried(walk, other, step)


@each_rehearsal
def test_nothing_of_the_task_becomes_true(memory, driver, name: str) -> None:
    """World, facts, readings and people are as they were; the event says why and who allowed it."""
    count = 0
    for before, after, step in tried(memory, driver, ANSWERS[name]):
        old, new = before.state, after.state
        same = ("world", "facts", "taken", "turn", "pair", "moved", "heard", "rounds", "people")
        assert all(getattr(old, each) == getattr(new, each) for each in same), step.name
        event = after.journal.events("walk")[-1]
        assert (event.kind, event.step) == ("deviate", step.name)
        assert not {"did", "figures", "ends"} & event.data.keys()
        assert event.data["why"] == ALLOWED["why"]
        count += 1
    assert count >= 3


@each_rehearsal
def test_the_walk_stays_or_goes_on_only_where_nothing_needs_what_was_not_done(
    memory, driver, name: str
) -> None:
    """At the same task, or at one of its exits from which nothing that follows is refused."""
    for before, after, step in tried(memory, driver, ANSWERS[name]):
        state = after.state
        ways = {way.to for way in exits(before.procedure, step)}
        assert state.place in {step.name, *ways}
        assert after.fold.ways(state.facts).walkable(state.place, encode(state.world)), step.name
        if state.place != step.name:
            assert before.fold.ways(state.facts).walkable(step.name, encode(before.state.world))


@each_rehearsal
def test_no_gate_is_gone_round_by_it(memory, driver, name: str) -> None:
    """What stands behind the task is open only by what was true already."""
    for before, after, _ in tried(memory, driver, ANSWERS[name]):
        assert value(after.state.world, "gate") == value(before.state.world, "gate")
        assert value(after.state.world, "power") == value(before.state.world, "power")


@each_rehearsal
def test_anything_else_is_never_left_undone(memory, driver, name: str) -> None:
    """Gates, looks, facts, readings, corrections, tightenings, verdicts and the sign-off."""
    met = set()
    for walk in stands(memory, ANSWERS[name]):
        step, state = walk.step, walk.state
        if (step is not None and step.kind == "task" and not looks(step)) or state.place in met:
            continue
        met.add(state.place)
        other = driver.forked(walk)
        with pytest.raises(NotAllowed):
            deviate(other)
        assert (other.state, len(other.journal.events("walk"))) == (state, state.sequence)
    assert len(met) >= 5


@each_rehearsal
def test_the_events_alone_make_the_same_state(memory, driver, name: str) -> None:
    """A deviation is replayed like everything else."""
    for number, (_, after, _) in enumerate(tried(memory, driver, ANSWERS[name])):
        if number % 5 == 0:
            assert driver.folded(after) == after.state


@each_rehearsal
def test_a_walk_that_went_on_comes_to_its_end_and_keeps_the_deviation(
    memory, driver, name: str
) -> None:
    """Nothing that follows is refused: the plausible acts lead to the hand-over, or back to the
    task where it turns out to be needed."""
    gone_on = 0
    for before, after, step in tried(memory, driver, ANSWERS[name]):
        if after.state.place != step.name:
            driver.walked(after, dict(before.state.facts))
            assert after.state.place == "finished"
            kinds = [each.kind for each in after.journal.events("walk")]
            assert kinds.count("deviate") == 1
            gone_on += 1
    assert gone_on


def test_a_deviation_may_be_recorded_again_and_again_and_ends_nothing(memory, driver) -> None:
    """Where it stays it stays; doing the task is still the way on."""
    for before, after, step in tried(memory, driver, ANSWERS["adjustable-chuck-inch"]):
        if after.state.place == step.name:
            deviate(after)
            assert after.state.place == step.name
            after.act("done", {}, person=after.state.person, at="2031-03-02T09:00:00.000Z")
            assert after.state.world == done(before, driver).state.world
            return
    raise AssertionError("no task needs to be done")


def done(walk: Setup, driver: ModuleType) -> Setup:
    """The walk with the task done."""
    other = driver.forked(walk)
    other.act("done", {}, person=walk.state.person, at="2031-03-02T09:00:00.000Z")
    return other
