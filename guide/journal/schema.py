"""The tables of the journal file, and the marks by which a file is known to be one."""

from __future__ import annotations

from collections.abc import Iterator

from guide.journal.standing import STANDING

APPLICATION = 0x53706E64
"""SQLite's `application_id` of a journal: the letters Spnd."""
VERSION = 3
"""SQLite's `user_version`: what this program writes."""
UNTALLIED = 2
"""The version that is read as well, whose list of setups has no tally."""

EVENT = """CREATE TABLE event (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, body TEXT NOT NULL, digest TEXT NOT NULL,
    signature TEXT NOT NULL DEFAULT '', UNIQUE (setup, sequence))"""
TEXT = "CREATE TABLE text (digest TEXT PRIMARY KEY NOT NULL, body TEXT NOT NULL)"
BESIDE = (
    """CREATE TABLE link (
    number INTEGER PRIMARY KEY, setup TEXT NOT NULL, sequence INTEGER NOT NULL,
    digest TEXT NOT NULL, signature TEXT NOT NULL, head TEXT NOT NULL, UNIQUE (setup, sequence))""",
    """CREATE TABLE sealed (
    digest TEXT PRIMARY KEY NOT NULL, body TEXT NOT NULL)""",
    """CREATE TABLE glance (
    setup TEXT PRIMARY KEY NOT NULL, opened INTEGER NOT NULL, ended INTEGER,
    mode TEXT NOT NULL, lathe TEXT NOT NULL, chuck TEXT NOT NULL) WITHOUT ROWID""",
)
TALLY = (
    "CREATE TABLE tally (setups INTEGER, unended INTEGER, checks INTEGER)",
    "INSERT INTO tally VALUES (0, 0, 0)",
)
"""`link` is the chain over all events, `sealed` holds the persons' private keys, each sealed by a
PIN, by the digest of its text; `glance` is derived and spares lists a look at every setup, and
`tally` tells whether it is as it was kept."""

SAME = {
    "text": "rowid = NEW.rowid OR digest = NEW.digest",
    "sealed": "rowid = NEW.rowid OR digest = NEW.digest",
    "link": "number = NEW.number OR (setup = NEW.setup AND sequence = NEW.sequence)",
}
"""Which stored row a new one would displace: INSERT OR REPLACE fires no DELETE trigger.

`event` has no guard: whoever holds the file can drop one, so what shows a change there is the
chain and the link, never a refusal that might be taken for proof.
"""

REFUSED = "RAISE(ABORT, 'what is in the journal is never changed or taken out')"


def statements() -> Iterator[str]:
    """The statements that make an empty file a journal."""
    yield from (EVENT, TEXT, *BESIDE, *TALLY)
    for table in SAME:
        yield from _guards(table)
    yield f"PRAGMA application_id = {APPLICATION}"
    yield f"PRAGMA user_version = {VERSION}"


def from_first_version() -> Iterator[str]:
    """The statements that bring a journal of version 1 forward, all but its links and lists."""
    yield "ALTER TABLE event ADD COLUMN signature TEXT NOT NULL DEFAULT ''"
    yield "DROP TRIGGER event_sealed"
    yield from (*BESIDE, *TALLY)
    yield from (guard for table in SAME if table != "text" for guard in _guards(table))
    yield f"PRAGMA user_version = {VERSION}"


def from_second_version() -> Iterator[str]:
    """The statements that bring a journal of version 2 forward, all but its tally."""
    yield from ("DROP INDEX IF EXISTS glance_ended", "DROP INDEX IF EXISTS glance_chuck", *TALLY)
    yield f"PRAGMA user_version = {VERSION}"


def _guards(table: str) -> Iterator[str]:
    for change in ("UPDATE", "DELETE"):
        name = f"{table}_no_{change.lower()}"
        yield f"CREATE TRIGGER {name} BEFORE {change} ON {table} BEGIN SELECT {REFUSED}; END"
    yield f"""CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table}
    WHEN EXISTS (SELECT 1 FROM {table} WHERE {SAME[table]}) BEGIN SELECT {REFUSED}; END"""


MARKS = """
SELECT (SELECT application_id FROM pragma_application_id),
    (SELECT user_version FROM pragma_user_version), (SELECT count(*) FROM sqlite_master),
    (SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name IN ('event', 'text'))
"""
"""By what a file is known: `APPLICATION`, `VERSION`, how much it holds, and whether that is what
every journal holds."""
OURS = 2
"""How many tables `MARKS` looks for."""
WHOLE = "CASE typeof(sequence) WHEN 'integer' THEN sequence ELSE 0 END"
"""A number as it was written, 0 for whatever else was forced in its place."""
SETUP, BODY, DIGEST, SIGNATURE, HEAD = (
    f"coalesce(CAST({name} AS TEXT), '')"
    for name in ("setup", "body", "digest", "signature", "head")
)
"""A text as it was written, blank where damage has left none."""
NUMBER = "coalesce(CAST(number AS INTEGER), 0)"
ROWS = f"""
SELECT rowid, setup, {WHOLE}, {BODY}, {DIGEST}, {SIGNATURE}
FROM event WHERE setup = ? ORDER BY rowid
"""
"""A setup's rows in stored order, whatever types were forced into them."""
BODIES = f"SELECT {WHOLE}, {BODY} FROM event WHERE setup = ? ORDER BY sequence"
LAST_HEAD = f"SELECT {NUMBER}, {HEAD} FROM link ORDER BY number DESC LIMIT 1"
LAST = "SELECT sequence, digest FROM event WHERE setup = ? ORDER BY sequence DESC LIMIT 1"
KEEP = (
    "INSERT INTO {table} SELECT ?1, ?2 WHERE NOT EXISTS (SELECT 1 FROM {table} WHERE digest = ?1)"
)

