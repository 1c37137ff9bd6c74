"""Rounds that do nothing end soon; the body is not blamed for a hand that falls short, or bolts."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from guide.measure.truing.facts import Facts

FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"), sense="toward")
UNKNOWN = Facts("in", Decimal("0.001"), Decimal("0.0001"))
Bars = Callable[..., Any]


@pytest.mark.parametrize("goes", [0.7, 0.6])
@pytest.mark.parametrize("far", [0.01, 0.02, 0.04])
def test_a_hand_that_always_falls_short_is_not_a_body_that_is_held(
    bar: Bars, goes: float, far: float
) -> None:
    """What it moved, it moved: the runout shrinks with every round, and it ends within."""
    body = bar(complex(-far, far / 3), goes=goes)
    stop = body.walk(FACTS)
    assert stop.verdict == "within"
    assert "beyond-travel" not in stop.flags


@pytest.mark.parametrize("facts", [FACTS, UNKNOWN], ids=["told", "unknown"])
def test_moves_that_nobody_reads_and_that_do_nothing_end_in_four_rounds(
    bar: Bars, facts: Facts
) -> None:
    """The turn after the torque shows that nothing was done, again and again."""
    body = bar(-0.003 + 0.001j, idle=99, quiet=True)
    stop = body.walk(facts)
    assert stop.verdict == "outside"
    assert stop.flags[:1] == ("beyond-travel",)
    assert "did not do what they were to do" in str(stop.why)
    assert body.rounds <= 4


def test_one_round_that_was_forgotten_is_not_held_against_the_body(bar: Bars) -> None:
    """Nothing was done once; then it was: within, no shift of the bolts was learned from it."""
    body = bar(-0.003 + 0.001j, idle=1, quiet=True)
    stop = body.walk(FACTS)
    assert (stop.verdict, stop.flags) == ("within", ())
    assert body.rounds == 2


def test_a_body_held_off_is_found_in_three_rounds_though_nobody_calls_it_held(bar: Bars) -> None:
    """It comes so far and no further, 0.002 from true, and nobody reads the needle."""
    body = bar(0.007 + 0j, stop=0.002, quiet=True)
    stop = body.walk(FACTS)
    assert "beyond-travel" in stop.flags
    assert body.rounds <= 3


def test_what_the_needle_showed_and_the_torque_took_back_is_not_held_against_the_body(
    bar: Bars,
) -> None:
    """It was moved each time: then it is the bolts, and the stop says so."""
    stop = bar(0.003 + 0j, back=True).walk(FACTS)
    assert "beyond-travel" not in stop.flags
    assert "process-limited" in stop.flags
