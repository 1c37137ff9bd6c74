"""A journal of the first version is brought forward with nothing in it changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from guide.journal import schema
from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import BadInput

FIRST = (
    """CREATE TABLE event (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, body TEXT NOT NULL, digest TEXT NOT NULL,
    UNIQUE (setup, sequence))""",
    "CREATE TABLE text (digest TEXT PRIMARY KEY NOT NULL, body TEXT NOT NULL)",
    """CREATE TABLE seal (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, digest TEXT NOT NULL,
    PRIMARY KEY (setup, sequence)) WITHOUT ROWID""",
    """CREATE TRIGGER event_sealed AFTER INSERT ON event BEGIN
    INSERT INTO seal SELECT NEW.setup, NEW.sequence, NEW.digest WHERE NOT EXISTS (
        SELECT 1 FROM seal WHERE setup = NEW.setup AND sequence = NEW.sequence);
    END""",
    """CREATE TRIGGER seal_no_delete BEFORE DELETE ON seal BEGIN
    SELECT RAISE(ABORT, 'what is in the journal is never changed or taken out'); END""",
    f"PRAGMA application_id = {schema.APPLICATION}",
    "PRAGMA user_version = 1",
)
"""What version 1 made."""


@pytest.fixture
def early(path: Path, chained: Callable[..., list[Event]]) -> list[Event]:
    """A journal of version 1 with two setups, written in turn."""
    path.parent.mkdir()
    both = [*chained("demo-1", 3), *chained("demo-2", 2), *chained("demo-1", 5)[3:]]
    base = sqlite3.connect(path)
    for statement in FIRST:
        base.execute(statement)
    for event in both:
        row = (event.setup, event.sequence, event.body(), event.digest)
        base.execute("INSERT INTO event VALUES (?, ?, ?, ?)", row)
    base.execute("INSERT INTO text VALUES ('x', 'y')")
    base.commit()
    base.close()
    return both


def test_every_event_stands_and_is_linked_in_the_order_of_writing(
    path: Path, early: list[Event], chained: Callable[..., list[Event]]
) -> None:
    """Bodies and digests byte for byte; the chain goes on."""
    with Store(path) as store:
        linked = [(link.setup, link.sequence, link.digest) for link in store.links()]
        assert linked == [(event.setup, event.sequence, event.digest) for event in early]
        assert [each for each in findings(store) if "procedure text" not in str(each)] == []
        store.append(chained("demo-1", 6)[5])
        assert store.last("demo-1")[0] == 6
    with Store(path) as again:
        assert again.names() == ("demo-1", "demo-2")
        assert len(again.open_setups()) == 2


def test_what_was_cut_before_is_still_missing_afterwards(path: Path, early: list[Event]) -> None:
    """Bringing it forward makes nothing good."""
    base = sqlite3.connect(path)
    base.execute("DELETE FROM event WHERE setup = 'demo-2' AND sequence = 2")
    base.commit()
    base.close()
    with Store(path) as store:
        (found,) = findings(store, "demo-2")
    assert (found.fault, found.sequence) == ("missing", 2)


def test_it_is_not_brought_forward_by_a_reader(path: Path, early: list[Event]) -> None:
    """A reader changes nothing, so it says what to do."""
    before = path.read_bytes()
    with pytest.raises(BadInput, match="An earlier version of spindleside wrote"):
        Store.read(path)
    assert path.read_bytes() == before


def test_a_journal_of_the_second_version_is_read_as_it_is_and_brought_forward(
    path: Path, store: Store, chained: Callable[..., list[Event]]
) -> None:
    """It has no tally of its list yet, and two indexes that are of no use any more."""
    for event in chained("demo-1", 3):
        store.append(event)
    store.close()
    with closing(sqlite3.connect(path, isolation_level=None)) as base:
        for statement in (
            "DROP TABLE tally",
            "CREATE INDEX glance_ended ON glance (ended)",
            "CREATE INDEX glance_chuck ON glance (chuck, lathe, ended) WHERE chuck <> ''",
            "PRAGMA user_version = 2",
        ):
            base.execute(statement)
    before = path.read_bytes()
    with Store.read(path) as reader:
        assert [each.setup for each in reader.open_setups()] == ["demo-1"]
        assert (list(findings(reader)), reader.list_was_sound()) == ([], True)
    assert path.read_bytes() == before
    with Store(path) as again:
        assert [each.setup for each in again.open_setups()] == ["demo-1"]
        assert list(findings(again)) == []
        assert again.list_stands()
    with closing(sqlite3.connect(path)) as base:
        assert base.execute("PRAGMA user_version").fetchone() == (schema.VERSION,)
        assert not base.execute("SELECT 1 FROM sqlite_master WHERE name LIKE 'glance_%'").fetchall()
