"""Short, moderate and long lifting, and the recovery between."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.lift import Hands, lift
from guide.shop.lift_duration import duration, sessions

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_lift_duration.json").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", SEEN["recovery"], ids=lambda case: str(case["work"]))
def test_recovery_of_one_stretch(case: dict) -> None:
    """1.2 times up to an hour, 0.3 times up to two (DHHS 94-110, 1994, from memory)."""
    found = duration(case["work"] / 60).to_json()
    assert found["class"] == case["class"]
    assert found["recovery_minutes"] == case["recovery"]


@pytest.mark.parametrize("case", SEEN["sessions"], ids=lambda case: str(case["minutes"]))
def test_sessions_without_full_recovery_add_up(case: dict) -> None:
    """30, 10, 45 is 75 minutes and so moderate (the same manual, from memory)."""
    found = sessions(case["minutes"])
    assert found.kind == case["class"]
    assert found.hours * 60 == pytest.approx(case["work"])


@given(st.lists(st.floats(1, 200), min_size=1, max_size=7))
def test_more_recovery_never_counts_as_longer(minutes: list[float]) -> None:
    """Doubling every rest never lengthens the stretch; it is never shorter than one session."""
    given_ = minutes if len(minutes) % 2 else minutes[:-1]
    rested = [each * (2 if place % 2 else 1) for place, each in enumerate(given_)]
    assert sessions(rested).hours <= sessions(given_).hours + 1e-9
    work = given_[::2]
    assert max(work) / 60 - 1e-9 <= sessions(given_).hours <= sum(work) / 60 + 1e-9


def test_the_class_picks_the_column_of_the_frequency_table() -> None:
    """75 minutes in a row at one lift a minute: .88 and not .94 (table 5, p. 15, transcribed)."""
    found = lift(
        Hands(25, 75), 25, unit="metric", coupling="good", per_minute=1,
        hours=sessions([30, 10, 45]).hours,
    )  # fmt: skip
    assert found.multipliers.FM == 0.88
    assert found.duration.kind == "moderate"
    assert found.to_json()["duration"]["recovery_minutes"] == pytest.approx(22.5)


def test_both_ends_are_told_by_themselves() -> None:
    """The lower of the two is the answer, and each end's own figures stand beside it (p. 26)."""
    found = lift(Hands(18, 30, 30), destination=Hands(24, 42), unit="us", coupling="fair", load=50)
    plain = found.to_json()
    assert list(plain["ends"]) == ["origin", "destination"]
    lower = min(found.ends, key=lambda end: found.ends[end].rwl_lb)
    assert (found.governs, found.rwl_lb) == (lower, found.ends[lower].rwl_lb)
    alone = lift(Hands(18, 30, 30), 12, unit="us", coupling="fair", load=50)
    assert found.ends["origin"].rwl_lb == alone.rwl_lb
    assert list(alone.ends) == ["origin"]


@pytest.mark.parametrize("minutes", [[], [30, 10], [30, 0, 30], [-1], [float("nan")]])
def test_what_are_no_sessions_is_refused(minutes: list[float]) -> None:
    """Work, rest, work, each above zero."""
    with pytest.raises(BadInput):
        sessions(minutes)
