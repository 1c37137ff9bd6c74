"""Each sentence is said only where it is so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from guide.measure.truing import moves, plan, stopping
from guide.measure.truing.asked import Read, Torque
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.measure.truing.hearing import told
from guide.measure.truing.judging import judge

FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"), sense="toward")
Bars = Callable[..., Any]


def turn(x: str, y: str) -> WasRead:
    """Four screws of a centre that is off by so much."""
    a, b = Decimal(x), Decimal(y)
    return WasRead((0.0, 90.0, 180.0, 270.0), (a, b, -a, -b), FACTS.stations[0])


def moved(screw: int, by: str, *, done: bool = True) -> WasMoved:
    """A move that nobody read."""
    return WasMoved(screw, Decimal(by), done=done, why="" if done else "stuck")


@pytest.mark.parametrize(
    ("heard", "said"),
    [
        ([moved(1, "-0.004"), moved(2, "-0.002")], moves.TORQUE),
        ([moved(1, "-0.004")], moves.ONE_SET),
        ([moved(1, "-0.004"), moved(2, "-0.002", done=False)], moves.REFUSED),
        ([], moves.NONE_SET),
    ],
)
def test_the_torque_says_what_was_set(heard: list[Heard], said: str) -> None:
    """Both directions, one, not the one that would not go, or none."""
    why = moves.torque(told(FACTS, [turn("0.004", "0.002"), *heard])).why
    assert why.sentences == (said,)


def test_one_direction_alone_is_said_to_be_one(bar: Bars) -> None:
    """Out toward screw 1 only."""
    body = bar(-0.003 + 0j)
    body.walk(FACTS)
    said = [each.why.sentences for each in body.asked if isinstance(each, Torque)]
    assert said == [(moves.ONE_SET,)]


def test_far_out_is_not_said_to_be_near_the_tolerance() -> None:
    """Nothing was moved in the second round and it was 0.004 off: the screws alone are read."""
    heard = [turn("0.004", "0"), moved(1, "-0.0001"), WasTorqued()]
    story = told(FACTS, heard)
    assert abs(story.belief.centre) > 0.003  # type: ignore[union-attr]
    asked = plan.turn(story, FACTS.stations[0])
    assert asked.why.sentences == (plan.COARSE,)
    assert len(asked.angles) == 5


def test_near_the_tolerance_it_is_said() -> None:
    """Moved as far as it was off."""
    story = told(FACTS, [turn("0.004", "0"), moved(1, "-0.004"), WasTorqued()])
    assert plan.turn(story, FACTS.stations[0]).why.sentences == (plan.FINE,)


@pytest.mark.parametrize(("rule", "said"), [("simple", "SIMPLE"), ("guarded", "WITHIN")])
def test_the_end_names_the_rule_it_was_reached_by(bar: Bars, rule: str, said: str) -> None:
    """No guard band is claimed under simple acceptance."""
    stop = bar(0.0001 + 0j).walk(replace(FACTS, rule=rule))
    assert stop.why.sentences == (getattr(stopping, said),)
    assert ("with its guard band" in str(stop.why)) == (rule == "guarded")


@pytest.mark.parametrize(
    ("misses", "shifts", "said"),
    [((0.001,) * 5, (), "BY_HAND"), ((), (0.001 + 0j, -0.001 + 0j) * 3, "LIMITED")],
)
def test_the_limit_names_hand_or_bolts_by_what_was_larger(
    misses: tuple[float, ...], shifts: tuple[complex, ...], said: str
) -> None:
    """With the size of that one alone."""
    story = told(FACTS, [turn("0.004", "0.002")])
    story.known = replace(story.known, misses=misses, shifts=shifts)
    story.rounds = stopping.MOST_ROUNDS
    seen = [judge(story, FACTS.stations[0])]
    assert seen[0] is not None
    stop = stopping.stop(story, seen)  # type: ignore[arg-type]
    assert stop is not None
    assert stop.why.sentences[0] == getattr(stopping, said)


def test_until_the_sense_is_known_the_bolts_are_to_be_eased_first(bar: Bars) -> None:
    """The first move of a round says so; after it they are eased."""
    body = bar(-0.004 + 0.003j, quiet=True)
    body.walk(replace(FACTS, sense="unknown"))
    assert "ease the bolts one stage, never slack" in str(body.moves[0].why)
    assert body.asked.index(body.moves[0]) == 1
    assert isinstance(body.asked[0], Read)
