"""One wrong reading is never called a bar that is out of round; a bar that is, is, by two turns."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.measure.advice import advise
from guide.measure.truing.asked import Asked, Move, Read, Stop
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasRead
from guide.measure.truing.hearing import told

Bars = Callable[..., Any]
COARSE = Facts("in", Decimal("0.001"), Decimal("0.0005"), sense="toward")
FINE = Facts("in", Decimal("0.001"), Decimal("0.0001"), sense="toward")
CALLED = "out of round by more than is asked"


def heard(asked: Asked, *values: str) -> WasRead:
    """These values at the places asked."""
    assert isinstance(asked, Read)
    assert len(asked.angles) == len(values)
    return WasRead(asked.angles, tuple(map(Decimal, values)), asked.station)


def test_one_wrong_sign_at_four_positions_asks_for_another_turn() -> None:
    """A real slip: the bar is not called out of round, and what cannot be told apart is said."""
    first = heard(advise(COARSE, []), "0", ".0015", "-.0069", "-.0055", "0")
    asked = advise(COARSE, [first])
    assert isinstance(asked, Read)
    assert len({angle % 360 for angle in asked.angles}) == 8
    assert CALLED not in str(asked.why)
    assert "out of round and one wrong reading look alike" in str(asked.why)


def test_the_turn_read_again_stands_in_place_of_the_slip(bar: Bars) -> None:
    """What is advised then is what it would be if the slip had never been read."""
    body = bar(0.0035 - 0.001j, division=0.0005)
    body.walk_one(COARSE)
    slip = _with_a_slip(body.heard[0], 1, 70)
    again = advise(COARSE, [slip])
    assert isinstance(again, Read)
    second = body.answer(again, 4)
    after, clean = told(COARSE, [slip, second]), told(COARSE, [second])
    assert after.taken == clean.taken
    assert not after.zero_moved
    moves = [advise(COARSE, each) for each in ([slip, second], [second])]
    assert isinstance(moves[0], Move)
    assert isinstance(moves[1], Move)
    assert (moves[0].screw, moves[0].bring_to) == (moves[1].screw, moves[1].bring_to)


@settings(
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    st.tuples(st.integers(-60, 60), st.integers(-60, 60)),
    st.integers(1, 7),
    st.integers(-90, 90),
    st.sampled_from((3, 4, 6)),
)
def test_no_single_slip_in_one_turn_is_ever_called_a_bar_out_of_round(
    bar: Bars, off: tuple[int, int], place: int, slip: int, screws: int
) -> None:
    """Whichever reading, whatever it was typed as, near the axis or far off: it ends within."""
    body = bar(complex(*off) / 20000, division=0.0001)
    facts = Facts("in", Decimal("0.001"), Decimal("0.0001"), screws=screws, sense="toward")
    body.before = body.centre
    slipped = False
    for _ in range(60):
        asked = body.walk_one(facts)
        assert CALLED not in str(asked.why)
        if isinstance(asked, Stop):
            break
        if isinstance(asked, Read) and len(asked.angles) > 4 and not slipped:
            body.heard[-1], slipped = _with_a_slip(body.heard[-1], place, slip), True
    assert isinstance(asked, Stop)
    assert asked.verdict == "within"
    assert 2 * abs(body.centre) <= 0.001


def _with_a_slip(told_of: Heard, place: int, slip: int) -> WasRead:
    """One reading of a turn, but not the first or the last, off by so many tenths of a thou."""
    assert isinstance(told_of, WasRead)
    at = 1 + place % (len(told_of.values) - 2)
    values = list(told_of.values)
    values[at] += Decimal(slip) / 10000
    return WasRead(told_of.angles, tuple(values), told_of.station)


@pytest.mark.parametrize("screws", [3, 4, 6])
@pytest.mark.parametrize("lobes", [0.001, 0.003])
def test_a_bar_that_is_out_of_round_is_called_so_when_a_second_turn_shows_the_same(
    bar: Bars, screws: int, lobes: float
) -> None:
    """And not before it."""
    body = bar(0.0002 + 0j, lobes=lobes, division=0.0001)
    facts = Facts("in", Decimal("0.001"), Decimal("0.0001"), screws=screws, sense="toward")
    stop = body.walk(facts)
    assert CALLED in str(stop.why)
    assert "Two turns show the same" in str(stop.why)
    assert (stop.verdict, "form" in stop.flags) == ("outside", True)
    whole = [each for each in body.asked if isinstance(each, Read) and len(each.angles) > 2]
    assert len(whole) >= 2


def test_a_form_that_is_another_one_each_time_is_not_called_the_bar() -> None:
    """Turn after turn another place is off: it ends, undecided, and says what it may be."""
    said: list[Heard] = []
    for place in range(1, 20):
        asked = advise(FINE, said)
        if isinstance(asked, Stop):
            break
        assert isinstance(asked, Read)
        values = ["0"] * len(asked.angles)
        values[1 + place % (len(values) - 2)] = "0.008"
        said.append(heard(asked, *values))
    assert isinstance(asked, Stop)
    assert asked.verdict == "undecided"
    assert CALLED not in str(asked.why)
    assert "another form" in str(asked.why)


def test_a_turn_in_doubt_teaches_nothing_until_another_one_shows_the_same(bar: Bars) -> None:
    """No shift of the bolts is learned from a slip after the torque."""
    body = bar(-0.003 + 0.001j, division=0.0001)
    body.before = body.centre
    while not body.rounds:
        body.walk_one(FINE)
    body.walk_one(FINE)
    clean = told(FINE, body.heard).known.shifts
    slip = _with_a_slip(body.heard[-1], 2, 90)
    assert told(FINE, [*body.heard[:-1], slip]).known.shifts == ()
    assert told(FINE, [*body.heard[:-1], slip, body.heard[-1]]).known.shifts == clean != ()
