"""Readings in a few words: a push and a pull that cannot both be so are not passed over."""

from __future__ import annotations

from typing import Any, cast

import pytest

from guide.present.read_out import PULLED_ABOVE, readings
from guide.present.seen import Seen
from guide.walk.state import Entry, State


def note(pushed: str, pulled: str) -> str:
    """The note of one reading of play."""
    data = {"pushed": pushed, "pulled": pulled, "figures": {"play": "0.0002", "unit": "in"}}
    entry = Entry(2, "2026-01-01T00:00:00Z", "A. Sample", "nose-play", "record", data)
    was = State(setup="s", text="", place="nose-play")
    return readings(Seen(entry, None, was, was), cast(Any, None), "en")[1]


@pytest.mark.parametrize(("pushed", "pulled"), [("0.0001", "-0.0001"), ("+.0001", "0"), ("0", "0")])
def test_pushed_reads_no_less_than_pulled(pushed: str, pulled: str) -> None:
    """Plus is the plunger pushed in, so a push toward it is the upper of the two."""
    assert note(pushed, pulled) == ""


@pytest.mark.parametrize(("pushed", "pulled"), [("-0.0001", "0.0001"), ("0", "0.0001")])
def test_a_pull_that_reads_above_the_push_is_noted(pushed: str, pulled: str) -> None:
    """The play would be a figure like any other, and a hand that pushed from below is not seen."""
    assert note(pushed, pulled) == PULLED_ABOVE
