"""The journal file: what goes in comes out, stays, and is durable when `append` returns."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from guide.journal import schema
from guide.journal.canonical import digest
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.plain import BadInput, CheckFailed, NotAllowed

Chained = Callable[..., list[Event]]


def test_a_new_journal_makes_its_folder_and_file(path: Path) -> None:
    """Opening is enough, and a second opening finds it."""
    assert not path.parent.exists()
    for _ in range(2):
        with Store(path) as store:
            assert store.setups() == store.names() == store.events("demo-1") == ()
    assert path.is_file()


def test_events_come_out_as_they_went_in(path: Path, store: Store, walked: list[Event]) -> None:
    """In the same opening and in the next."""
    assert list(store.events("demo-1")) == walked
    assert store.last("demo-1") == (6, walked[-1].digest)
    store.close()
    with Store(path) as again, Store.read(path) as reader:
        assert list(again.events("demo-1")) == list(reader.stream("demo-1")) == walked


def test_setups_do_not_mix(store: Store, chained: Chained) -> None:
    """Two walks written turn by turn stay two chains."""
    both = [chained("demo-1"), chained("demo-2")]
    for pair in zip(*both, strict=True):
        for event in pair:
            store.append(event)
    assert [list(store.events(name)) for name in store.names()] == both
    assert store.events("demo-3") == ()


@pytest.mark.parametrize("sequence", [1, 6, 8])
def test_an_event_out_of_turn_is_refused(store: Store, walked: list[Event], sequence: int) -> None:
    """Already there, or one left out: the journal stays as it was."""
    late = replace(walked[-1], sequence=sequence, previous=walked[-1].digest)
    with pytest.raises(NotAllowed, match="Someone else has gone on with this setup, demo-1"):
        store.append(late)
    assert list(store.events("demo-1")) == walked


def test_of_two_who_go_on_from_the_same_event_the_second_is_refused(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """Two openings of one file, both at event 6."""
    going_on = replace(walked[-1], sequence=7, previous=walked[-1].digest)
    with Store(path) as other:
        other.append(going_on)
    with pytest.raises(NotAllowed, match="Someone else has gone on"):
        store.append(replace(going_on, person="B. Demo"))
    assert store.last("demo-1") == (7, going_on.digest)


def test_an_event_that_holds_another_digest_is_refused(store: Store, walked: list[Event]) -> None:
    """The right number alone does not continue a chain."""
    for previous in (GENESIS, walked[0].digest):
        with pytest.raises(NotAllowed):
            store.append(replace(walked[-1], sequence=7, previous=previous))


def test_a_commit_is_forced_to_the_disk(path: Path, store: Store) -> None:
    """Write-ahead log, and FULL (2): SQLite syncs the log at each commit."""
    mode = sqlite3.connect(path)
    assert mode.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    mode.close()
    assert store._base.execute("PRAGMA synchronous").fetchone() == (2,)


def test_the_file_says_what_it_is(path: Path, store: Store) -> None:
    """Its application id, its version and its tables are those that `schema` names."""
    store.close()
    base = sqlite3.connect(path)
    assert base.execute("PRAGMA application_id").fetchone() == (int.from_bytes(b"Spnd"),)
    assert base.execute("PRAGMA user_version").fetchone() == (schema.VERSION,)
    columns = base.execute("SELECT name, type FROM pragma_table_info('event')").fetchall()
    base.close()
    assert columns == [
        ("setup", "TEXT"), ("sequence", "INTEGER"), ("body", "TEXT"), ("digest", "TEXT"),
        ("signature", "TEXT"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE text SET body = 'x'",
        "DELETE FROM text",
        "INSERT OR REPLACE INTO text SELECT digest, 'x' FROM text",
        "UPDATE link SET digest = 'x'",
        "DELETE FROM link",
        "INSERT OR REPLACE INTO link SELECT number, setup, sequence, 'x', '', 'x' FROM link",
        "UPDATE sealed SET body = 'x'",
        "DELETE FROM sealed",
        "INSERT OR REPLACE INTO sealed SELECT digest, 'x' FROM sealed",
    ],
)
def test_texts_keys_and_links_are_never_written_over(
    path: Path, store: Store, walked: list[Event], change: str
) -> None:
    """By any program that opens the file; a changed event is found by the chain and its link."""
    name = store.keep_text("procedure")
    key = store.keep_sealed("a sealed key")
    base = sqlite3.connect(path)
    with pytest.raises(sqlite3.IntegrityError, match="never changed or taken out"):
        base.execute(change)
    base.commit()
    base.close()
    assert list(store.events("demo-1")) == walked
    assert store.text(name) == "procedure"
    assert store.sealed(key) == "a sealed key"
    noted = store.noted("demo-1").values()
    assert [each.digest for each in noted] == [event.digest for event in walked]


def test_rows_come_in_the_order_in_which_they_are_stored(store: Store, walked: list[Event]) -> None:
    """With the text and digest of each event, and believed in nothing."""
    rows = list(store.rows("demo-1"))
    assert [(row.rowid, row.sequence) for row in rows] == [(n, n) for n in range(1, 7)]
    assert [(row.body, row.digest) for row in rows] == [(e.body(), e.digest) for e in walked]


def test_a_summary_tells_how_a_setup_began_and_where_it_stands(
    store: Store, chained: Chained
) -> None:
    """The setup gone on with last comes first."""
    first, second = chained("demo-1"), chained("demo-2", 2)
    for event in (*first[:5], *second, first[5]):
        store.append(event)
    one, other = store.setups()
    assert (one.setup, one.events, other.setup, other.events) == ("demo-1", 6, "demo-2", 2)
    assert (one.opened_at, one.opened_by, one.last_at, one.last_by) == (
        first[0].at, first[0].person, first[5].at, first[5].person,
    )  # fmt: skip
    assert (one.last_kind, one.last_step) == (first[5].kind, first[5].step)
    assert one.opening == {"reading": "0.001", "unit": "in", "screws": [1, 1]}


def test_summaries_do_not_read_every_event(store: Store) -> None:
    """SQLite's own plan: steps along the index, and no scan of the table."""
    plan = store._base.execute(f"EXPLAIN QUERY PLAN {schema.ENDS}").fetchall()
    steps = [detail for *_, detail in plan if "event" in detail]
    assert steps
    assert all("SEARCH" in step and "INDEX" in step for step in steps)


