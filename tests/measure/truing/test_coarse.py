"""A coarse dial says no more than it can: its U covers, and nothing unproven is called outside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from math import cos, radians
from typing import Any

import pytest

from guide.measure.angles import even
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import WasRead
from guide.measure.truing.hearing import told
from guide.measure.truing.judging import Judgement, judge

COARSE = Facts("in", Decimal("0.001"), Decimal("0.0005"), sense="toward")
Bars = Callable[..., Any]


def judged(facts: Facts, tir: float, high: float, zero: float, count: int = 8) -> Judgement:
    """A round bar of this runout, without noise, read to the nearest division."""
    division = float(facts.graduation)
    values = [zero + tir / 2 * cos(radians(angle - high)) for angle in even(count)]
    read = tuple(round(each / division) * facts.graduation for each in values)
    found = judge(told(facts, [WasRead(even(count), read, facts.stations[0])]), Decimal(1))
    assert found is not None
    return found


@pytest.mark.parametrize("rule", ["simple", "guarded"])
def test_u_covers_every_runout_that_hides_in_two_divisions(rule: str) -> None:
    """Whatever the high spot and the zero: the true runout is within U of the judged one."""
    facts = replace(COARSE, rule=rule)
    for tir in range(11):
        for high in range(0, 45, 9):
            for zero in range(5):
                true = tir / 10000
                one = judged(facts, true, high, zero / 10000)
                assert abs(one.judged - true) <= 2 * one.u_tir


def test_simple_acceptance_is_not_given_where_u_is_above_half_the_tolerance() -> None:
    """At two divisions it is judged with the guard band, and recorded as such; at three not."""
    facts = replace(COARSE, rule="simple")
    assert judged(facts, 0.0004, 0, 0).decision.rule == "guarded"
    assert judged(replace(facts, tolerance=Decimal("0.003")), 0, 0, 0).decision.rule == "simple"


@pytest.mark.parametrize("tir", [0.0, 0.0004, 0.0009])
def test_the_rule_is_a_question_of_the_dial_and_not_of_one_turn(tir: float) -> None:
    """At two divisions simple acceptance is never given, however far the readings spread."""
    facts = replace(COARSE, rule="simple")
    assert {judged(facts, tir, high, 0).decision.rule for high in range(0, 45, 9)} == {"guarded"}


def test_two_divisions_of_spread_are_trusted_more_than_none() -> None:
    """What one division can hide is more than a turn errs by whose readings show the runout."""
    facts = replace(COARSE, tolerance=Decimal("0.002"))
    hidden, seen = judged(facts, 0.0, 0, 0), judged(facts, 0.0015, 10, 0)
    assert seen.found.observed_tir >= 0.001
    assert seen.u_tir < hidden.u_tir


def test_no_runout_above_the_tolerance_is_within_on_two_divisions_by_simple_acceptance() -> None:
    """Up to a fifth above it, whatever the high spot and the zero."""
    facts = replace(COARSE, rule="simple")
    for tir in range(101, 121):
        for high in range(0, 45, 5):
            for zero in range(0, 50, 5):
                one = judged(facts, tir / 100000, high, zero / 100000)
                assert one.decision.verdict != "within"


def test_four_readings_that_a_bar_within_tolerance_can_give_are_not_called_outside() -> None:
    """One division up and one down on a dial of 0.001: the bar may be within 0.001 all the same."""
    facts = Facts("in", Decimal("0.001"), Decimal("0.001"))
    one = judged(facts, 0.001, 0, 0, 4)
    assert one.found.observed_tir == 0
    values = tuple(Decimal(each) / 1000 for each in (1, 0, -1, 0))
    found = judge(told(facts, [WasRead(even(4), values, Decimal(1))]), Decimal(1))
    assert found is not None
    assert found.decision.verdict == "undecided"


def test_what_is_plainly_outside_is_so_on_any_dial() -> None:
    """Ten divisions of range cannot come from a bar within one."""
    facts = Facts("in", Decimal("0.001"), Decimal("0.001"))
    assert judged(facts, 0.010, 0, 0, 4).decision.verdict == "outside"


def test_a_fine_dial_keeps_its_own_u() -> None:
    """Where the needle wanders by a third of a division, averaging tells more than one division."""
    facts = Facts("in", Decimal("0.001"), Decimal("0.0001"))
    one = judged(facts, 0.0, 0, 0)
    assert 2 * one.u_tir < 0.00015
