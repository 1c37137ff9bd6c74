"""A zero that creeps with every reading is reckoned with, and does not stand in the way."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from guide.measure.truing.belief import nothing_known
from guide.measure.truing.facts import Facts

FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"), sense="toward")
Bars = Callable[..., Any]


@pytest.mark.parametrize("drift", [0.0001, 0.0002, -0.0001])
@pytest.mark.parametrize("screws", [3, 4, 6])
def test_a_zero_that_creeps_a_division_a_reading_costs_turns_and_no_rounds(
    bar: Bars, drift: float, screws: int
) -> None:
    """Two sets are thrown away, then the drift is taken out: truly within in two rounds."""
    facts = Facts("in", Decimal("0.001"), Decimal("0.0001"), screws=screws, sense="toward")
    body = bar(-0.003 + 0.0012j, drift=drift, division=0.0001)
    stop = body.walk(facts)
    assert stop.verdict == "within"
    assert {"zero-moved", "drifting"} <= set(stop.flags)
    assert 2 * abs(body.centre) <= 0.001
    assert body.rounds <= 2


def test_another_turn_joins_the_one_before_it_though_the_zero_crept_on(bar: Bars) -> None:
    """Near the tolerance more turns are read: they are counted together and it comes to an end."""
    body = bar(0.00045 + 0j, drift=0.00009)
    stop = body.walk(FACTS)
    assert stop.verdict == "within"
    assert body.rounds <= 1
    assert body.readings < 80


def test_a_zero_that_crept_is_known_the_less_and_the_centre_as_well_as_before() -> None:
    """The state moves by what it crept, the variance grows by the square of what is doubted."""
    belief = nothing_known([0.0, 1.0])
    for angle in (0.0, 90.0, 180.0, 270.0):
        belief = belief.read(angle, 0.5, 0.1)
    crept = belief.drifted(0.2, 0.3)
    assert crept.centre == belief.centre
    assert crept.zero == pytest.approx(belief.zero + 0.2)
    assert crept.spread[2][2] == pytest.approx(belief.spread[2][2] + 0.09)


@pytest.mark.parametrize("drift", [0.00003, 0.00004, 0.00005, 0.00006])
@pytest.mark.parametrize("off", [0.00030, 0.00038, 0.00042, 0.00046])
def test_a_drift_too_slow_for_one_turn_does_not_let_turns_begin_again_for_ever(
    bar: Bars, drift: float, off: float
) -> None:
    """Each turn alone looks steady and the next stands elsewhere: they are counted together."""
    body = bar(complex(off, off / 4), drift=drift, division=0.0001)
    stop = body.walk(FACTS)
    assert stop.verdict == "within"
    assert body.readings < 200


def test_a_turn_from_which_a_drift_was_taken_out_is_trusted_less(bar: Bars) -> None:
    """The same bar, with and without a drift: the reported uncertainty is larger with it."""
    steady = bar(0.0001 + 0j).walk(FACTS)
    crept = bar(0.0001 + 0j, drift=0.0001).walk(FACTS)
    assert crept.expanded_uncertainty > 1.2 * steady.expanded_uncertainty
