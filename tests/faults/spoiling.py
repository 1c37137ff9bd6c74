"""Spoils journals, one bit, sector or end at a time, and looks whether anybody would be misled.

    python tests/faults/spoiling.py [--harms N] [--seed N] [--keep FOLDER --every N]

Three journals are spoilt: one that was closed, one that a killed process left with everything in
its log, and one whose log was half brought in. Each harm must be found (verify names something, or
the file is refused in a sentence), or be harmless (everything reads as before, byte for byte), or
have cut off the end of a log: then what is left is the beginning of what was written, in its order,
and the head that was kept elsewhere (`verify --head`) tells of it. Nothing else may happen, and no
exception but a Refusal.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sqlite3
import sys
import tempfile
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from itertools import count, cycle
from pathlib import Path
from typing import Any, NamedTuple

import journals
import layout
import warm
from journals import FILE

from guide.journal.event import Event
from guide.journal.finding import Row
from guide.journal.store import Store
from guide.plain import Refusal
from guide.records.evidence import faults, head_faults
from guide.records.of_setup import record_of
from guide.records.to_jsonl import to_jsonl
from guide.walk.setup import replayed

LOG, INDEX = f"{FILE}-wal", f"{FILE}-shm"
SECTOR = 512
FOUND, REFUSED, HARMLESS, CUT = "found", "refused", "harmless", "cut end"
LATER, WRONG = "refused after verify found nothing", "WRONG"


class Sound(NamedTuple):
    """A journal before it is spoilt."""

    name: str
    folder: Path
    spans: dict[tuple[str, str], list[range]]
    """By file and part, the bytes that belong to it."""
    reads: dict[str, Any]
    """Everything that can be read of it."""
    records: dict[str, str]
    head: str


class Harm(NamedTuple):
    """One thing that happens to one file."""

    file: str
    part: str
    at: int
    kind: str
    """`bit 0` to `bit 7`: it is turned; `zeros`: its sector holds them; `cut`: it ends there."""

    def __str__(self) -> str:
        """What it is, so that it can be done again."""
        return f"{self.file}, {self.part}: {self.kind} at byte {self.at}"

    def do(self, folder: Path) -> None:
        """Spoil the file."""
        path = folder / self.file
        data = bytearray(path.read_bytes())
        if self.kind == "cut":
            del data[self.at :]
        elif self.kind == "zeros":
            sector = self.at - self.at % SECTOR
            data[sector : sector + SECTOR] = bytes(len(data[sector : sector + SECTOR]))
        else:
            data[self.at] ^= 1 << int(self.kind[-1])
        path.write_bytes(data)


def closed(folder: Path) -> None:
    """A journal that was closed, with free pages in it as a table that was dropped leaves them."""
    journals.signed(folder)
    journals.KEPT.pop().close()
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as base:
        base.execute("CREATE TABLE room (body TEXT)")
        base.executemany("INSERT INTO room VALUES (?)", [("x" * 3000,)] * 8)
        base.execute("DROP TABLE room")


def killed(folder: Path) -> None:
    """A journal of which a killed process left everything in the log."""
    _copied_open(folder, lambda store: None)


def half_brought_in(folder: Path) -> None:
    """A log of which the first part is in the file already, and kept because somebody reads it."""

    def half(store: Store) -> None:
        with closing(sqlite3.connect(store.path, isolation_level=None)) as reader:
            reader.execute("BEGIN")
            reader.execute("SELECT count(*) FROM event").fetchone()
            store._base.execute("PRAGMA wal_checkpoint(PASSIVE)")
            walk = replayed(store, "tried")
            walk.act("pause", {"why": "noon"}, person=journals.A, at=journals.AFTERWARDS)

    _copied_open(folder, half, INDEX)


def _copied_open(folder: Path, more: Callable[[Store], None], *besides: str) -> None:
    """A signed journal copied while a process still has it open."""
    with tempfile.TemporaryDirectory() as place:
        journals.signed(Path(place))
        store = journals.KEPT.pop()
        more(store)
        for name in (FILE, LOG, *besides):
            shutil.copy(Path(place, name), folder)
        store.close()


JOURNALS = {"closed": closed, "killed": killed, "half brought in": half_brought_in}


def sound(name: str, folder: Path, parts: list[str]) -> Sound:
    """One of the journals, made and read, of which only some parts are to be spoilt, or all."""
    folder.mkdir()
    JOURNALS[name](folder)
    spans = {}
    if name == "closed":
        spans = {(FILE, part): each for part, each in layout.of_database(folder / FILE).items()}
    else:
        spans = {(LOG, part): each for part, each in layout.of_log(folder / LOG).items()}
        for each in (folder / FILE, folder / INDEX):
            if each.exists():
                spans[each.name, f"{each.name}, anywhere"] = [range(each.stat().st_size)]
    spans = {each: spans[each] for each in spans if not parts or each[1] in parts}
    with Store.read(folder / FILE) as store:
        assert not list(faults(store)), name
        head = store.head()
        assert head is not None
        records = {each: _record(store, each) for each in store.names()}
        return Sound(name, folder, spans, everything(store), records, head.head)


def everything(store: Store) -> dict[str, Any]:
    """Whatever the program reads of a journal, but for the records."""
    return {
        "links": list(store.links()),
        "rows": {name: list(store.rows(name)) for name in store.chains()},
        "texts": list(store.texts()),
        "seals": list(store.seals()),
        "setups": store.setups(),
        "open": store.open_setups(),
        "ended": store.ended_setups(),
        "outcomes": (list(store.outcomes()), store.latest_outcomes()),
    }


def _record(store: Store, name: str) -> str:
    """The record of a setup as the record file has it, or the sentence that refuses it."""
    try:
        return to_jsonl(record_of(replayed(store, name), store, "en"), store.rows(name))
    except Refusal as refusal:
        return str(refusal)


def harms(of: Sound, many: int, chance: random.Random) -> Iterator[Harm]:
    """So many, each part in turn; one in six ends a file, one in twelve takes a sector."""
    parts = [(*each, spans) for each, spans in of.spans.items() if spans]
    sizes = {file: (of.folder / file).stat().st_size for file, _, _ in parts}
    cuts, turns = _cuts(sizes, chance), cycle(parts)
    for number in range(many):
        if number % 6 == 5:
            yield next(cuts)
        else:
            file, part, spans = next(turns)
            kind = "zeros" if number % 12 == 3 else f"bit {chance.randrange(8)}"
            yield Harm(file, part, _used(of, file, chance.choice(spans), chance), kind)


def _used(of: Sound, file: str, span: range, chance: random.Random) -> int:
    """A byte of a span, three times in four one that holds something."""
    data = (of.folder / file).read_bytes()
    used = [at for at in span if data[at]] if chance.random() < 0.75 else []
    return chance.choice(used or span)


def _cuts(sizes: dict[str, int], chance: random.Random) -> Iterator[Harm]:
    """Each file in turn: nothing is left of it, then any length, then whole pages."""
    for number in count():
        for file, size in sizes.items():
            lengths = (chance.randrange(size), chance.randrange(size // 4096 + 1) * 4096)
            yield Harm(file, "length", lengths[number % 2] if number else 0, "cut")


def spoilt(of: Sound, harm: Harm, kept: Path | None, turn: int) -> tuple[str, str]:
    """Do one harm to a copy; what came of it, and what was said."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(shutil.copytree(of.folder, Path(place, "journal")))
        harm.do(folder)
        if kept:
            shutil.copytree(folder, kept)
        UNSEEN.clear()
        try:
            told = read(of, folder, turn)
            written(folder)
        except Exception:
            return WRONG, traceback.format_exc()
        return (WRONG, UNSEEN[0]) if UNSEEN else told


