"""Harmonics by order agree with numpy and say where the positions cannot tell."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import apart, even
from guide.measure.orders import CALLED, all_told, orders

amplitude = st.integers(1, 40).map(lambda tenths: tenths / 10)
angle = st.integers(0, 359)


def bar(angles, *harmonics):
    """Readings of a bar with harmonics (order, amplitude, first high spot)."""
    turn = np.array(angles, dtype=float)
    return sum(
        (a * np.cos(k * np.radians(turn - high)) for k, a, high in harmonics), np.full(len(turn), 3)
    ).tolist()


@given(st.integers(7, 16).flatmap(lambda n: st.lists(amplitude, min_size=n, max_size=n)))
def test_even_positions_agree_with_the_fourier_transform(values):
    """Amplitude 2·abs(X_k)/n and phase −arg(X_k)/k, numpy being the reference."""
    n = len(values)
    transform = np.fft.rfft(values)
    for each in orders(even(n), values):
        part = 2 * transform[each.order] / n
        assert each.amplitude == pytest.approx(abs(part), abs=1e-9)
        if abs(part) > 1e-6:
            turned = apart(each.order * each.high_at_deg, -np.degrees(np.angle(part)))
            assert turned < 1e-4


@given(amplitude, angle, amplitude, angle, amplitude, angle, st.sampled_from([7, 8, 11, 12]))
def test_invented_harmonics_come_back(a1, h1, a2, h2, a3, h3, n):
    """Off centre, oval and three-lobed at once, each with its size and its first high spot."""
    found = orders(even(n), bar(even(n), (1, a1, h1), (2, a2, h2), (3, a3, h3)))
    assert [each.amplitude for each in found] == pytest.approx([a1, a2, a3])
    for each, high in zip(found, (h1, h2, h3), strict=True):
        assert 0 <= each.high_at_deg < 360 / each.order
        assert apart(each.order * each.high_at_deg, each.order * high) < 1e-6


def test_uneven_positions_do_as_well():
    """Any places that tell the orders apart."""
    places = [0, 40, 95, 140, 170, 230, 260, 300, 340]
    found = orders(places, bar(places, (1, 2.0, 10), (3, 0.5, 77)))
    assert [each.amplitude for each in found] == pytest.approx([2, 0, 0.5], abs=1e-9)
    assert found[2].high_at_deg == pytest.approx(77)


@pytest.mark.parametrize(
    ("n", "told"), [(3, [1]), (4, [1]), (5, [1, 2]), (6, [1, 2]), (7, [1, 2, 3]), (12, [1, 2, 3])]
)
def test_only_orders_that_the_positions_tell_are_listed(n, told):
    """The warning goes with every list that is not whole."""
    found = orders(even(n), [0.0] * n)
    assert [each.order for each in found] == told
    assert all_told(found) is (told == [1, 2, 3])
    assert set(told) <= set(CALLED)


@pytest.mark.parametrize(("n", "high", "looks_like"), [(5, 3, 2), (8, 5, 3), (8, 7, 1)])
def test_a_higher_order_passes_for_a_lower_one(n, high, looks_like):
    """At n even positions order n − k is the same column as order k, as the docstring says."""
    found = {each.order: each.amplitude for each in orders(even(n), bar(even(n), (high, 1.0, 0)))}
    assert found.pop(looks_like) == pytest.approx(1)
    assert max(found.values()) == pytest.approx(0, abs=1e-9)


def test_uncertainty_is_the_fits_and_noise_stands_out_one_time_in_twenty():
    """Simulated: U = 2·u·√(2/n) at even positions, and each order of noise alone."""
    rng = np.random.default_rng(31)
    found = [orders(even(8), rng.normal(0, 0.2, 8).tolist(), 0.2) for _ in range(1500)]
    assert found[0][1].expanded_uncertainty == pytest.approx(2 * 0.2 * sqrt(2 / 8))
    for index in range(3):
        said = np.mean([each[index].stands_out for each in found])
        assert said == pytest.approx(0.05, abs=0.02)
    mean = np.mean([each[2].amplitude for each in found])
    assert mean == pytest.approx(1.25 * 0.2 * sqrt(2 / 8), rel=0.05)


def test_without_an_uncertainty_nothing_stands_out():
    """Neither yes nor no is said."""
    (first, *_) = orders(even(8), bar(even(8), (1, 9.0, 0)))
    assert (first.stands_out, first.expanded_uncertainty) == (None, None)
    assert list(first.to_json()) == [
        "order", "amplitude", "high_at_deg", "expanded_uncertainty", "stands_out",
    ]  # fmt: skip
