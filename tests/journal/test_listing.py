"""Lists of setups: never believed when the derived list is not as it was kept."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import CheckFailed

AT = "2031-03-02T08:{:02}:00.000Z"
SETUPS = {
    "first": ("Chuck 1", "Lathe 1"), "second": ("Chuck 1", "Lathe 2"),
    "third": ("Chuck 1", "Lathe 1"),
    "fourth": ("", "Lathe 2"), "fifth": ("Chuck 2", "Lathe 2"),
}  # fmt: skip
"""What each ended with (invented); the fourth without an outcome. `open-1` and `open-2` go on."""


@pytest.fixture
def listed(path: Path) -> Path:
    """A journal of setups that ended in this order, and of two that have not."""
    with Store(path) as store:
        for setup, (chuck, lathe) in SETUPS.items():
            _write(store, setup, lathe, {"ends": "finished", "outcome": {"chuck": chuck}})
        for setup in ("open-1", "open-2"):
            _write(store, setup, "Lathe 3", {})
    return path


def _write(store: Store, setup: str, lathe: str, last: dict[str, Any]) -> None:
    opening = {"mode": "real", "facts": {"lathe": lathe}}
    one = Event(setup, 1, AT.format(1), "A. Sample", "", "open", opening, GENESIS)
    store.append(one)
    store.append(replace(one, sequence=2, kind="record", data=last, previous=one.digest))


def lists(store: Store) -> list[list[str]]:
    """Every list there is, by the names in it."""
    given = (
        store.open_setups(), store.ended_setups(), store.ended_setups(2), store.outcomes(),
        store.outcomes("Chuck 1"), store.latest_outcomes(),
    )  # fmt: skip
    return [[each.setup for each in told] for told in given]


AS_WRITTEN = [
    ["open-2", "open-1"],
    ["fifth", "fourth", "third", "second", "first"],
    ["fifth", "fourth"],
    ["first", "second", "third", "fifth"],
    ["first", "second", "third"],
    ["second", "third", "fifth"],
]


def harmed(path: Path, *statements: str) -> None:
    """Something that the program does not do to the file."""
    with closing(sqlite3.connect(path, isolation_level=None)) as base:
        for each in statements:
            base.execute(each)


def test_lists_are_in_the_order_of_writing(listed: Path) -> None:
    """Open ones the latest first, ended ones too; outcomes the oldest first."""
    with Store.read(listed) as store:
        assert lists(store) == AS_WRITTEN
        assert store.list_was_sound()


HARMS = (
    "UPDATE glance SET ended = 4 WHERE setup = 'open-1'",
    "UPDATE glance SET ended = NULL WHERE setup = 'third'",
    "UPDATE glance SET ended = ended + 1 WHERE setup = 'second'",
    "UPDATE glance SET opened = 1 WHERE setup = 'open-2'",
    "UPDATE glance SET opened = x'ff' WHERE setup = 'open-2'",
    "UPDATE glance SET setup = 'open-q' WHERE setup = 'open-1'",
    "UPDATE glance SET setup = x'ff' WHERE setup = 'open-1'",
    "UPDATE glance SET chuck = 'Chuck 3' WHERE setup = 'third'",
    "UPDATE glance SET chuck = x'ff' WHERE setup = 'third'",
    "UPDATE glance SET lathe = 'Lathe 2' WHERE setup = 'first'",
    "UPDATE glance SET mode = 'practice' WHERE setup = 'first'",
    "DELETE FROM glance WHERE setup = 'open-1'",
    "DELETE FROM glance",
    "INSERT INTO glance VALUES ('more', 1, 2, 'real', '', '')",
    "UPDATE tally SET setups = setups + 1",
    "UPDATE tally SET unended = 'x'",
    "UPDATE tally SET checks = NULL",
    "DELETE FROM tally",
    "DROP TABLE tally",
    "DROP TABLE glance",
)


@pytest.mark.parametrize("harm", HARMS)
def test_a_list_that_was_changed_is_not_believed(listed: Path, harm: str) -> None:
    """All lists are right for all that, and that they were not kept so is known."""
    harmed(listed, harm)
    with Store.read(listed) as store:
        assert lists(store) == AS_WRITTEN
        assert not store.list_was_sound()
        assert not store.list_stands()


@pytest.mark.parametrize("harm", HARMS[:-2])
def test_what_is_written_to_a_changed_list_makes_it_no_better_and_relisting_does(
    listed: Path, harm: str
) -> None:
    """A setup that ends is written and shown; verify names the list until it is made anew."""
    harmed(listed, harm)
    with Store(listed) as store:
        _, previous = store.last("open-2")
        data = {"ends": "finished", "outcome": {"chuck": "Chuck 2"}}
        told = ("open-2", 3, AT.format(9), "A. Sample", "", "record", data, previous)
        store.append(Event(*told))
        assert [each.setup for each in store.open_setups()] == ["open-1"]
        assert {each.fault for each in findings(store)} == {"damaged"}
        store.relist()
        assert list(findings(store)) == []
        assert [each.setup for each in store.open_setups()] == ["open-1"]
        assert store.list_stands()


def test_a_list_is_read_anew_after_whatever_was_written(listed: Path) -> None:
    """By this program or by another one."""
    with Store(listed) as store, Store(listed) as other, Store.read(listed) as reader:
        for number, writer in enumerate((store, other, store)):
            _write(writer, f"more-{number}", "Lathe 4", {})
            for each in (reader, store, other):
                assert each.open_setups()[0].setup == f"more-{number}"


ENTRIES = ("open-1", "third")


@pytest.mark.parametrize("setup", ENTRIES)
def test_a_setup_that_the_files_index_does_not_find_is_not_taken_for_none(
    listed: Path, setup: str
) -> None:
    """The index of events does not have it any more: said, wherever setups are listed."""
    harmed(
        listed,
        "CREATE TABLE other (setup, sequence, body, digest, signature, UNIQUE (setup, sequence))",
        f"INSERT INTO other SELECT * FROM event WHERE setup <> '{setup}'",
        "PRAGMA writable_schema = ON",
        "UPDATE sqlite_master SET rootpage = (SELECT rootpage FROM sqlite_master"
        " WHERE name = 'sqlite_autoindex_other_1') WHERE name = 'sqlite_autoindex_event_1'",
        "DELETE FROM sqlite_master WHERE tbl_name = 'other'",
    )
    asked: tuple[Callable[[Store], object], ...] = (
        Store.setups, Store.open_setups if "open" in setup else Store.ended_setups,
    )  # fmt: skip
    for each in asked:
        with Store.read(listed) as store, pytest.raises(CheckFailed, match="is damaged"):
            each(store)


def test_a_setup_of_which_nothing_is_left_is_left_out_and_that_is_known(listed: Path) -> None:
    """Taken out of the events: verify names it by the chain over all events."""
    harmed(listed, "DELETE FROM event WHERE setup = 'open-1'")
    with Store.read(listed) as store:
        assert [each.setup for each in store.open_setups()] == ["open-2"]
        assert not store.list_was_sound()
        assert "open-1" not in {each.setup for each in store.setups()}
