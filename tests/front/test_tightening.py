"""What a tightening step shows of order and torque is what its kind of tightening is done by."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from guide.front.tightening import passes
from guide.present.usual import units
from guide.walk.answers import quantity

SIX: Any = SimpleNamespace(facts={"bolt-count": "6"})


def shown(kind: str, typed: str = "33 ft-lb") -> list[list[str]]:
    """The lines of a tightening of six bolts, each by its words."""
    step: Any = SimpleNamespace(tighten=kind)
    return [line.split() for line in passes(step, SIX, typed).splitlines()]


@pytest.mark.parametrize("kind", ["snug", "ease"])
def test_snug_shows_the_order_and_no_torque(kind: str) -> None:
    """Snug lets a screw shift the body, which bolts at a third of their torque do not."""
    assert shown(kind) == [["1-4-2-5-3-6"]]


def test_a_check_goes_round_at_the_whole_torque_alone() -> None:
    """A wrench set to a third of it clicks on a tight bolt and shows nothing."""
    assert shown("check") == [["1-2-3-4-5-6", "33", "lbf·ft"]]


def test_a_torque_comes_up_in_stages_and_ends_with_a_round() -> None:
    """Across at rising shares, then round at all of it."""
    told = shown("torque")
    assert [line[1:3] for line in told[:3]] == [["30", "%"], ["70", "%"], ["100", "%"]]
    assert told[3] == ["1-2-3-4-5-6", "then", "round", "33", "lbf·ft"]


def test_without_a_torque_the_orders_stand_alone() -> None:
    """By feel the stages are the same."""
    assert shown("check", "") == [["1-2-3-4-5-6"]]
    assert shown("snug", "") == [["1-4-2-5-3-6"]]


def test_the_program_writes_one_sign_for_a_torque_of_feet_and_pounds() -> None:
    """What it offers to pick is what it writes in its stages; typed, every usual way is read."""
    picked = units("torque")
    assert {quantity("torque", f"33 {each}").unit for each in picked} == {*picked}
    for typed in ("ft-lb", "lb-ft", "lbf·ft"):
        assert shown("check", f"33 {typed}") == [["1-2-3-4-5-6", "33", picked[0]]]
