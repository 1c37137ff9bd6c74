"""One page says one thing: a turn judged within is not called undecided by the advice below it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import cos, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.measure.truing.asked import Read
from guide.measure.truing.heard import WasTorqued
from guide.walk.advised import asked, decision, planned, was_read
from guide.walk.figures import of_bar
from guide.walk.state import State, Taken

FACTS = {"unit": "in", "screw-count": "4", "sense": "toward", "tolerance": "0.001 in"}


def behind(values: list[Decimal], state: State) -> State:
    """The state behind one more turn, judged as the record has it."""
    data = {
        "angles": [str(360 * k / len(values)) for k in range(len(values))],
        "values": [str(each) for each in values],
        "closing": str(values[0]),
    }
    figures = of_bar(data, state, "round")
    turn = Taken(1, "round-turn", "round", "turn", {**data, "figures": figures})
    return replace(state, turn=turn, heard=(*state.heard, was_read(turn, state)))


def rounded(size: float, graduation: str) -> Decimal:
    """A value as the dial shows it."""
    return round(Decimal(repr(size)) / Decimal(graduation)) * Decimal(graduation)


def turn_of(off: int, high: int, count: int, graduation: str, noise: list[int]) -> list[Decimal]:
    """A turn of a bar off centre by so many tenths, each reading wrong by so many divisions."""
    clean = (off / 10000 * cos(radians(360 * k / count - high)) for k in range(count))
    division = Decimal(graduation)
    return [
        rounded(each, graduation) + wrong * division
        for each, wrong in zip(clean, noise, strict=False)
    ]


turns = st.tuples(
    st.integers(0, 12), st.integers(0, 359), st.sampled_from((4, 8)),
    st.lists(st.integers(-1, 1), min_size=8, max_size=8),
)  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(st.sampled_from(("0.0001", "0.0005", "0.001")), st.lists(turns, min_size=1, max_size=3))
def test_a_turn_judged_within_is_never_called_undecided_by_the_advice(
    graduation: str, read: list[tuple[int, int, int, list[int]]]
) -> None:
    """Whatever dial, however many turns before it, however they scatter."""
    facts = {**FACTS, "graduation": f"{graduation} in"}
    state = State("s", "t", "verdict", facts=facts)
    for off, high, count, noise in read:
        state = behind(turn_of(off, high, count, graduation, noise), state)
    if state.verdict != "within":
        return
    name, why = decision(state)
    for word in ("ndecided", "not proven", "cannot prove", "far off"):
        assert word not in str(why)
    if name != "accept":
        assert str(why).startswith("The latest turn by itself is within.")
        assert len(why.sentences) > 1


def test_where_turns_scatter_more_than_the_dial_explains_that_is_the_reason() -> None:
    """A turn that was well out, then one within by itself, with nothing moved between them."""
    state = State("s", "t", "verdict", facts={**FACTS, "graduation": "0.0001 in"})
    state = behind(turn_of(9, 0, 8, "0.0001", [0] * 8), state)
    state = behind(turn_of(1, 0, 8, "0.0001", [0] * 8), state)
    assert state.verdict == "within"
    name, why = decision(state)
    assert name != "accept"
    assert "Readings of one place differ" in str(why) or "turns before it" in str(why)


def test_a_coarse_dial_is_named_as_what_may_hide_more() -> None:
    """One division as large as the tolerance: the turn is within, and a finer dial tells more."""
    state = State("s", "t", "verdict", facts={**FACTS, "graduation": "0.001 in"})
    state = behind([Decimal(each) / 1000 for each in (0, 0, 0, 0, 0, 0, 0, 1)], state)
    assert state.verdict == "within"
    name, why = decision(state)
    assert name != "accept"
    assert "A dial of 0.001 in can hide more" in str(why)


@pytest.mark.parametrize("after", [(), (WasTorqued(),)])
def test_after_a_turn_judged_within_nothing_says_that_it_is_still_far_off(
    after: tuple[WasTorqued, ...],
) -> None:
    """Half round, as left, after a check of the bolts: the plan is told without it."""
    state = State("s", "t", "as-left", facts={**FACTS, "graduation": "0.0001 in"})
    within = behind([Decimal(0)] * 8, state)
    assert within.verdict == "within"
    plan = planned(replace(within, heard=after))
    assert plan is not None
    assert "far off" not in str(plan.why)
    assert "Still far off" in str(planned(state).why)  # type: ignore[union-attr]
    assert isinstance(asked(state), Read)
