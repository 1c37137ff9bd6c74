"""A reading at a screw that contradicts the fresh turn is asked about before it moves anything."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.measure.advice import advise
from guide.measure.angles import of_screw
from guide.measure.truing.asked import Move, Read
from guide.measure.truing.contradicting import contradicted
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import WasRead
from guide.measure.truing.hearing import told

Bars = Callable[..., Any]
FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"), sense="toward")
COARSE = Facts("in", Decimal("0.001"), Decimal("0.0005"), sense="toward")
TURN = WasRead(
    (0.0, 90.0, 180.0, 270.0, 360.0),
    tuple(map(Decimal, ("0", "-.0015", "-.0069", "-.0054", "0"))),
    FACTS.stations[0],
)
"""A real turn: screw 3 reads 6.9 thou less than screw 1."""
ANY_BAR = settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def test_a_wrong_sign_at_a_screw_contradicts_the_turn() -> None:
    """The turn said about −0.0069 there."""
    about = contradicted(told(COARSE, [TURN]), 3, Decimal("0.0069"))
    assert about is not None
    assert about == pytest.approx(Decimal("-0.0069"), abs=Decimal("0.0005"))


@ANY_BAR
@given(st.tuples(st.integers(-60, 60), st.integers(-60, 60)), st.integers(1, 4))
def test_what_the_screw_reads_once_more_contradicts_nothing(
    bar: Bars, off: tuple[int, int], screw: int
) -> None:
    """Nor does it a division off, with the usual give of a body that was eased (0.0002 in)."""
    body = bar(complex(*off) / 10000, division=0.0001)
    body.walk_one(FACTS)
    story = told(FACTS, body.heard)
    here = body.read(of_screw(screw, 4))
    for more in ("-0.0003", "0", "0.0003"):
        assert contradicted(story, screw, here + Decimal(more)) is None


@ANY_BAR
@given(
    st.tuples(st.integers(-60, 60), st.integers(-60, 60)),
    st.integers(1, 4),
    st.sampled_from((-1, 1)),
)
def test_a_reading_two_thou_off_contradicts_a_turn_read_to_tenths(
    bar: Bars, off: tuple[int, int], screw: int, way: int
) -> None:
    """Whatever the bar, the screw and the way; and what it should be is within two tenths."""
    body = bar(complex(*off) / 20000, division=0.0001)
    body.walk_one(FACTS)
    here = body.read(of_screw(screw, 4))
    about = contradicted(told(FACTS, body.heard), screw, here + way * Decimal("0.002"))
    assert about is not None
    assert abs(about - here) <= Decimal("0.0002")


def test_nothing_contradicts_before_a_turn_or_after_the_dial_was_set_anew() -> None:
    """There is nothing to hold it against."""
    assert contradicted(told(FACTS, []), 3, Decimal("9")) is None
    anew = WasRead((90.0,), (Decimal("0.0500"),), FACTS.stations[0], rezeroed=True)
    assert told(FACTS, [TURN, anew]).contradiction is None


def test_the_second_screw_is_asked_for_once_more_and_stands_when_it_is_said_again(
    bar: Bars,
) -> None:
    """The first time it moves nothing; the second time it is believed."""
    body = bar(-0.003 + 0.002j, division=0.0001)
    for _ in range(2):
        body.walk_one(FACTS)
    asked = advise(FACTS, body.heard)
    assert isinstance(asked, Read)
    right = body.answer(asked, 4)
    wrong = WasRead(asked.angles, (right.values[0] + Decimal("0.008"),), asked.station)
    again = advise(FACTS, [*body.heard, wrong])
    assert isinstance(again, Read)
    assert again.angles == asked.angles
    assert "say it once more" in str(again.why)
    assert isinstance(advise(FACTS, [*body.heard, right]), Move)
    assert advise(FACTS, [*body.heard, wrong, right]) == advise(FACTS, [*body.heard, right])
    stands = [*body.heard, wrong, wrong]
    assert told(FACTS, stands).contradiction is None
    assert told(FACTS, stands).belief != told(FACTS, [*body.heard, wrong]).belief
