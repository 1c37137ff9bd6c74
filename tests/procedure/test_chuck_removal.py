"""Taking a chuck off: every nose, whatever is on it, whatever is to come off."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from guide.procedure.model import Procedure, Step
from guide.procedure.shelf import find
from guide.walk.proof import check
from guide.walk.world import UNKNOWN, as_dict, value
from tests.procedure import walks
from tests.procedure.walks import Stood

NOSES = ("long", "camlock", "bolted", "threaded")
LEFT = {
    ("this-plate", ""): {"seat": "off", "body": "apart"},
    ("this-chuck", "whole"): {"seat": "off", "body": "on-plate", "bolts": "tight"},
    ("this-chuck", "body"): {"seat": "locked", "body": "apart"},
    ("this-chuck", "plate"): {"seat": "off", "body": "apart"},
    ("one-piece", ""): {"seat": "off", "body": "on-plate", "bolts": "none"},
}
"""What is on the nose and what is to come off, and what the lathe is left like."""


@cache
def removal() -> Procedure:
    """The shipped procedure."""
    return find("chuck-removal")


def walked(facts: dict[str, str]) -> Iterator[Stood]:
    """Each step of a walk without surprises, the world behind it, and the actions it did."""
    return walks.walked(removal(), facts)


def told(nose: str, on_nose: str, take_off: str, **more: str) -> dict[str, str]:
    """The closed facts of one job."""
    facts = {"nose": nose, "on-nose": on_nose, "guard-fitted": "yes", "turns-freely": "yes"}
    facts |= {"take-off": take_off} if take_off else {}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


each_job = pytest.mark.parametrize(("on_nose", "take_off"), LEFT)
each_nose = pytest.mark.parametrize("nose", NOSES)
each_support = pytest.mark.parametrize("turns", ["yes", "no"])


@each_nose
@each_job
@each_support
def test_every_job_goes_through_and_leaves_what_was_asked_for(
    nose: str, on_nose: str, take_off: str, turns: str
) -> None:
    """The nose is bare, or the plate stands on it alone and locked; the lathe is isolated."""
    *_, (place, world, _) = walked(told(nose, on_nose, take_off, support_turns=turns))
    left = {"power": "isolated", "carried": "nothing", **LEFT[on_nose, take_off]}
    assert place == "finished"
    assert {name: as_dict(world)[name] for name in left} == left


@each_nose
@each_job
def test_nothing_is_let_go_before_the_support_was_proved(
    nose: str, on_nose: str, take_off: str
) -> None:
    """With a body on the nose, lock and bolts stay until the support gate has been passed."""
    steps = list(walked(told(nose, on_nose, take_off, support_turns="no")))
    places = [place for place, _, _ in steps]
    for number, (_, _, did) in enumerate(steps):
        before = steps[number - 1][1]
        if {"unlock", "take bolts out"} & set(did) and value(before, "body") == "on-plate":
            assert value(before, "carried") == "chuck"
            assert "support-gate" in places[:number]


@each_nose
def test_only_the_words_of_this_nose_are_shown(nose: str) -> None:
    """A cam-lock is never told to turn a draw nut."""
    places = [place for place, _, _ in walked(told(nose, "this-chuck", "whole"))]
    shown = {place for place in places if place.startswith(("unlock-", "off-"))}
    assert shown == {f"unlock-{nose}", f"off-{nose}"}


def test_what_nobody_can_name_is_not_touched() -> None:
    """Something unknown on the nose ends the walk before any action."""
    steps = list(walked(told("long", "unknown", "")))
    assert steps[-1][0] == "abandoned"
    assert all(did == () for _, _, did in steps)
    assert steps[-1][1] == UNKNOWN


@each_job
def test_a_spindle_that_binds_ends_the_walk_isolated_and_fast(on_nose: str, take_off: str) -> None:
    """Nothing has been let go by then."""
    facts = told("camlock", on_nose, take_off) | {"turns-freely": "no"}
    *_, (place, world, _) = walked(facts)
    assert place == "abandoned"
    assert (value(world, "power"), value(world, "seat")) == ("isolated", "locked")


def test_isolating_is_the_same_work_in_the_same_spelling_as_for_mounting() -> None:
    """One who knows the one stage knows the other, up to where the spindle may be touched."""

    def isolating(procedure: Procedure) -> list[tuple[object, ...]]:
        work = [_work(step) for step in procedure.steps if step.stage == "isolating"]
        return work[: [each[0] for each in work].index("free-spindle") + 1]

    assert isolating(removal()) == isolating(find("adjustable-chuck"))


def _work(step: Step) -> tuple[object, ...]:
    """What a step is and does, without its words and places."""
    does = tuple((each.action, each.only_if) for each in step.does)
    checks = tuple((each.sets, each.confirms) for each in step.checks)
    return step.name, step.kind, does, step.needs, step.when, step.opens, checks


def test_work_that_carries_or_lets_go_has_a_caution() -> None:
    """Whatever unlocks, takes off, takes up, parts or sets down can hurt, and says how."""
    heavy = {"unlock", "take off nose", "take up chuck", "part", "set down", "take bolts out"}
    for step in removal().steps:
        if heavy & {each.action for each in step.does}:
            assert step.cautions, step.name


def test_the_check_finds_nothing_wrong() -> None:
    """Every nose, every job, and every change that making sure might find on the way."""
    finding = check(removal())
    assert finding.problems == ()
    assert finding.changes > 10_000
