"""The start page and a list of setups that is damaged, or that an earlier version kept."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from guide.front.shelf import glance
from guide.journal import schema
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store

OPEN = Event(
    "left-open", 1, "2031-03-02T08:00:00.000Z", "A. Sample", "", "open",
    {"mode": "real", "procedure": "chuck-removal", "facts": {"lathe": "Lathe 2 (invented)"}},
    GENESIS,
)  # fmt: skip

HIDING = [
    "UPDATE glance SET ended = 1 WHERE setup = 'left-open'",
    "UPDATE glance SET setup = 'left-opeo' WHERE setup = 'left-open'",
    "DELETE FROM glance WHERE setup = 'left-open'",
    "UPDATE tally SET unended = 0",
]


@pytest.mark.parametrize("harm", HIDING)
async def test_a_damaged_list_hides_no_open_setup(opened, keyboard, harm: str) -> None:
    """It stands there to be gone on with, and the page says that something is damaged."""
    file = opened.settings.journal_file
    with Store(file) as store:
        store.append(OPEN)
    with closing(sqlite3.connect(file)) as base, base:
        base.execute(harm)
    async with opened(keyboard, first_use=True) as at:
        await at.row("resume:left-open")
        assert "list of setups is damaged. Run spindleside verify." in at.complaint


async def test_a_setup_whose_text_is_lost_is_listed_by_the_name_of_its_procedure(
    opened, keyboard
) -> None:
    """There is no title to be read, and it can be found all the same."""
    with Store(opened.settings.journal_file) as store:
        store.append(OPEN)
    async with opened(keyboard, first_use=True) as at:
        row = await at.row("resume:left-open")
        assert "Lathe 2 (invented) · chuck-removal · last A. Sample" in str(row.label)


async def test_of_a_sound_list_nothing_is_said(opened, keyboard) -> None:
    """The same setup, and no complaint."""
    with Store(opened.settings.journal_file) as store:
        store.append(OPEN)
    async with opened(keyboard, first_use=True) as at:
        await at.row("resume:left-open")
        assert at.complaint == ""


FIRST = (
    """CREATE TABLE event (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, body TEXT NOT NULL, digest TEXT NOT NULL,
    UNIQUE (setup, sequence))""",
    "CREATE TABLE text (digest TEXT PRIMARY KEY NOT NULL, body TEXT NOT NULL)",
    """CREATE TABLE seal (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, digest TEXT NOT NULL,
    PRIMARY KEY (setup, sequence)) WITHOUT ROWID""",
    "CREATE TRIGGER event_sealed AFTER INSERT ON event BEGIN"
    " INSERT INTO seal SELECT NEW.setup, NEW.sequence, NEW.digest; END",
    f"PRAGMA application_id = {schema.APPLICATION}",
    "PRAGMA user_version = 1",
)
"""What version 1 of the journal made."""


def test_the_start_page_brings_a_journal_of_the_first_version_forward(opened) -> None:
    """As the refusal of every reader says, which names the start page."""
    file: Path = opened.settings.journal_file
    with closing(sqlite3.connect(file, isolation_level=None)) as base:
        for statement in FIRST:
            base.execute(statement)
        row = (OPEN.setup, OPEN.sequence, OPEN.body(), OPEN.digest)
        base.execute("INSERT INTO event VALUES (?, ?, ?, ?)", row)
    told = glance(opened.settings)
    assert ([each.setup for each in told.open], told.amiss) == (["left-open"], "")
    with Store.read(file) as store:
        assert store.list_stands()
