"""A reading at one screw is compared with what that place of the bar read, lobes and all."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from guide.measure.angles import across
from guide.measure.truing.asked import Move, Torque
from guide.measure.truing.facts import Facts

Bars = Callable[..., Any]


@pytest.mark.parametrize("screws", [3, 4, 6])
@pytest.mark.parametrize("lobes", [0.0003, 0.0004])
def test_no_screw_is_asked_back_in_one_round_because_of_lobes(
    bar: Bars, screws: int, lobes: float
) -> None:
    """Every move is done as asked, so each direction is asked once between two torques."""
    facts = Facts("in", Decimal("0.001"), Decimal("0.0001"), screws=screws, sense="toward")
    body = bar(-0.0031 + 0.0012j, lobes=lobes)
    stop = body.walk(facts)
    assert "form" in stop.flags
    moved: list[int] = []
    for each in body.asked:
        if isinstance(each, Torque):
            moved = []
        elif isinstance(each, Move):
            assert not {each.screw, across(each.screw, screws)} & set(moved)
            moved.append(each.screw)
