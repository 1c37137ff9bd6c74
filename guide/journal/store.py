"""The journal file: events and procedure texts are added, durably, and never taken out again."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from functools import partial
from pathlib import Path
from time import sleep
from types import TracebackType
from typing import Any

from guide.journal import glance, listing, opening, schema, trouble
from guide.journal.canonical import digest
from guide.journal.event import GENESIS, Event, parse
from guide.journal.finding import Noted, Row
from guide.journal.glance import Listed
from guide.journal.holding import Hold
from guide.journal.link import Link, head_of
from guide.journal.listing import Lists
from guide.journal.standing import STANDING
from guide.journal.summary import Summary, summary
from guide.journal.wellformed import is_setup_id, setup_id
from guide.plain import BadInput


class Store:
    """One journal file, opened to be gone on with; `Store.read` opens one only to be read.

    Whatever the file or the disk does comes out as one Refusal with a remedy, and what was written
    before stays as it was.
    """

    def __init__(self, path: Path, *, patience: float = 2.0, reading: bool = False) -> None:
        """Open the journal, making its folder and file where they are missing.

        `patience` is how many seconds to wait for another program that is writing.
        """
        self.path = path
        self._patience = patience
        self._version = schema.VERSION
        with _plainly(path), ExitStack() as stack:
            self._base = self._read_only(stack) if reading else self._writable(stack)
            self._lists = Lists(self._base, path, self._version)
            self._open = stack.pop_all()

    @classmethod
    def read(cls, path: Path, *, patience: float = 2.0) -> Store:
        """Open a journal that is there, to be read only: no file of any sort is made beside it."""
        return cls(path, patience=patience, reading=True)

    @staticmethod
    def is_there(path: Path) -> bool:
        """Whether there is a journal to be read; Refusal where its folder may not be looked into.

        `Path.exists` raises there, and "there is none" would be said of one that is barred.
        """
        return opening.is_there(path)

    def close(self) -> None:
        """Close the file; the store is of no use afterwards."""
        with _plainly(self.path):
            self._open.close()

    def __enter__(self) -> Store:
        """The store itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the file."""
        self.close()

    def append(self, event: Event, signature: str = "") -> None:
        """Write the event so that no crash or power cut after the return can lose it.

        `signature` is that of the event's body under its key, blank where it has none. NotAllowed
        unless it is the one after the setup's last event and holds that one's digest.
        """
        with self._writing():
            if (event.sequence - 1, event.previous) != self.last(event.setup):
                raise trouble.overtaken(event.setup)
            name = event.digest
            values = (event.setup, event.sequence, event.body(), name, signature)
            written = self._base.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", values)
            self._link(event.setup, event.sequence, name, signature)
            glance.note(self._base, event, written.lastrowid or 0)

    def last(self, setup: str) -> tuple[int, str]:
        """The number and the digest of the setup's last event; 0 and `GENESIS` where none is."""
        with _plainly(self.path):
            row = self._base.execute(schema.LAST, (setup_id(setup),)).fetchone()
        return row or (0, GENESIS)

    def events(self, setup: str) -> tuple[Event, ...]:
        """The setup's events in order, none where there is no such setup; see `stream`."""
        return tuple(self.stream(setup))

    def stream(self, setup: str) -> Iterator[Event]:
        """The setup's events one by one; CheckFailed where one is missing or is no event's text.

        Digests are not compared here: `verify.findings` does that.
        """
        query = schema.BODIES
        rows = self._rows(query, setup_id(setup))
        for number, (sequence, body) in enumerate(rows, start=1):
            if sequence != number:
                raise trouble.lost_event(setup, number)
            yield _event(setup, sequence, body)

    def rows(self, setup: str) -> Iterator[Row]:
        """The setup's rows as they are stored, in the order in which they are stored."""
        return map(Row._make, self._rows(schema.ROWS, setup))

    def noted(self, setup: str) -> dict[int, Noted]:
        """What the chain over all events says of each of the setup's, by number in the setup."""
        rows = self._rows(schema.NOTED, setup)
        return {sequence: Noted(number, name, by) for sequence, number, name, by in rows}

    def links(self) -> Iterator[Link]:
        """The chain over all events as it is stored, one by one, believed in nothing."""
        previous = GENESIS
        for number, setup, sequence, event, signature, head in self.linked():
            yield Link(number, setup, sequence, event, signature, previous, head)
            previous = head

    def linked(self) -> Iterator[tuple[int, str, int, str, str, str]]:
        """The same with nothing made of it: number, setup, sequence, digest, signature, head."""
        rows: Iterator[Any] = self._rows(schema.LINKS)
        return rows

    def head(self) -> Link | None:
        """The last link over all events, None in an empty journal."""
        return next((Link(*row) for row in self._rows(schema.LAST_LINK, GENESIS)), None)

    def link(self, setup: str) -> Link | None:
        """The link of the setup's last event, None where there is none."""
        return next((Link(*row) for row in self._rows(schema.LINK_OF, GENESIS, setup)), None)

    def place_of(self, start: str) -> Link | None:
        """The first link whose head, or whose event's digest, begins with this text."""
        values = (GENESIS, len(start), start, len(start), start)
        return next((Link(*row) for row in self._rows(schema.PLACE_OF, *values)), None)

    def names(self) -> tuple[str, ...]:
        """Every setup of which there is an event or a link, in the order of their ids."""
        return tuple(name for name in self.chains() if name not in STANDING)

    def chains(self) -> tuple[str, ...]:
        """Every standing chain and setup of which there is an event or a link, in that order."""
        return tuple(filter(is_setup_id, self._named()))

    def strays(self) -> tuple[str, ...]:
        """What stands where a setup's name belongs and can be none, spelled out."""
        return tuple(ascii(name) for name in self._named() if not is_setup_id(name))

    def _named(self) -> Iterator[Any]:
        """Every name of which there is an event or a link, standing chains first."""
        rows = self._rows(schema.NAMES, *STANDING)
        return (name for (name,) in rows)

    def setups(self) -> tuple[Summary, ...]:
        """A summary of each setup, the one gone on with last first, reading two events of each.

        CheckFailed where an index of the file is damaged and a setup's events are not found by it.
        """
        with _plainly(self.path):
            return tuple(summary(*columns[:-1]) for columns in self._lists.ends())

    def open_setups(self) -> tuple[Summary, ...]:
        """A summary of each setup that has not ended, the one opened last first."""
        return self._given(listing.still_open)

    def ended_setups(self, limit: int = -1) -> tuple[Summary, ...]:
        """A summary of each setup that has ended, the latest first, of so many at most."""
        return self._given(partial(listing.ended, limit=limit))

    def latest_outcomes(self) -> tuple[Summary, ...]:
        """Of each chuck on each lathe the setup that ended last with an outcome."""
        return self._given(listing.latest)

    def outcomes(self, chuck: str = "") -> Iterator[Summary]:
        """The setups of a chuck, or of every chuck, that ended with an outcome, in that order."""
        with _plainly(self.path):
            for each in self._lists.streamed(partial(listing.with_outcome, chuck=chuck)):  # noqa: UP028
                yield each

    def last_outcomes(self, chuck: str, lathe: str, limit: int) -> tuple[Summary, ...]:
        """Of a chuck on a lathe, both as spelled, the setups that ended last with an outcome.

        The latest first, of so many at most.
        """
        return self._given(partial(listing.last_of, chuck=chuck, lathe=lathe, limit=limit))

    def list_was_sound(self) -> bool:
        """Whether every list given so far was as it was kept; else it was read from the events."""
        return self._lists.sound

    def list_stands(self) -> bool:
        """Whether the derived list is as it was kept, by its tally."""
        with _plainly(self.path):
            return self._lists.stands()

    def _given(self, which: Callable[[Sequence[Listed]], Sequence[Listed]]) -> tuple[Summary, ...]:
        with _plainly(self.path):
            return self._lists.given(which)

    def keep_sealed(self, text: str) -> str:
        """Keep a person's sealed private key, durably, and give the digest it is found by."""
        return self._kept("sealed", text)

    def sealed(self, name: str) -> str:
        """The sealed key kept by that digest; CheckFailed where it is missing or was changed."""
        return self._text("sealed", name)

    def keep_text(self, text: str) -> str:
        """Keep a procedure's text, durably and once, and give the digest it is found by."""
        return self._kept("text", text)

    def text(self, name: str) -> str:
        """The text kept by that digest; CheckFailed where it is missing or was changed."""
        return self._text("text", name)

    def _kept(self, table: str, text: str) -> str:
        name = digest(text)
        with self._writing():
            self._base.execute(schema.KEEP.format(table=table), (name, text))
        return name

    def _text(self, table: str, name: str) -> str:
        for (text,) in self._rows(f"SELECT body FROM {table} WHERE digest = ?", name):
            if isinstance(text, str) and digest(text) == name:
                return text
        raise trouble.lost_text(name) if table == "text" else trouble.lost_seal(name)

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every procedure text behind the digest it is kept by."""
        return self._texts("text")

    def seals(self) -> Iterator[tuple[str, str]]:
        """Every sealed key behind the digest it is kept by."""
        return self._texts("sealed")

    def _texts(self, table: str) -> Iterator[tuple[str, str]]:
        what = f"{schema.DIGEST}, {schema.BODY}"
        rows = self._rows(f"SELECT {what} FROM {table} ORDER BY rowid")
        return ((name, body) for name, body in rows)

    def damage(self) -> tuple[str, ...]:
        """What SQLite's own check of the file complains of, at most ten lines; none is sound."""
        lines = (line for (line,) in self._rows("PRAGMA integrity_check(10)"))
        return tuple(line for line in lines if line != "ok")

    def is_listed(self, first: Event, last: Event) -> bool:
        """Whether the derived list says of a setup what its first and last event say."""
        values = (last.sequence, first.setup, "ends" in last.data, *glance.shown(first, last))
        return any(count for (count,) in self._rows(schema.LISTED, *values))

    def ghosts(self) -> tuple[str, ...]:
        """What the derived list names without there being an event of it, spelled out."""
        return tuple(ascii(name) for (name,) in self._rows(schema.GHOSTS))

    def relist(self) -> None:
        """Work the list of setups out anew from their events."""
        with self._writing():
            self._listed()

    def hold(self, setup: str, at: str) -> Hold:
        """Keep every other process off the setup until released; NotAllowed where one has it.

        `at` is the time now, which the others are told.
        """
        return Hold(self.path.parent / "locks" / f"setup-{setup_id(setup)}.lock", setup, at)

    def _rows(self, query: str, *values: object) -> Iterator[tuple[Any, ...]]:
        """Rows one by one; left alone half way they may outlive the open file.

        So no `yield from`: that closes the cursor then, of which the closed file would complain.
        """
        with _plainly(self.path):
            for row in self._base.execute(query, values):  # noqa: UP028
                yield row

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """One transaction: all of it is on the disk afterwards, or nothing."""
        with _plainly(self.path), _transaction(self._base):
            yield

    def _link(self, setup: str, sequence: int, name: str, signature: str) -> None:
        """Add an event to the chain over all events, inside the transaction that writes it."""
        last = self._base.execute(schema.LAST_HEAD)
        before, previous = last.fetchone() or (0, GENESIS)
        head = head_of(before + 1, setup, sequence, name, signature, previous)
        values = (before + 1, setup, sequence, name, signature, head)
        self._base.execute("INSERT INTO link VALUES (?, ?, ?, ?, ?, ?)", values)

    def _listed(self) -> None:
        """The list of setups from their events, inside a transaction."""
        for statement in schema.EMPTIED:
            self._base.execute(statement)
        for rowid, body in self._base.execute(glance.EVERY, STANDING).fetchall():
            glance.note(self._base, parse(body), rowid)

    def _writable(self, stack: ExitStack) -> sqlite3.Connection:
        opening.make_folder(self.path)
        emptied = opening.was_used(self.path)
        self._base = self._connected(self.path.absolute().as_uri(), stack)
        version = opening.version_of(_marks(self._base), self.path)
        if version == 0 and emptied:
            raise trouble.emptied(self.path)
        _log_ahead(self._base, self._patience)
        if version < schema.VERSION:
            with _transaction(self._base):
                self._brought_forward(opening.version_of(_marks(self._base), self.path))
        return self._base

    def _brought_forward(self, version: int) -> None:
        """An empty file is made a journal, one of the first version gets what it lacks."""
        if version == 0:
            for statement in schema.statements():
                self._base.execute(statement)
        elif version == 1:
            for statement in schema.from_first_version():
                self._base.execute(statement)
            for setup, sequence, name in self._base.execute(schema.FIRST_SEALS).fetchall():
                self._link(setup, sequence, name, "")
            self._base.execute("DROP TABLE seal")
            self._listed()
        elif version == 2:
            for statement in schema.from_second_version():
                self._base.execute(statement)
            self._listed()

    def _read_only(self, stack: ExitStack) -> sqlite3.Connection:
        base = self._connected(opening.address(self.path, stack), stack)
        version = opening.version_of(_marks(base), self.path)
        if version == 0:
            raise trouble.emptied(self.path)
        if version < schema.UNTALLIED:
            raise trouble.earlier(self.path)
        self._version = version
        return base

    def _connected(self, address: str, stack: ExitStack) -> sqlite3.Connection:
        base = sqlite3.connect(address, self._patience, isolation_level=None, uri=True)
        stack.callback(base.close)
        base.text_factory = partial(str, encoding="utf-8", errors="replace")
        return base


