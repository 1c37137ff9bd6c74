"""A closure says whether the zero stayed."""

from __future__ import annotations

import pytest

from guide.measure.zero import allowed, zero_flag


@pytest.mark.parametrize(
    ("closures", "flag"),
    [
        ((), None),
        ((0.5,), None),
        ((0.6,), "zero-moved"),
        ((-0.6,), "zero-moved"),
        ((0.6, 1.2), "drifting"),
        ((1.2, 0.6), "zero-moved"),
        ((0.2, 0.4), None),
    ],
)
def test_one_closure_is_never_called_drift(closures, flag):
    """Drift needs two that go on one way; a knock does not go on."""
    assert zero_flag(0.0, closures, 0.5) == flag


def test_what_is_allowed_is_two_sigma_of_a_difference_or_a_graduation():
    """2·√2·u, but never finer than the dial; without either any change counts."""
    assert allowed(0.1, None) == pytest.approx(0.282842712)
    assert allowed(0.1, 0.5) == 0.5
    assert allowed(None, None) is None
    assert zero_flag(0.0, (0.01,), None) == "zero-moved"
