"""What must not change a result, and what must change only the high spot: the public functions."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import apart, even
from guide.measure.orders import orders
from guide.measure.quantity import LENGTHS
from guide.measure.reading import Sweep
from guide.measure.reversal import reversal
from guide.measure.runout import runout
from guide.measure.tilt import tilt
from guide.measure.uncertainty import parts

dial = st.integers(-300, 300).map(lambda tenths: Decimal(tenths) / 10)
series = st.integers(3, 12).flatmap(lambda n: st.lists(dial, min_size=n, max_size=n))
two_series = st.integers(3, 9).flatmap(
    lambda n: st.tuples(*(st.lists(dial, min_size=n, max_size=n) for _ in range(2)))
)
units = st.sampled_from(list(LENGTHS))


def judged(values, angles=None, unit="thou", size=1, **more):
    """The result with a tolerance, u, clearance and repeats of this size."""
    known = parts(u=0.3 * size, grip=0.2 * size, repeats=[0, 0.4 * size, 0.1 * size])
    return runout(values, unit, angles, tolerance=4 * size, clearance=9 * size, parts=known, **more)


def same(one, other, size=1.0):
    """Whether everything but angles and targets is the same, lengths `size` times larger."""
    for name in ("fitted_tir", "observed_tir", "judged", "expanded_uncertainty", "form"):
        before, after = getattr(one, name), getattr(other, name)
        if before is None:
            assert after is None
        else:
            assert after == pytest.approx(before * size, rel=1e-7, abs=1e-7 * size), name
    assert (other.verdict, other.decision.factor) == (one.verdict, one.decision.factor)
    assert other.flags == one.flags
    assert other.budget.freedom == pytest.approx(one.budget.freedom)


def high_is(one, other, wanted):
    """Whether the high spot is where it must be, if there is one to speak of."""
    if one.eccentricity > 1e-3:
        assert apart(other.high_at_deg, wanted) < 1e-4


@given(series, st.integers(-720, 720))
def test_another_screw_called_one_turns_the_high_spot_and_nothing_else(values, shift):
    """Every angle counted from elsewhere."""
    places = even(len(values))
    one, other = judged(values), judged(values, [place + shift for place in places])
    same(one, other)
    high_is(one, other, one.high_at_deg + shift)


@given(series)
def test_the_other_direction_of_turning_mirrors_the_high_spot_and_nothing_else(values):
    """The same places met in the other order."""
    one, other = judged(values), judged(values, [-place for place in even(len(values))])
    same(one, other)
    high_is(one, other, -one.high_at_deg)


@given(series, units, units)
def test_the_unit_scales_lengths_and_nothing_else(values, unit, other_unit):
    """in, mm, thou, tenth and um; the same bar through two dials."""
    factor = LENGTHS[unit] / LENGTHS[other_unit]
    one = judged(values, unit=unit)
    other = judged([value * factor for value in values], unit=other_unit, size=float(factor))
    same(one, other, float(factor))
    high_is(one, other, one.high_at_deg)


@given(series, st.integers(-500, 500))
def test_the_dials_zero_changes_nothing_but_mean_and_targets(values, added):
    """A constant added to every reading, and to the watched sweep."""
    low, high = min(values), max(values)
    one = judged(values, watched=Sweep(low, high))
    other = judged([value + added for value in values], watched=Sweep(low + added, high + added))
    same(one, other)
    high_is(one, other, one.high_at_deg)
    assert other.mean == pytest.approx(one.mean + added, abs=1e-7)


@given(series, st.randoms(use_true_random=False))
def test_the_order_of_readings_does_not_matter(values, random):
    """Angles go with their readings."""
    pairs = list(zip(even(len(values)), values, strict=True))
    one = judged(values)
    random.shuffle(pairs)
    other = judged([value for _, value in pairs], [place for place, _ in pairs])
    same(one, other)
    high_is(one, other, one.high_at_deg)


@given(series)
def test_inside_a_bore_the_high_spot_is_opposite_and_nothing_else(values):
    """What rises there is the wall coming in."""
    one, other = judged(values), judged(values, surface="inside")
    same(one, other)
    high_is(one, other, one.high_at_deg + 180)
    assert other.targets == one.targets


@given(series)
def test_a_dial_that_counts_the_other_way_is_the_other_surface(values):
    """Every sign turned round outside is what a bore would show."""
    one, other = judged(values, surface="inside"), judged([-value for value in values])
    same(one, other)
    high_is(one, other, one.high_at_deg)


@given(series, st.integers(0, 359), st.integers(-90, 90))
def test_orders_keep_their_sizes_and_turn_with_the_zero(values, shift, added):
    """Amplitudes stay; a first high spot of order k moves by the shift, within its 360/k."""
    places, floats = even(len(values)), [float(value) for value in values]
    one = orders(places, floats, 0.3)
    other = orders([place + shift for place in places], [v + added for v in floats], 0.3)
    for before, after in zip(one, other, strict=True):
        assert after.amplitude == pytest.approx(before.amplitude, abs=1e-7)
        assert after.expanded_uncertainty == pytest.approx(before.expanded_uncertainty, rel=1e-6)
        if before.amplitude > 1e-3:
            turned = before.order * (before.high_at_deg + shift)
            assert apart(before.order * after.high_at_deg, turned) < 1e-3


@given(two_series, st.integers(0, 359), st.integers(-90, 90))
def test_tilt_and_reversal_turn_with_the_zero_and_keep_their_sizes(rows, shift, added):
    """Shift, what is left, both parts and what stands out."""
    places = [place + shift for place in even(len(rows[0]))]
    moved = [[value + added for value in row] for row in rows]
    more = {"u": 0.3, "working": (1, 4), "tolerance": 3}
    one = tilt(rows, (1, 5), "thou", "in", **more)
    other = tilt(moved, (1, 5), "thou", "in", places, **more)
    assert other.slope == pytest.approx(one.slope, abs=1e-7)
    assert other.working.shift == pytest.approx(one.working.shift, abs=1e-7)
    assert other.working.decision.verdict == one.working.decision.verdict
    assert other.flags == one.flags
    if one.working.shift > 1e-3:
        assert apart(other.working.toward_deg, one.working.toward_deg + shift) < 1e-3
    split, turned = reversal(*rows, "thou", u=0.3), reversal(*moved, "thou", places, u=0.3)
    assert turned.looks_to == split.looks_to
    assert turned.bar.eccentricity == pytest.approx(split.bar.eccentricity, abs=1e-7)
    if split.chuck.eccentricity > 1e-3:
        assert apart(turned.chuck.high_at_deg, split.chuck.high_at_deg + shift) < 1e-3


@given(two_series, units, units)
def test_tilt_and_reversal_scale_with_the_unit(rows, unit, other_unit):
    """The same bar read in another unit."""
    factor = LENGTHS[unit] / LENGTHS[other_unit]
    scaled = [[value * factor for value in row] for row in rows]
    u = Decimal("0.3")
    one = tilt(rows, (1, 5), unit, "in", u=u, working=(1, 4))
    other = tilt(scaled, (1, 5), other_unit, "in", u=u * factor, working=(1, 4))
    size = float(factor)
    assert other.slope == pytest.approx(one.slope * size, rel=1e-7, abs=1e-7 * size)
    assert other.angle_deg == pytest.approx(one.angle_deg, rel=1e-7, abs=1e-9)
    assert other.working.largest.fitted_tir == pytest.approx(
        one.working.largest.fitted_tir * size, rel=1e-7, abs=1e-7 * size
    )
    split = reversal(*rows, unit, u=u)
    again = reversal(*scaled, other_unit, u=u * factor)
    assert (again.looks_to, again.larger) == (split.looks_to, split.larger)
    assert again.bar.fitted_tir == pytest.approx(
        split.bar.fitted_tir * size, rel=1e-7, abs=1e-7 * size
    )
