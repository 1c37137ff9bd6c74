"""What is asked while the sense is unknown, and of screws that do not go."""

from __future__ import annotations

from cmath import exp
from collections.abc import Callable
from decimal import Decimal
from math import radians
from typing import Any

import pytest

from guide.measure.truing.asked import Torque
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import WasMoved
from guide.measure.truing.noise import with_angle
from guide.measure.truing.reads import _less_angle

Bars = Callable[..., Any]


def facts(screws: int, sense: str = "unknown") -> Facts:
    """A dial of 0.0001 and 0.001 wanted."""
    return Facts("in", Decimal("0.001"), Decimal("0.0001"), screws=screws, sense=sense)  # type: ignore[arg-type]


@pytest.mark.parametrize("screws", [3, 4, 5, 6])
@pytest.mark.parametrize("high", range(0, 360, 40))
def test_until_the_sense_is_known_the_dial_is_always_to_rise(
    bar: Bars, screws: int, high: int
) -> None:
    """Whatever way the centre is off, the first move is one that the needle shows by rising."""
    body = bar(0.003 * exp(1j * radians(high)))
    stop = body.walk(facts(screws))
    first = body.moves[0]
    assert first.tighten is None
    assert first.by > 0
    assert stop.verdict == "within"


@pytest.mark.parametrize("tightened", [True, False])
def test_a_sense_that_nobody_told_cannot_be_the_wrong_way(bar: Bars, tightened: bool) -> None:
    """Presumed one way and found the other: nothing was claimed, so nothing is flagged."""
    body = bar(0.003 + 0.002j, tightened=tightened, goes=1.0)
    stop = body.walk(facts(4))
    assert stop.verdict == "within"
    assert "wrong-way" not in stop.flags


def test_a_presumed_sense_that_a_named_move_turns_round_is_not_flagged(bar: Bars) -> None:
    """After the first move it is only presumed; the second goes the other way."""
    body = bar(-0.003 - 0.001j)
    known = facts(4)
    first = None
    for _ in range(20):
        asked = body.walk_one(known)
        if isinstance(asked, Torque):
            break
        if isinstance(body.heard[-1], WasMoved):
            first = first or len(body.heard)
            body.goes = -1.0 if first == len(body.heard) else 1.0
    stop = body.walk(known)
    assert "wrong-way" not in stop.flags


@pytest.mark.parametrize("screws", [3, 4, 6])
@pytest.mark.parametrize("sense", ["toward", "unknown"])
def test_a_stuck_screw_is_asked_twice_in_all(bar: Bars, screws: int, sense: str) -> None:
    """Then it is given up, whichever way it would be wanted, and others make up for it."""
    body = bar(-0.003 + 0.001j, stuck=(1,))
    stop = body.walk(facts(screws, sense))
    refused = [each for each in body.heard if isinstance(each, WasMoved) and not each.done]
    assert len(refused) <= 2
    assert (stop.verdict == "within") == (screws != 4)


def test_a_screw_that_sticks_counts_though_the_needle_stirred_the_other_way(bar: Bars) -> None:
    """A division of noise after a refusal does not hide it."""
    body = bar(-0.003 + 0.001j, stuck=(1,), drift=-0.00002)
    body.walk(facts(3, "toward"))
    refused = [each for each in body.heard if isinstance(each, WasMoved) and not each.done]
    assert len(refused) <= 2


def test_a_knock_that_hides_in_an_angle_by_eye_says_little_of_the_reading() -> None:
    """Of 0.0015 at a slope of 0.01 a part is u's, as large as u is in the whole variance."""
    u, slope = 0.00008, 0.01
    kept = _less_angle(0.0015, slope, u)
    assert kept == pytest.approx(0.0015 * u / with_angle(u, slope))
    assert kept < 3 * 2**0.5 * u
    assert _less_angle(0.0001, 0.0, u) == pytest.approx(0.0001)


def test_a_hidden_knock_does_not_inflate_the_uncertainty(bar: Bars) -> None:
    """The same bar, knocked by 0.001 in a turn at e = 0.01, ends with about the same U."""
    ends = []
    for knock in (0.0, 0.001):
        body = bar(0.007 + 0.007j, knock=knock, knocked=3)
        ends.append(body.walk(facts(4, "toward")))
    assert {each.verdict for each in ends} == {"within"}
    assert ends[1].expanded_uncertainty < 1.1 * ends[0].expanded_uncertainty