def test_a_text_is_kept_once_by_its_digest(path: Path, store: Store) -> None:
    """A procedure's text comes back letter by letter, in the next opening too."""
    text = "title: Demo µ 😀\n"
    assert store.keep_text(text) == store.keep_text(text) == digest(text)
    assert list(store.texts()) == [(digest(text), text)]
    store.close()
    with Store(path) as again:
        assert again.text(digest(text)) == text


def test_a_text_that_was_never_kept_is_not_made_up(store: Store) -> None:
    """A setup without its procedure text cannot be gone on with."""
    with pytest.raises(CheckFailed, match="is missing from the journal or was changed"):
        store.text("0" * 64)


@pytest.mark.parametrize("setup", ["../escape", "a/b", "", "A", "a" * 65, "nul\0"])
def test_an_id_that_climbs_out_of_the_folder_is_refused(
    path: Path, store: Store, setup: str
) -> None:
    """Before any file of that name is touched."""
    for refused in (store.last, store.events, lambda name: store.hold(name, "now")):
        with pytest.raises(BadInput, match="cannot name a setup"):
            refused(setup)
    assert not (path.parent / "locks").exists()


def test_the_store_may_be_closed_twice(store: Store) -> None:
    """The second time does nothing."""
    store.close()
    store.close()


def test_using_a_closed_store_is_a_fault_of_the_program_and_says_so(store: Store) -> None:
    """It is not put down to the disk."""
    store.close()
    with pytest.raises(sqlite3.ProgrammingError, match="closed"):
        store.events("demo-1")
