"""Tampering with the file by a program that takes its guards away: found and named."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from guide.journal.canonical import digest
from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import CheckFailed

Tamper = Callable[..., None]
Chained = Callable[..., list[Event]]


@pytest.fixture
def tamper(path: Path, store: Store, walked: list[Event]) -> Tamper:
    """Runs statements on the closed file of demo-1, with every trigger dropped before."""
    store.close()

    def run(*statements: str) -> None:
        base = sqlite3.connect(path)
        triggers = base.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for statement in (*(f"DROP TRIGGER {name}" for (name,) in triggers), *statements):
            base.execute(statement)
        base.commit()
        base.close()

    return run


def found(path: Path, setup: str | None = None) -> list[tuple[str, str, int]]:
    """What verifying the file read-only finds."""
    with Store.read(path) as reader:
        return [(f.fault, f.setup, f.sequence) for f in findings(reader, setup)]


def test_an_untouched_journal_has_no_findings(
    path: Path, store: Store, walked: list[Event], chained: Chained
) -> None:
    """While it is open and after."""
    store.keep_text("procedure")
    for event in chained("demo-2"):
        store.append(event)
    assert found(path) == found(path, "demo-2") == []
    store.close()
    assert found(path) == found(path, "demo-1") == []


@pytest.mark.parametrize(
    ("statement", "finding"),
    [
        ("UPDATE event SET body = replace(body, '0.003', '0.001') WHERE sequence = 3",
         [("changed", "demo-1", 3)]),
        ("UPDATE event SET digest = replace(digest, 'a', 'b') WHERE sequence = 4",
         [("changed", "demo-1", 4)]),
        ("UPDATE event SET body = CAST('\xff' AS BLOB) WHERE sequence = 4",
         [("changed", "demo-1", 4)]),
        ("UPDATE event SET body = CAST(x'ff' AS TEXT) WHERE sequence = 6",
         [("changed", "demo-1", 6)]),
        ("DELETE FROM event WHERE sequence = 2", [("missing", "demo-1", 2)]),
        ("DELETE FROM event WHERE sequence = 6", [("missing", "demo-1", 6)]),
        ("DELETE FROM event", [("missing", "demo-1", 1)]),
        ("INSERT INTO event SELECT setup, 7, body, digest, '' FROM event WHERE sequence = 6",
         [("reordered", "demo-1", 7)]),
        ("INSERT INTO event VALUES ('demo-1', 7, '{}', 'x', '')", [("changed", "demo-1", 7)]),
        ("UPDATE event SET sequence = 7 - sequence + 100",
         [("missing", "demo-1", 1), *[("reordered", "demo-1", n) for n in range(101, 107)]]),
        ("UPDATE event SET rowid = 10 WHERE sequence = 2", [("reordered", "demo-1", 2)]),
        ("UPDATE event SET setup = 'demo-9' WHERE sequence = 6",
         [("missing", "demo-1", 6), ("missing", "demo-9", 1), ("added", "demo-9", 6)]),
    ],
)  # fmt: skip
def test_what_was_done_to_an_event_is_found_and_the_event_named(
    path: Path, tamper: Tamper, statement: str, finding: list[tuple[str, str, int]]
) -> None:
    """Changed, dropped, added, swapped: fault, setup and number."""
    tamper(statement)
    first, *rest = found(path)
    assert first == finding[0]
    assert set(finding[1:]) <= set(rest)


def test_a_last_event_rewritten_with_its_digest_is_found(
    path: Path, tamper: Tamper, walked: list[Event]
) -> None:
    """No later event holds its digest, but the link does."""
    body = walked[-1].body().replace("0.006", "0.000")
    tamper(f"UPDATE event SET body = '{body}', digest = '{digest(body)}' WHERE sequence = 6")
    assert found(path) == [("changed", "demo-1", 6)]


def test_a_finding_names_kind_and_step_in_a_sentence(path: Path, tamper: Tamper) -> None:
    """What an auditor reads."""
    tamper("UPDATE event SET body = replace(body, '0.003', '0.001') WHERE sequence = 3")
    with Store.read(path) as reader:
        (finding,) = findings(reader)
    assert (finding.kind, finding.step) == ("record", "clean-nose")
    assert str(finding) == (
        "Event 3 of setup demo-1 (record, step clean-nose) was changed:"
        " its text does not match its digest."
    )


def test_an_event_that_cannot_be_read_stops_the_reading(path: Path, tamper: Tamper) -> None:
    """A walk is not rebuilt around a hole."""
    tamper("UPDATE event SET body = '{' WHERE sequence = 3")
    with Store.read(path) as reader:
        with pytest.raises(CheckFailed, match="Event 3 of setup demo-1 cannot be read"):
            reader.events("demo-1")
        (summary,) = reader.setups()
    assert summary.events == 6


def test_a_summary_of_unreadable_events_is_blank_and_no_crash(path: Path, tamper: Tamper) -> None:
    """The list of setups still opens."""
    tamper("UPDATE event SET body = '[]'")
    with Store.read(path) as reader:
        (summary,) = reader.setups()
    assert (summary.setup, summary.opened_at, summary.opening, summary.last_kind) == (
        "demo-1", "", {}, "",
    )  # fmt: skip


def test_a_changed_procedure_text_is_found_and_not_given_out(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """Neither `verify` nor `text` lets it pass."""
    name = store.keep_text("loosen nothing")
    store.close()
    base = sqlite3.connect(path)
    base.execute("DROP TRIGGER text_no_update")
    base.execute("UPDATE text SET body = 'loosen everything'")
    base.commit()
    base.close()
    assert found(path) == [("changed", "", 0)]
    with Store.read(path) as reader, pytest.raises(CheckFailed):
        reader.text(name)


def test_bytes_changed_in_the_file_are_found(path: Path, store: Store, walked: list[Event]) -> None:
    """A letter of one body, changed with no database program at all."""
    store.close()
    raw = path.read_bytes()
    assert raw.count(b'"reading":"0.004"') == 1
    path.write_bytes(raw.replace(b'"reading":"0.004"', b'"reading":"0.001"'))
    assert found(path) == [("changed", "demo-1", 4)]


def said_of(path: Path) -> str:
    """What verifying says of the file, as findings or as a refusal."""
    try:
        with Store.read(path) as reader:
            return " ".join(map(str, findings(reader)))
    except CheckFailed as refused:
        return str(refused)


@pytest.mark.parametrize("page", range(1, 6))
def test_a_torn_page_is_damage_in_plain_words(
    path: Path, store: Store, walked: list[Event], page: int
) -> None:
    """SQLite refuses to read it, or its own check names it."""
    store.close()
    raw = bytearray(path.read_bytes())
    assert len(raw) > page * 4096
    raw[page * 4096 : page * 4096 + 100] = b"\xff" * 100
    path.write_bytes(raw)
    assert "is damaged" in said_of(path)


def test_an_index_that_lost_an_event_is_damage(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """The event is in its table, but not where it is looked up: SQLite's own check says so."""
    (page,) = store._base.execute(
        "SELECT rootpage FROM sqlite_master WHERE name = 'sqlite_autoindex_event_1'"
    ).fetchone()
    store.close()
    raw = path.read_bytes()
    index = raw[(page - 1) * 4096 : page * 4096]
    assert index.count(b"demo-1") == 6
    path.write_bytes(raw.replace(index, index.replace(b"demo-1", b"demo-7", 1)))
    assert ("damaged", "", 0) in found(path)
