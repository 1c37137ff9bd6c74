"""Two torques for the same bolts are not kept side by side without a word."""

from __future__ import annotations

from typing import Any, cast

import pytest

from guide.present.seen import Seen
from guide.present.torque_before import before_it
from guide.walk.state import Entry, State


def entry(torque: str) -> Entry:
    """Bolts tightened to a torque."""
    return Entry(2, "2026-01-01T00:00:00Z", "A. Sample", "tight", "record", {"torque": torque})


def noted(now: str, *before: str, fact: str = "") -> str:
    """The note of a tightening after others of the same bolts."""
    facts = {"bolt-torque": fact} if fact else {}
    was = State(setup="s", text="", place="", facts=facts, entries=tuple(map(entry, before)))
    return before_it(Seen(entry(now), cast(Any, None), was, was))


@pytest.mark.parametrize(("now", "before"), [("33 ft-lb", "330 ft-lb"), ("60 N·m", "33 ft-lb")])
def test_a_torque_that_differs_from_the_one_before_names_that_one(now: str, before: str) -> None:
    """Bolts that were pulled to ten times what they are given now may be stretched."""
    assert noted(now, before) == f"before: {before}"
    assert noted(now, fact=before) == f"before: {before}"


@pytest.mark.parametrize("now", ["33 ft-lb", "33 lbf·ft", "44.7 N·m", "36 ft-lb", "unknown"])
def test_the_same_torque_in_other_words_is_not_noted(now: str) -> None:
    """Within a tenth, in another unit, or not known: nothing contradicts what was given."""
    assert noted(now, "33 ft-lb") == ""


def test_the_latest_torque_counts_and_not_the_page_that_asked_first() -> None:
    """A torque that was put right once is not noted at every tightening after it."""
    assert noted("33 ft-lb", "330 ft-lb", "33 ft-lb", fact="330 ft-lb") == ""
    assert noted("33 ft-lb") == ""


def test_a_torque_by_feel_between_them_hides_nothing() -> None:
    """`unknown` is no figure to compare with; the one before it is."""
    assert noted("33 ft-lb", "330 ft-lb", "unknown") == "before: 330 ft-lb"
