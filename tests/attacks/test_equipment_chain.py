"""The chain of equipment: signed by who could, and nothing that may not be."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from guide.equipment.equipment import Equipment
from guide.journal.event import Event
from guide.journal.standing import EQUIPMENT
from guide.journal.store import Store
from guide.people.people import People
from guide.records.evidence import faults

AT = "2030-01-31T07:05:00.000Z"


@pytest.fixture(autouse=True)
def quick_pins(monkeypatch: pytest.MonkeyPatch) -> None:
    """A PIN is stretched a little only."""
    monkeypatch.setattr("guide.journal.keys.COST", 2**10)


@pytest.fixture
def kept(tmp_path: Path) -> Callable[..., list[str]]:
    """One indicator added by a supervisor, then whatever an attacker appends; what is found."""

    def keep(*more: Callable[[Event], tuple[Event, str]]) -> list[str]:
        with Store(tmp_path / "kept" / "journal.sqlite3") as store:
            hand = People(store).first("A. Sample", "four tin horses", AT)
            Equipment(store).add(hand, "indicator", "Dial 3", {}, AT)
            for each in more:
                (*_, last) = store.events(EQUIPMENT)
                store.append(*each(last))
            return [each.fault for each in faults(store)]

    return keep


def retired(name: str) -> Callable[[Event], tuple[Event, str]]:
    """An indicator retired by nobody's key."""

    def behind(last: Event) -> tuple[Event, str]:
        data = {"kind": "indicator", "name": name}
        number, person = last.sequence + 1, "A. Sample"
        return Event(EQUIPMENT, number, AT, person, "", "retire", data, last.digest), ""

    return behind


def test_what_a_supervisor_added_is_sound(kept: Callable[..., list[str]]) -> None:
    """Signed and allowed."""
    assert kept() == []


def test_an_unsigned_change_is_named_where_people_sign_on(kept: Callable[..., list[str]]) -> None:
    """Retired by nobody."""
    assert kept(retired("Dial 3")) == ["unsigned"]


def test_what_may_not_happen_to_equipment_is_named(kept: Callable[..., list[str]]) -> None:
    """Something that was never added is retired."""
    assert kept(retired("Dial 9")) == ["unsigned", "refused"]