UNSEEN: list[str] = []
"""What Python prints of an exception that nobody can catch any more: a person would see it."""


def _unseen(told: sys.UnraisableHookArgs) -> None:
    UNSEEN.append(f"printed: {told.exc_value!r} in {told.object!r}")


def read(of: Sound, folder: Path, turn: int) -> tuple[str, str]:
    """Everything that is only read, in the order verify, lists, one record, another each turn.

    Where every row reads as before a record is made of the same rows: there one in four is.
    """
    found, refused = "", REFUSED
    try:
        with Store.read(folder / FILE) as store:
            found = next((each.says for each in faults(store)), "")
            refused = FOUND if found else LATER
            hidden = {each.setup for each in of.reads["open"]} - {
                each.setup for each in store.open_setups()
            }
            if hidden:
                return WRONG, f"{hidden} is open and not in the list of what is open"
            reads = everything(store)
            wanted = store.names()[turn % 3 :][:1] if reads != of.reads or turn % 4 == 0 else ()
            told = {name: _record(store, name) for name in wanted}
            if found:
                return FOUND, found
            if reads == of.reads and told.items() <= of.records.items():
                return HARMLESS, ""
            lost = next(head_faults(store, of.head, "en", False), None)
            if lost and _is_beginning(reads, of.reads):
                return CUT, lost.says
            return WRONG, "nothing is found, and something reads otherwise"
    except Refusal as refusal:
        return refused, found or str(refusal)


