"""Play at nose, plate and bar says which joint gives."""

from __future__ import annotations

from decimal import Decimal

import pytest

from guide.measure.play import GIVES, WHY, compare, play
from guide.plain import BadInput


def d(**plays):
    """Plays as decimals."""
    return {place: Decimal(str(value)) for place, value in plays.items()}


def test_play_has_no_sign():
    """Push and pull may be read in either order."""
    assert (
        play(Decimal("-0.2"), Decimal("0.3"))
        == play(Decimal("0.3"), Decimal("-0.2"))
        == Decimal("0.5")
    )


@pytest.mark.parametrize(
    ("plays", "joint"),
    [
        (d(nose=0.5, plate=0.5, bar=0.6), "spindle"),
        (d(nose=0.1, plate=0.9, bar=1.0), "seat"),
        (d(nose=0.1, plate=0.2, bar=1.0), "grip"),
        (d(nose=0.1, plate=0.1, bar=0.1), "none"),
        (d(plate=0.5, bar=0.6), "unknown"),
        (d(nose=0.5), "spindle"),
    ],
)
def test_the_joint_that_adds_most_is_named(plays, joint):
    """Differences within the noise count as nothing; without the nose nothing is said."""
    found = compare(plays, Decimal("0.1"))
    assert found.looks_to == joint
    assert found.why == WHY[joint]


def test_a_joint_between_unread_places_is_left_out():
    """Nose and bar alone cannot part seat from grip."""
    assert set(compare(d(nose=0.1, bar=1.0)).added) == {"spindle"}


def test_less_play_further_out_counts_as_nothing():
    """A joint cannot add less than nothing."""
    assert compare(d(nose=0.5, plate=0.4)).added == {"spindle": Decimal("0.5"), "seat": 0}


def test_no_play_at_all_is_refused():
    """It says what to read."""
    with pytest.raises(BadInput, match="bare nose"):
        compare({})


def test_every_joint_has_a_sentence():
    """The answers are a closed set."""
    assert set(WHY) == {*GIVES.values(), "none", "unknown"}
