"""Which bytes of a journal file belong to what: the file format of SQLite, as far as that takes.

After https://www.sqlite.org/fileformat2.html (sections 1.3, 1.5 to 1.6 and 4.1).
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

Spans = dict[str, list[range]]
INTERIOR_INDEX, INTERIOR_TABLE, LEAF_INDEX, LEAF_TABLE = 2, 5, 10, 13
LOG_HEADER, FRAME_HEADER = 32, 24


class Raw(NamedTuple):
    """The bytes of a database and the size of its pages."""

    data: bytes
    page: int

    def number(self, at: int, size: int = 4) -> int:
        """A whole number, most significant byte first."""
        return int.from_bytes(self.data[at : at + size], "big")

    def varint(self, at: int) -> tuple[int, int]:
        """A number of 1 to 9 bytes, and where it ends."""
        value = 0
        for each in range(8):
            byte = self.data[at + each]
            value = value << 7 | byte & 0x7F
            if byte < 0x80:
                return value, at + each + 1
        return value << 8 | self.data[at + 8], at + 9

    def span(self, page: int) -> range:
        """The bytes of a page, counted from 1; of the first without the header of the file."""
        return range((page - 1) * self.page + (100 if page == 1 else 0), page * self.page)


def of_database(file: Path) -> Spans:
    """Spans of the header, the schema, each table and index, free pages, signatures and heads."""
    with closing(sqlite3.connect(file)) as base:
        roots = base.execute("SELECT name, rootpage FROM sqlite_master WHERE rootpage").fetchall()
        texts = {
            "signatures": "SELECT signature FROM link WHERE signature <> ''",
            "heads of links": "SELECT head FROM link",
        }
        told = {name: [row[0] for row in base.execute(query)] for name, query in texts.items()}
    raw = Raw(file.read_bytes(), int.from_bytes(file.read_bytes()[16:18], "big"))
    spans: Spans = {"header": [range(100)]}
    for name, root in (("schema", 1), *roots):
        spans[name] = [raw.span(page) for page in _tree(raw, root)]
    spans["free pages"] = [raw.span(page) for page in _free(raw)]
    for name, wanted in told.items():
        spans[name] = [each for text in wanted for each in _where(raw.data, text.encode())]
    return spans


def _tree(raw: Raw, page: int) -> Iterator[int]:
    """A page of a tree, all below it, and what overflows from it."""
    yield page
    at = raw.span(page).start
    kind, cells = raw.data[at], raw.number(at + 3, 2)
    interior = kind in (INTERIOR_INDEX, INTERIOR_TABLE)
    if interior:
        yield from _tree(raw, raw.number(at + 8))
    for each in range(cells):
        place = raw.number(at + (12 if interior else 8) + 2 * each, 2)
        cell = (page - 1) * raw.page + place
        if interior:
            yield from _tree(raw, raw.number(cell))
        if kind != INTERIOR_TABLE:
            yield from _overflow(raw, kind, cell + (4 if interior else 0))


def _overflow(raw: Raw, kind: int, at: int) -> Iterator[int]:
    """The pages that take up what has no room in a cell."""
    size, at = raw.varint(at)
    if kind == LEAF_TABLE:
        _, at = raw.varint(at)
    most = raw.page - 35 if kind == LEAF_TABLE else (raw.page - 12) * 64 // 255 - 23
    if size <= most:
        return
    least = (raw.page - 12) * 32 // 255 - 23
    kept = least + (size - least) % (raw.page - 4)
    page = raw.number(at + (kept if kept <= most else least))
    while page:
        yield page
        page = raw.number(raw.span(page).start)


def _free(raw: Raw) -> Iterator[int]:
    """The pages that are of no use at present."""
    trunk = raw.number(32)
    while trunk:
        yield trunk
        at = raw.span(trunk).start
        yield from (raw.number(at + 8 + 4 * each) for each in range(raw.number(at + 4)))
        trunk = raw.number(at)


def _where(data: bytes, wanted: bytes) -> Iterator[range]:
    """Every place of some bytes."""
    at = data.find(wanted)
    while at >= 0:
        yield range(at, at + len(wanted))
        at = data.find(wanted, at + 1)


def of_log(file: Path, page: int = 4096) -> Spans:
    """Spans of a write-ahead log: its header, the headers of its frames, the pages in them."""
    size, whole = file.stat().st_size, FRAME_HEADER + page
    frames = range(LOG_HEADER, size - whole + 1, whole)
    return {
        "log header": [range(LOG_HEADER)],
        "frame headers": [range(at, at + FRAME_HEADER) for at in frames],
        "frames": [range(at + FRAME_HEADER, at + whole) for at in frames],
    }
