"""The journal file: events and procedure texts are added, durably, and never taken out again."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from time import sleep
from types import TracebackType
from typing import Any

from guide.journal import opening, schema, trouble
from guide.journal.canonical import digest
from guide.journal.event import GENESIS, Event, parse
from guide.journal.finding import Row
from guide.journal.holding import Hold
from guide.journal.summary import Summary, summary
from guide.journal.wellformed import setup_id
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
        with _plainly(path), ExitStack() as stack:
            self._base = self._read_only(stack) if reading else self._writable(stack)
            self._open = stack.pop_all()

    @classmethod
    def read(cls, path: Path, *, patience: float = 2.0) -> Store:
        """Open a journal that is there, to be read only: no file of any sort is made beside it."""
        return cls(path, patience=patience, reading=True)

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

    def append(self, event: Event) -> None:
        """Write the event so that no crash or power cut after the return can lose it.

        NotAllowed unless it is the one after the setup's last event and holds that one's digest.
        """
        with self._writing():
            if (event.sequence - 1, event.previous) != self.last(event.setup):
                raise trouble.overtaken(event.setup)
            values = (event.setup, event.sequence, event.body(), event.digest)
            self._base.execute("INSERT INTO event VALUES (?, ?, ?, ?)", values)

    def last(self, setup: str) -> tuple[int, str]:
        """The number and the digest of the setup's last event; 0 and `GENESIS` where none is."""
        with _plainly(self.path):
            row = self._base.execute(schema.LAST, (setup_id(setup),)).fetchone()
        return row or (0, GENESIS)

    def events(self, setup: str) -> tuple[Event, ...]:
        """The setup's events in order, none where there is no such setup; see `stream`."""
        return tuple(self.stream(setup))

    def stream(self, setup: str) -> Iterator[Event]:
        """The setup's events one by one; CheckFailed at one whose text is not that of an event.

        Digests are not compared here: `verify.findings` does that.
        """
        query = "SELECT sequence, body FROM event WHERE setup = ? ORDER BY sequence"
        for sequence, body in self._rows(query, setup_id(setup)):
            yield _event(setup, sequence, body)

    def rows(self, setup: str) -> Iterator[Row]:
        """The setup's rows as they are stored, in the order in which they are stored."""
        return (Row(*columns) for columns in self._rows(schema.ROWS, setup))

    def seals(self, setup: str) -> dict[int, str]:
        """The digest of each of the setup's events, as noted apart when it was written."""
        return dict(self._rows("SELECT sequence, digest FROM seal WHERE setup = ?", setup))

    def names(self) -> tuple[str, ...]:
        """Every setup of which there is an event or a seal, in the order of their ids."""
        rows = self._rows("SELECT setup FROM event UNION SELECT setup FROM seal")
        return tuple(name for (name,) in rows)

    def setups(self) -> tuple[Summary, ...]:
        """A summary of each setup, the one gone on with last first, reading two events of each."""
        return tuple(summary(*columns) for columns in self._rows(schema.ENDS))

    def keep_text(self, text: str) -> str:
        """Keep a procedure's text, durably and once, and give the digest it is found by."""
        name = digest(text)
        with self._writing():
            self._base.execute(schema.KEEP, (name, text))
        return name

    def text(self, name: str) -> str:
        """The text kept by that digest; CheckFailed where it is missing or was changed."""
        for (text,) in self._rows("SELECT body FROM text WHERE digest = ?", name):
            if digest(text) == name:
                return str(text)
        raise trouble.lost_text(name)

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every procedure text behind the digest it is kept by."""
        rows = self._rows("SELECT digest, body FROM text ORDER BY rowid")
        return ((name, body) for name, body in rows)

    def damage(self) -> tuple[str, ...]:
        """What SQLite's own check of the file complains of, at most ten lines; none is sound."""
        lines = (line for (line,) in self._rows("PRAGMA integrity_check(10)"))
        return tuple(line for line in lines if line != "ok")

    def hold(self, setup: str, at: str) -> Hold:
        """Keep every other process off the setup until released; NotAllowed where one has it.

        `at` is the time now, which the others are told.
        """
        return Hold(self.path.parent / "locks" / f"setup-{setup_id(setup)}.lock", setup, at)

    def _rows(self, query: str, *values: object) -> Iterator[tuple[Any, ...]]:
        with _plainly(self.path):
            yield from self._base.execute(query, values)

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """One transaction: all of it is on the disk afterwards, or nothing."""
        with _plainly(self.path), _transaction(self._base):
            yield

    def _writable(self, stack: ExitStack) -> sqlite3.Connection:
        opening.make_folder(self.path)
        base = self._connected(self.path.absolute().as_uri(), stack)
        is_journal = opening.is_journal(_marks(base), self.path)
        _log_ahead(base, self._patience)
        if not is_journal:
            self._made(base)
        return base

    def _made(self, base: sqlite3.Connection) -> None:
        with _transaction(base):
            if not opening.is_journal(_marks(base), self.path):
                for statement in schema.statements():
                    base.execute(statement)

    def _read_only(self, stack: ExitStack) -> sqlite3.Connection:
        base = self._connected(opening.address(self.path, stack), stack)
        if not opening.is_journal(_marks(base), self.path):
            raise trouble.absent(self.path)
        return base

    def _connected(self, address: str, stack: ExitStack) -> sqlite3.Connection:
        base = sqlite3.connect(address, self._patience, isolation_level=None, uri=True)
        stack.callback(base.close)
        base.text_factory = lambda raw: raw.decode("utf-8", "replace")
        return base


def _event(setup: str, sequence: int, body: str) -> Event:
    try:
        return parse(body)
    except BadInput:
        raise trouble.unreadable(setup, sequence) from None


def _marks(base: sqlite3.Connection) -> tuple[int, int, int]:
    application, version, things = base.execute(schema.MARKS).fetchone()
    return application, version, things


def _log_ahead(base: sqlite3.Connection, patience: float) -> None:
    """Write ahead to a log, and have each commit on the disk before it is called done.

    SQLite waits for no one when it changes a file to this mode, as several programs may want to do
    at once with a new file: so the waiting is done here.
    """
    for pragma in ("synchronous = FULL", "fullfsync = ON"):
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
    """Whatever the file or the disk does, said in plain words; a misuse of this class is not."""
    try:
        yield
    except sqlite3.ProgrammingError:
        raise
    except sqlite3.DatabaseError as error:
        raise trouble.database(getattr(error, "sqlite_errorname", ""), path) from error
