"""The order and the stages of a ring of bolts."""

from __future__ import annotations

import json
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.tightening import WITHOUT_A_TORQUE_WRENCH, order, stages

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_tightening.json").read_text(encoding="utf-8")
)
TORQUES = st.decimals("0.1", "1000", places=2)


@pytest.mark.parametrize(("bolts", "expected"), SEEN["orders"]["expected"].items())
def test_cross_sequences_of_the_flange_guideline(bolts: str, expected: list) -> None:
    """ASME PCC-1 for 4, 8, 12 and 16 bolts (from memory)."""
    assert list(order(int(bolts))) == expected


@pytest.mark.parametrize("bolts", range(2, 25))
def test_every_bolt_comes_once(bolts: int) -> None:
    """The order is a permutation that begins at bolt 1."""
    assert sorted(order(bolts)) == list(range(1, bolts + 1))
    assert order(bolts)[0] == 1


@pytest.mark.parametrize("bolts", range(4, 25, 2))
def test_opposite_bolts_follow_each_other(bolts: int) -> None:
    """For an even number, each pair in the order is half a ring apart."""
    turn = order(bolts)
    for first, second in zip(turn[::2], turn[1::2], strict=True):
        assert abs(first - second) == bolts // 2


@pytest.mark.parametrize("bolts", range(5, 25, 2))
def test_an_odd_ring_is_a_star(bolts: int) -> None:
    """Each step goes as near to straight across as an odd number allows."""
    turn = order(bolts)
    for first, second in pairwise(turn):
        apart = abs(first - second)
        assert min(apart, bolts - apart) == bolts // 2


@pytest.mark.parametrize("bolts", [-1, 0, 1, 25])
def test_a_ring_of_another_size_is_refused(bolts: int) -> None:
    """One bolt is no ring, and more than 24 is no chuck."""
    with pytest.raises(BadInput):
        order(bolts)
    with pytest.raises(BadInput):
        stages(bolts)


def test_cross_passes_lie_in_the_published_ranges() -> None:
    """PCC-1 as quoted: 20-30, 50-70, 100 %, then a circular check pass at 100 %."""
    *passes, check = stages(8)
    for stage, (low, high) in zip(passes, SEEN["flange_passes"]["percent"], strict=True):
        assert low <= stage.percent <= high
        assert stage.kind == "cross"
    assert (check.kind, check.percent, check.order) == ("check", 100, tuple(range(1, 9)))


def test_the_agencys_passes_are_among_them() -> None:
    """TB 9-2320-279-13&P-2 (seen): 70 % and again to the final value."""
    assert {70, 100} == set(SEEN["agency_passes"]["percent"])
    assert {70, 100} <= {stage.percent for stage in stages(4)}


def test_three_bolts_go_round_in_small_stages_then_a_check() -> None:
    """Three have no cross (common practice, no source): round, steps of a quarter, then a check."""
    found = stages(3)
    assert [stage.kind for stage in found] == ["round"] * 4 + ["check"]
    assert [stage.percent for stage in found] == [25, 50, 75, 100, 100]
    assert all(stage.order == (1, 2, 3) for stage in found)


@given(st.integers(2, 24), TORQUES)
def test_stages_rise_exactly_to_the_persons_torque(bolts: int, torque: Decimal) -> None:
    """Each share is exact, none is above the torque, and the last two are the torque as given."""
    found = stages(bolts, torque)
    shares = [stage.torque for stage in found]
    assert shares == sorted(shares)
    assert shares[-2:] == [torque, torque]
    assert all(stage.torque * 100 == torque * stage.percent for stage in found)


def test_without_a_torque_the_stages_are_shares_alone() -> None:
    """No figure is made up for a torque that was not given."""
    assert {stage.torque for stage in stages(6)} == {None}


@pytest.mark.parametrize("torque", ["0", "-5", "NaN", "Infinity"])
def test_a_torque_is_above_zero(torque: str) -> None:
    """Anything else is bad input."""
    with pytest.raises(BadInput):
        stages(4, Decimal(torque))


def test_by_feel_is_said_and_recorded() -> None:
    """Without a torque wrench the sentence says what then, and that the torque is not known."""
    for word in ("no pipe", "stages", "by feel", "not known"):
        assert word in WITHOUT_A_TORQUE_WRENCH
