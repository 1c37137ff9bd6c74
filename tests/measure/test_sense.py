"""One small move teaches which way the screws work, or nothing."""

from __future__ import annotations

from decimal import Decimal

import pytest

from guide.measure.sense import learn

D = Decimal


@pytest.mark.parametrize(
    ("before", "after", "more", "sense"),
    [
        (D(0), D(2), {}, "toward"),
        (D(0), D(-2), {}, "away"),
        (D(0), D(2), {"tightened_across": True}, "away"),
        (D(0), D(-2), {"tightened_across": True}, "toward"),
        (D(0), D(2), {"surface": "inside"}, "away"),
        (D(5), D("5.4"), {}, "unknown"),
        (D(5), D("5.5"), {}, "unknown"),
    ],
)
def test_the_needle_tells_the_sense(before, after, more, sense):
    """A rising dial is a body coming to the plunger, outside; half a division teaches nothing."""
    assert learn(before, after, D("0.5"), **more) == sense
