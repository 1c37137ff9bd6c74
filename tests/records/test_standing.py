"""The start page knows the same day as the history, from the latest setups of each chuck alone."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.records.history import FAR_BACK, read, standing

CHUCK, LATHE, BEGUN = "Chuck 7 (invented)", "Lathe 2 (invented)", date(2030, 1, 1)
ON, OFF = {"seat": "locked", "body": "on-plate"}, {"seat": "off", "body": "on-plate"}


def turn(day: date, verdict: str) -> dict[str, str]:
    """A turn of readings as an outcome holds it."""
    size = "0.0015" if verdict == "outside" else "0.0002"
    return {"at": day.isoformat(), "judged": size, "expanded_uncertainty": "0.0001", "unit": "in",
            "verdict": verdict, "tolerance": "0.001 in", "station": "3 in"}  # fmt: skip


def ended(
    store: Store, number: int, found: str = "", *, chuck: str = CHUCK, lathe: str = LATHE,
    world: dict[str, str] = ON, left: bool = True,
) -> None:  # fmt: skip
    """One more setup of two events, a hundred days after the one before; a year is given."""
    day = BEGUN + timedelta(days=100 * number)
    outcome: dict[str, Any] = {"chuck": chuck}
    if found:
        outcome["as_found"] = turn(day, found)
    if left:
        again = day + timedelta(days=365)
        outcome |= {"as_left": turn(day, "within"), "recheck": again.isoformat()}
    opening = {"mode": "real", "input": "terminal", "facts": {"lathe": lathe}}
    name = f"setup-{number}-{len(chuck)}"
    first = Event(name, 1, f"{day}T08:00:00.000Z", "A. Sample", "", "open", opening, GENESIS)
    store.append(first)
    data = {"ends": "finished", "world": world, "outcome": outcome}
    last = (f"{day}T09:00:00.000Z", "A. Sample", "end", "sign", data, first.digest)
    store.append(Event(name, 2, *last))


def days(store: Store) -> list[tuple[str, date | None]]:
    """Where each stands by the whole history, and by the latest setups: the same."""
    whole = sorted((each.state, each.due) for each in read(store)[1])
    assert sorted((each.state, each.due) for each in standing(store)) == whole
    return whole


def test_a_chuck_found_outside_is_due_before_the_day_that_was_given(store: Store) -> None:
    """Half of the hundred days that had passed, not the year that somebody gave."""
    ended(store, 0)
    ended(store, 1, "outside")
    assert days(store) == [("dated", BEGUN + timedelta(days=150))]


def test_what_came_before_it_was_put_up_last_is_not_needed(store: Store) -> None:
    """A long history, then taken off and put up anew, and found outside since."""
    for number in range(FAR_BACK):
        ended(store, number, "within")
    ended(store, FAR_BACK, world=OFF, left=False)
    ended(store, FAR_BACK + 1)
    ended(store, FAR_BACK + 2, "outside")
    assert days(store) == [("dated", BEGUN + timedelta(days=100 * (FAR_BACK + 2) + 50))]


@pytest.mark.parametrize("more", [{"lathe": "Lathe 3"}, {"chuck": CHUCK.upper()}, {"world": OFF}])
def test_another_lathe_spelling_or_end_is_told_as_in_the_history(
    store: Store, more: dict[str, Any]
) -> None:
    """Moved, spelled otherwise, or off the nose."""
    ended(store, 0)
    ended(store, 1, "outside")
    ended(store, 2, "within", **more)
    assert len(days(store)) == (2 if "lathe" in more else 1)


def test_where_the_latest_do_not_reach_back_the_day_that_was_given_stands(store: Store) -> None:
    """No step is worked out from a beginning that was not looked at."""
    for number in range(FAR_BACK + 1):
        ended(store, number, "outside" if number else "")
    (found,) = standing(store)
    assert found.due == BEGUN + timedelta(days=100 * FAR_BACK + 365)
    assert read(store)[1][0].due < found.due  # type: ignore[operator]


def test_the_latest_of_a_chuck_come_newest_first_and_no_more_than_asked(store: Store) -> None:
    """Of this chuck on this lathe alone."""
    for number in range(5):
        ended(store, number)
        ended(store, number, chuck="Chuck 9")
    found = store.last_outcomes(CHUCK, LATHE, 3)
    assert [each.setup for each in found] == [f"setup-{n}-{len(CHUCK)}" for n in (4, 3, 2)]
    assert store.last_outcomes(CHUCK, "Lathe 9", 3) == ()