LINKS = f"""
SELECT {NUMBER}, {SETUP}, coalesce(CAST(sequence AS INTEGER), 0), {DIGEST}, {SIGNATURE}, {HEAD}
FROM link ORDER BY number
"""
ONE_LINK = """
SELECT link.number, link.setup, link.sequence, link.digest, link.signature,
    coalesce((SELECT head FROM link AS before WHERE before.number = link.number - 1), ?),
    link.head
FROM link
"""
LINK_OF = f"{ONE_LINK} WHERE link.setup = ? ORDER BY link.sequence DESC LIMIT 1"
LAST_LINK = f"{ONE_LINK} ORDER BY link.number DESC LIMIT 1"
PLACE_OF = f"""{ONE_LINK}
WHERE substr(link.head, 1, ?) = ? OR substr(link.digest, 1, ?) = ? ORDER BY link.number LIMIT 1
"""
NAMES = """
SELECT setup FROM (SELECT setup FROM event UNION SELECT setup FROM link)
ORDER BY setup NOT IN (?, ?), setup
"""
NOTED = f"""
SELECT {WHOLE}, {NUMBER}, {DIGEST}, {SIGNATURE}
FROM link WHERE setup = ?
"""
"""What was noted of each of a setup's events when it was written."""
LISTED = """
SELECT count(*) FROM glance
JOIN event AS first ON first.setup = glance.setup AND first.sequence = 1
JOIN event AS last ON last.setup = glance.setup AND last.sequence = ?
WHERE glance.setup = ? AND glance.opened = first.rowid
    AND glance.ended IS CASE WHEN ? THEN last.rowid END
    AND (glance.mode, glance.lathe, glance.chuck) = (?, ?, ?)
"""
"""1 where the derived list agrees with the events of a setup."""
EMPTIED = ("DELETE FROM glance", "DELETE FROM tally", "INSERT INTO tally VALUES (0, 0, 0)")
MOMENT = "SELECT data_version FROM pragma_data_version"
GHOSTS = """
SELECT setup FROM glance WHERE NOT EXISTS (SELECT 1 FROM event WHERE event.setup = glance.setup)
"""
SUMMARY = """
SELECT (SELECT body FROM event WHERE rowid = ?2),
    (SELECT body FROM event WHERE setup = ?1 ORDER BY sequence DESC LIMIT 1),
    (SELECT max(sequence) FROM event WHERE setup = ?1),
    (SELECT rowid FROM event WHERE setup = ?1 ORDER BY sequence DESC LIMIT 1)
"""
"""A setup's first and last body, by steps along the indexes."""
ANYWHERE = "SELECT 1 FROM event NOT INDEXED WHERE setup = ? LIMIT 1"
"""Looks through all events, as a damaged index finds nothing."""
ENDS = f"""
WITH RECURSIVE name (setup) AS (
    SELECT min(setup) FROM event
    UNION ALL
    SELECT (SELECT min(setup) FROM event WHERE setup > name.setup)
    FROM name WHERE name.setup IS NOT NULL)
SELECT name.setup,
    (SELECT body FROM event WHERE setup = name.setup ORDER BY sequence LIMIT 1),
    (SELECT body FROM event WHERE setup = name.setup ORDER BY sequence DESC LIMIT 1),
    (SELECT max(sequence) FROM event WHERE setup = name.setup),
    (SELECT rowid FROM event WHERE setup = name.setup ORDER BY sequence DESC LIMIT 1),
    (SELECT rowid FROM event WHERE setup = name.setup ORDER BY sequence LIMIT 1)
FROM name WHERE name.setup IS NOT NULL AND name.setup NOT IN {STANDING}
ORDER BY (SELECT rowid FROM event WHERE setup = name.setup ORDER BY sequence DESC LIMIT 1) DESC
"""
"""The same from the events alone, latest setup first, with nothing derived believed."""
FIRST_SEALS = """
SELECT seal.setup, seal.sequence, seal.digest FROM seal
LEFT JOIN event ON event.setup = seal.setup AND event.sequence = seal.sequence
ORDER BY event.rowid IS NULL, event.rowid, seal.setup, seal.sequence
"""
"""What version 1 noted of each event when it was written, in the order of writing."""
