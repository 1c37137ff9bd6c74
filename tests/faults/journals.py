"""Journals to do harm to, made by the program itself, and what has to be true of one afterwards."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from functools import cache
from importlib.util import module_from_spec, spec_from_file_location
from itertools import count, islice
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

from guide.journal import keys, schema
from guide.journal.canonical import digest
from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.people.people import People
from guide.plain import Refusal
from guide.procedure.load import load
from guide.procedure.shelf import find
from guide.records.evidence import faults
from guide.rehearse import read_answers, rehearse
from guide.walk.setup import open_setup, resume_setup

ANSWERS = Path(__file__).parents[1] / "answers"
RECORDS = Path(__file__).parents[1] / "records"
SETUP = "walked"
AFTERWARDS = "2031-01-01T00:00:00.000Z"
FILE = "journal.sqlite3"


class Walk(NamedTuple):
    """A whole rehearsal: the procedure's text and every event of it, in order."""

    text: str
    events: tuple[Event, ...]


WALKED = ("adjustable-chuck-inch", "chuck-recheck-inch", "quick-centring-inch")
"""The answers files that are walked here."""


@cache
def walk(answers: str) -> Walk:
    """Walk an answers file to its end in a journal of its own, once."""
    with tempfile.TemporaryDirectory() as folder:
        return written(Path(folder), answers)


def written(folder: Path, answers: str) -> Walk:
    """The same in a folder, where the journal stays."""
    told = read_answers(ANSWERS / f"{answers}.yaml")
    procedure = find(told.procedure)
    with Store(folder / FILE) as store:
        rehearse(procedure, told, store, SETUP)
        return Walk(procedure.text, store.events(SETUP))


def wrong(
    file: Path, events: Sequence[Event], least: int, most: int, deeply: bool = True
) -> list[str]:
    """What is wrong with a journal to which the first `least` of these events were acknowledged,
    and in which no more than the first `most` of them can be.

    Nothing is where those are there byte for byte, in any case whole; where nothing can be held
    against the journal; and where it can be gone on with. `deeply` walks the setup again, works out
    every figure and resumes it; else the chains are checked and the next event is written.
    """
    try:
        with Store(file) as store:
            return list(_wrong(store, events, least, most, deeply))
    except Refusal as refusal:
        return [f"refused: {refusal}"]


def _wrong(
    store: Store, events: Sequence[Event], least: int, most: int, deeply: bool
) -> Iterator[str]:
    stored = [(row.sequence, row.body, row.digest) for row in store.rows(SETUP)]
    there = events[: len(stored)]
    if stored != [(each.sequence, each.body(), each.digest) for each in there]:
        yield "an event is not the one that was written"
    if not least <= len(stored) <= most:
        yield f"{len(stored)} events are left of {least} that were acknowledged"
    if there and not store.is_listed(there[0], there[-1]):
        yield "the list of setups does not say so"
    yield from map(str, findings(store))
    yield from _gone_on(store, events, len(stored), deeply)


def _gone_on(store: Store, events: Sequence[Event], count: int, deeply: bool) -> Iterator[str]:
    """What stands in the way of going on from there, which adds one event."""
    if not deeply:
        for event in events[count : count + 1]:
            store.append(event)
        return
    yield from (f"verify: {fault.says}" for fault in faults(store))
    if count and "ends" not in events[count - 1].data:
        again = resume_setup(store, SETUP, person=events[count - 1].person, at=AFTERWARDS)
        if (store.last(SETUP)[0], again.state.sequence) != (count + 1, count + 1):
            yield "the resumption was not written"


FIRST_VERSION = (
    """CREATE TABLE event (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, body TEXT NOT NULL, digest TEXT NOT NULL,
    UNIQUE (setup, sequence))""",
    "CREATE TABLE text (digest TEXT PRIMARY KEY NOT NULL, body TEXT NOT NULL)",
    """CREATE TABLE seal (
    setup TEXT NOT NULL, sequence INTEGER NOT NULL, digest TEXT NOT NULL,
    PRIMARY KEY (setup, sequence)) WITHOUT ROWID""",
    """CREATE TRIGGER event_sealed AFTER INSERT ON event BEGIN
    INSERT INTO seal SELECT NEW.setup, NEW.sequence, NEW.digest; END""",
    f"PRAGMA application_id = {schema.APPLICATION}",
    "PRAGMA user_version = 1",
    "PRAGMA journal_mode = WAL",
)
"""What version 1 of the journal made."""


def of_first_version(file: Path, walked: Walk) -> None:
    """A journal as version 1 wrote it."""
    with closing(sqlite3.connect(file, isolation_level=None)) as base:
        for statement in FIRST_VERSION:
            base.execute(statement)
        base.execute("INSERT INTO text SELECT ?, ?", (digest(walked.text), walked.text))
        for each in walked.events:
            row = (each.setup, each.sequence, each.body(), each.digest)
            base.execute("INSERT INTO event VALUES (?, ?, ?, ?)", row)


A, B = "A. Sample", "B. Sample"
PINS = {A: "four tin horses", B: "nine wet boots"}
LATHE = "Lathe 2 (invented)"


def signed(folder: Path) -> None:
    """A journal of a shop in which everybody signs (invented), left open as a killed process does.

    A setup that ended, signed by two people, one that is open, and a rehearsal.
    """
    paper, script = load(RECORDS / "paper.yaml"), _loaded(RECORDS / "conftest.py").script
    store, minute = Store(folder / FILE), count()
    keys.COST = 2**4

    def at() -> str:
        number = next(minute)
        return f"2031-03-02T{8 + number // 60:02}:{number % 60:02}:05.000Z"

    people = People(store)
    first = people.first(A, PINS[A], at())
    people.add(first, B, "machinist", PINS[B], at())
    hands = {name: people.sign_on(name, pin, at()) for name, pin in PINS.items()}
    for setup, events in (("whole", 99), ("still-open", 9), ("tried", 6)):
        tried = setup == "tried"
        opening: dict[str, Any] = {"hand": hands[A]}
        if tried:
            opening = {"mode": "rehearsal", "typed_at": "file"}
        lathe = f"{LATHE} {setup}" if setup == "still-open" else LATHE
        made = open_setup(store, paper, setup=setup, person=A, at=at(), lathe=lathe, **opening)
        made.hands |= {} if tried else hands
        person = A
        for trigger, data, now in islice(script(made, B, "dinner break", {}), events):
            person = now or person
            made.act(trigger, data, person=person, at=at())
    KEPT.append(store)


KEPT: list[Store] = []
"""Stores that are left open: closing would bring their log into the file."""


def _loaded(file: Path) -> ModuleType:
    """A module of another room's tests, which are no package."""
    spec = spec_from_file_location(f"faults_{file.parent.name}_{file.stem}", file)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
