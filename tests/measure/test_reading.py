"""A series says what was read, where, and which way the plunger moves."""

from __future__ import annotations

from decimal import Decimal

import pytest

from guide.measure.reading import Reading, Series, Sweep, sign_of
from guide.measure.runout import of_series, runout
from guide.plain import BadInput

READ = tuple(Reading(90.0 * i, Decimal(v), i + 1) for i, v in enumerate((0, 12, 20, 8)))


def test_a_series_gives_the_same_runout_as_its_numbers():
    """Closure, sweep and surface go with it."""
    series = Series(
        READ, "thou", surface="inside", closure=Decimal(2), watched=Sweep(Decimal(0), Decimal(20))
    )
    plain = runout(
        series.values, "thou", series.angles, closure=2, watched=series.watched, surface="inside"
    )
    assert of_series(series) == plain
    assert "zero-moved" in (plain.flags or ())


def test_a_sweep_has_its_lowest_first():
    """The other order is a slip."""
    assert Sweep(Decimal(-1), Decimal(4)).width == 5
    with pytest.raises(BadInput, match="lowest"):
        Sweep(Decimal(4), Decimal(-1))


def test_a_series_refuses_what_it_does_not_know():
    """Unit and surface come from closed lists."""
    with pytest.raises(BadInput, match="unit"):
        Series(READ, "cm")
    with pytest.raises(BadInput, match="surface"):
        Series(READ, "mm", surface="top")


def test_inside_a_bore_the_sign_turns_round():
    """Plunger pushed in means the wall came in, so the body went the other way."""
    assert (sign_of("outside"), sign_of("inside")) == (1, -1)