def _event(setup: str, sequence: int, body: str) -> Event:
    try:
        return parse(body)
    except BadInput:
        raise trouble.unreadable(setup, sequence) from None


def _marks(base: sqlite3.Connection) -> tuple[int, int, int, int]:
    application, version, things, ours = base.execute(schema.MARKS).fetchone()
    return application, version, things, ours


def _log_ahead(base: sqlite3.Connection, patience: float) -> None:
    """Write ahead to a log, and have each commit on the disk before it is called done.

    The log is brought into the file after each commit unless somebody reads just then: one damaged
    bit of a log is enough for SQLite to leave out all that comes after it without a word, and a
    copy of the file alone would lack it.

    SQLite waits for no one when it changes a file to this mode, as several programs may want to do
    at once with a new file: so the waiting is done here.
    """
    for pragma in ("synchronous = FULL", "fullfsync = ON", "wal_autocheckpoint = 1"):
        base.execute(f"PRAGMA {pragma}")
    for pause in (*[patience / 40] * 40, None):
        try:
            base.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            if pause is None or not error.sqlite_errorname.startswith("SQLITE_BUSY"):
                raise
        sleep(pause)


@contextmanager
def _transaction(base: sqlite3.Connection) -> Iterator[None]:
    base.execute("BEGIN IMMEDIATE")
    try:
        yield
        base.execute("COMMIT")
    finally:
        if base.in_transaction:
            base.execute("ROLLBACK")


@contextmanager
def _plainly(path: Path) -> Iterator[None]:
    """Whatever the file or the disk does, said in plain words; a misuse of this class is not.

    What SQLite says of a damaged table may quote bytes of it that are no text any more.
    """
    try:
        yield
    except sqlite3.ProgrammingError:
        raise
    except sqlite3.DatabaseError as error:
        code = getattr(error, "sqlite_errorname", "")
        if code == "SQLITE_NOTADB" and opening.was_journal(path):
            raise trouble.damaged(path) from error
        raise trouble.database(code, path) from error
    except UnicodeDecodeError as error:
        raise trouble.damaged(path) from error
