"""The face of the dial: what is numbered where, and what is to be read off it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.practice.dial import COARSE, FINE
from guide.practice.kept import dial, dial_text

SHOWN = st.floats(-0.02, 0.02)
ROUND = replace(FINE["in"], numbering="continuous")


@given(SHOWN)
def test_the_nearest_division_is_at_most_half_a_division_off(inches: float) -> None:
    """On both kinds of face, by the shorter way round."""
    for one in (FINE["in"], ROUND, FINE["mm"], COARSE["mm"]):
        assert abs(one.off(one.nearest(inches), inches)) <= 0.5 + 1e-6


@given(SHOWN)
def test_a_face_that_counts_on_shows_nothing_below_zero(inches: float) -> None:
    """It begins again at its highest number: 0, 96, 93, 97."""
    assert 0 <= ROUND.nearest(inches) < ROUND.per_turn
    assert 0 <= ROUND.exactly(inches) <= float(ROUND.per_turn)


def test_four_tenths_below_zero_reads_ninety_six() -> None:
    """The trap of a dial that rolls over."""
    assert ROUND.nearest(-0.0004) == Decimal("0.0096")
    assert ROUND.off(Decimal("-0.0004"), -0.0004) == pytest.approx(0)
    assert FINE["in"].nearest(-0.0004) == Decimal("-0.0004")


def test_a_balanced_face_is_numbered_both_ways() -> None:
    """Up to half way and down again; one that counts on never goes down."""
    assert [FINE["in"].mark(step) for step in (0, 25, 50, 75, -10)] == ["0", "25", "50", "25", "10"]
    assert [ROUND.mark(step) for step in (0, 25, 50, 75, -10)] == ["0", "25", "50", "75", "90"]


def test_inches_are_turned_into_millimetres_at_the_door() -> None:
    """One thou is 25.4 µm, exactly."""
    assert COARSE["mm"].of_inches(0.001) == pytest.approx(0.0254)
    assert COARSE["mm"].to_inches(0.0254) == pytest.approx(0.001)
    assert COARSE["mm"].nearest(0.001) == Decimal("0.03")


@pytest.mark.parametrize("one", [*FINE.values(), ROUND, replace(COARSE["mm"], digital=True)])
def test_a_dial_comes_back_from_its_text(one: object) -> None:
    """What the journal keeps is all there is."""
    assert dial(dial_text(one)) == one  # type: ignore[arg-type]