def _is_beginning(now: dict[str, Any], then: dict[str, Any]) -> bool:
    """Whether what is left is what was written first, every event of it byte for byte."""
    left = len(now["links"])
    first = {(each.setup, each.sequence) for each in then["links"][:left]}
    rows, there = _by_place(then), _by_place(now)
    return (
        now["links"] == then["links"][:left]
        and there == {place: rows[place] for place in first}
        and now["texts"] == then["texts"][: len(now["texts"])]
    )


def _by_place(reads: dict[str, Any]) -> dict[tuple[str, int], Row]:
    """Every row by its setup and number."""
    return {(row.setup, row.sequence): row for rows in reads["rows"].values() for row in rows}


def written(folder: Path) -> None:
    """Opened to be gone on with, a text and an event added: done, or refused in a sentence."""
    try:
        with Store(folder / FILE) as store:
            store.keep_text("more")
            number, previous = store.last("still-open")
            at = journals.AFTERWARDS
            store.append(Event("still-open", number + 1, at, "A", "", "pause", {}, previous))
    except Refusal as refusal:
        if not refusal.remedy or "\n" in str(refusal):
            raise AssertionError(str(refusal)) from refusal


def report(told: argparse.Namespace) -> dict[str, object]:
    """So many harms to each journal, and what came of them."""
    sys.unraisablehook = _unseen
    outcomes, parts, examples, wrong = Counter[str](), Counter[str](), dict[str, str](), list[str]()
    kept, chance = list[dict[str, str]](), random.Random(told.seed)
    with tempfile.TemporaryDirectory() as place:
        for name in told.journals:
            of = sound(name, Path(place, name), told.parts)
            for number, harm in enumerate(harms(of, told.harms, chance)):
                keep = bool(told.keep) and number % told.every == 0
                copy = Path(told.keep, f"{name}-{number}".replace(" ", "-")) if keep else None
                outcome, says = spoilt(of, harm, copy, number)
                outcomes[f"{name}: {outcome}"] += 1
                parts[f"{harm.part}: {outcome}"] += 1
                examples.setdefault(f"{harm.part}: {outcome}", f"{harm}: {says[:300]}")
                if outcome in (LATER, WRONG):
                    wrong.append(f"{name}, {harm}: {says}")
                if copy:
                    kept.append({"folder": str(copy), "outcome": outcome, "head": of.head})
    return {
        "seed": told.seed, "harms": outcomes.total(), "outcomes": outcomes, "parts": parts,
        "wrong": wrong, "kept": kept, "examples": examples if told.examples else {},
    }  # fmt: skip


def main(arguments: list[str]) -> None:
    """Print what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--harms", type=int, default=180, help="to each of the journals")
    parser.add_argument("--journals", nargs="+", default=list(JOURNALS), choices=JOURNALS)
    parser.add_argument("--parts", nargs="*", default=[], help="only these, such as schema")
    parser.add_argument("--seed", type=int, default=20310302)
    parser.add_argument("--keep", default="", help="a folder for copies of spoilt journals")
    parser.add_argument("--every", type=int, default=20, help="keep one of so many")
    parser.add_argument("--examples", action="store_true")
    print(json.dumps(report(parser.parse_args(arguments))))


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
