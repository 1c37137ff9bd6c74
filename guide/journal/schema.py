"""The tables of the journal file, and the marks by which a file is known to be one."""

from __future__ import annotations

from collections.abc import Iterator

APPLICATION = 0x53706E64
"""SQLite's `application_id` of a journal: the letters Spnd."""
VERSION = 1
"""SQLite's `user_version`: what this program reads and writes."""

TABLES = (
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
)
"""`seal` notes each digest apart, so that a cut end or a rewritten last event is found."""

SAME = {
    "text": "rowid = NEW.rowid OR digest = NEW.digest",
    "seal": "setup = NEW.setup AND sequence = NEW.sequence",
}
"""Which stored row a new one would displace: INSERT OR REPLACE fires no DELETE trigger.

`event` has no guard: whoever holds the file can drop one, so what shows a change there is the
chain and the seal, never a refusal that might be taken for proof.
"""

REFUSED = "RAISE(ABORT, 'what is in the journal is never changed or taken out')"


def statements() -> Iterator[str]:
    """The statements that make an empty file a journal."""
    yield from TABLES
    for table, same in SAME.items():
        yield from _guards(table, same)
    yield f"PRAGMA application_id = {APPLICATION}"
    yield f"PRAGMA user_version = {VERSION}"


def _guards(table: str, same: str) -> Iterator[str]:
    for change in ("UPDATE", "DELETE"):
        name = f"{table}_no_{change.lower()}"
        yield f"CREATE TRIGGER {name} BEFORE {change} ON {table} BEGIN SELECT {REFUSED}; END"
    yield f"""CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table}
    WHEN EXISTS (SELECT 1 FROM {table} WHERE {same}) BEGIN SELECT {REFUSED}; END"""


MARKS = """
SELECT (SELECT application_id FROM pragma_application_id),
    (SELECT user_version FROM pragma_user_version), (SELECT count(*) FROM sqlite_master)
"""
"""By what a file is known: `APPLICATION`, `VERSION`, and whether it holds anything at all."""
ROWS = """
SELECT rowid, setup, CAST(sequence AS INTEGER), CAST(body AS TEXT), CAST(digest AS TEXT)
FROM event WHERE setup = ? ORDER BY rowid
"""
"""A setup's rows in stored order, whatever types were forced into them."""
LAST = "SELECT sequence, digest FROM event WHERE setup = ? ORDER BY sequence DESC LIMIT 1"
KEEP = "INSERT INTO text SELECT ?1, ?2 WHERE NOT EXISTS (SELECT 1 FROM text WHERE digest = ?1)"
ENDS = """
WITH RECURSIVE name (setup) AS (
    SELECT min(setup) FROM event
    UNION ALL
    SELECT (SELECT min(setup) FROM event WHERE setup > name.setup)
    FROM name WHERE name.setup IS NOT NULL)
SELECT name.setup,
    (SELECT body FROM event WHERE setup = name.setup ORDER BY sequence LIMIT 1),
    (SELECT body FROM event WHERE setup = name.setup ORDER BY sequence DESC LIMIT 1),
    (SELECT max(sequence) FROM event WHERE setup = name.setup)
FROM name WHERE name.setup IS NOT NULL
ORDER BY (SELECT rowid FROM event WHERE setup = name.setup ORDER BY sequence DESC LIMIT 1) DESC
"""
"""Each setup's first and last body, latest setup first, by steps along the index."""
