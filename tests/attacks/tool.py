"""A journal in the hands of somebody with a database tool, who knows how it is all worked out."""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

from guide.journal.canonical import canonical, digest
from guide.journal.event import GENESIS
from guide.journal.link import head_of
from guide.journal.said import said
from guide.journal.store import Store
from guide.records.evidence import Fault, faults, head_faults

Fields = dict[str, Any]
Change = Callable[[Fields], Mapping[str, Any]]
Sign = Callable[[str], str]


class Piece(NamedTuple):
    """One event as somebody would have it."""

    setup: str
    fields: Fields
    signature: str

    def but(self, **changes: Any) -> Piece:
        """With some fields of the body changed."""
        return self._replace(fields=self.fields | changes)

    def data(self, **changes: Any) -> Piece:
        """With some of what was entered changed; None takes it out."""
        told = self.fields["data"] | changes
        return self.but(data={name: each for name, each in told.items() if each is not None})


class Tool:
    """A journal file opened past the program."""

    def __init__(self, file: Path) -> None:
        self.file = file

    def run(self, *statements: str, values: tuple[object, ...] = ()) -> None:
        """SQL, with nothing in its way."""
        with closing(sqlite3.connect(self.file)) as base, base:
            for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'"):
                base.execute(f"DROP TRIGGER {name}")
            for each in statements:
                base.execute(each, values)

    def rows(self, query: str, *values: object) -> list[tuple[Any, ...]]:
        """What a query gives."""
        with closing(sqlite3.connect(self.file)) as base:
            return base.execute(query, values).fetchall()

    def edit(self, setup: str, sequence: int, change: Change) -> str:
        """One event's text changed and nothing else; gives the digest it would have."""
        query = "SELECT body FROM event WHERE setup = ? AND sequence = ?"
        ((body,),) = self.rows(query, setup, sequence)
        text = canonical(change(dict(said(body))))
        values = (text, setup, sequence)
        self.run("UPDATE event SET body = ? WHERE setup = ? AND sequence = ?", values=values)
        return digest(text)

    def pieces(self) -> list[Piece]:
        """Every event in the order of writing."""
        query = """SELECT event.setup, event.body, event.signature FROM link JOIN event
            ON event.setup = link.setup AND event.sequence = link.sequence ORDER BY link.number"""
        return [Piece(setup, dict(said(body)), by) for setup, body, by in self.rows(query)]

    def rewritten(
        self, pieces: Iterable[Piece], hands: Mapping[str, Sign] | None = None, links: bool = True
    ) -> None:
        """These events and no others: numbers, chains and (with `links`) the links worked out anew.

        Whoever's key is in `hands` signs again; every other signature stays as it was.
        """
        made = list(_made(pieces, hands or {}))
        self.run("DELETE FROM event", *(["DELETE FROM link"] if links else []))
        with closing(sqlite3.connect(self.file)) as base, base:
            head = GENESIS
            for number, row in enumerate(made, start=1):
                base.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", row)
                setup, sequence, _, name, signature = row
                if links:
                    head = head_of(number, setup, sequence, name, signature, head)
                    link = (number, setup, sequence, name, signature, head)
                    base.execute("INSERT INTO link VALUES (?, ?, ?, ?, ?, ?)", link)
        self.relist()

    def relist(self) -> None:
        """The list of setups made anew, as the program does it."""
        with Store(self.file) as store:
            store.relist()

    def changed(
        self,
        setup: str,
        sequence: int,
        change: Callable[[Piece], Piece],
        hands: Mapping[str, Sign] | None = None,
    ) -> None:
        """One event as somebody would have it, and everything after it worked out anew."""
        self.rewritten(
            (
                change(each) if (each.setup, each.fields["sequence"]) == (setup, sequence) else each
                for each in self.pieces()
            ),
            hands,
        )

    def found(self, setup: str | None = None, head: str = "") -> list[Fault]:
        """All that verifying finds."""
        with Store.read(self.file) as store:
            told = list(faults(store, setup))
            return told + (list(head_faults(store, head, "en", False)) if head else [])

    def first(self, head: str = "") -> tuple[str, str, int]:
        """The first fault: what, of which setup, which event."""
        first = next(iter(self.found(head=head)), None)
        return (first.fault, first.setup, first.sequence) if first else ("sound", "", 0)

    def head(self) -> str:
        """The head of the whole journal."""
        with Store.read(self.file) as store:
            last = store.head()
        assert last is not None
        return last.head


def _made(
    pieces: Iterable[Piece], hands: Mapping[str, Sign]
) -> Iterator[tuple[str, int, str, str, str]]:
    """The rows that these events make."""
    last: dict[str, tuple[int, str]] = defaultdict(lambda: (0, GENESIS))
    for setup, fields, signature in pieces:
        sequence, previous = last[setup]
        body = canonical(fields | {"setup": setup, "sequence": sequence + 1, "previous": previous})
        sign = hands.get(fields.get("key", ""))
        last[setup] = (sequence + 1, digest(body))
        yield setup, sequence + 1, body, digest(body), sign(body) if sign else signature
