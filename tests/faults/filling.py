"""Walks in a journal for which there is no room, makes room, and lets the walk go on.

    python tests/faults/filling.py WAY [--levels N]

`disk` is a file system of its own in memory, mounted where no other process sees it, and full to
the last page but a few: a real ENOSPC. Where none may be mounted, and for `size`, a limit on the
size of files lets a write fail at any byte; for `pages` SQLite is given so many pages and no more.
"""

from __future__ import annotations

import argparse
import ctypes
import json
import os
import resource
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import NamedTuple

import warm
from journals import ANSWERS, FILE, SETUP

from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import Refusal
from guide.procedure.shelf import find
from guide.records.evidence import faults
from guide.rehearse import Answers, give, read_answers, rehearse
from guide.walk.setup import open_setup, replayed

PAGE = 4096
ROOM = 512
"""Pages of the file system."""
ROOMS = 12
"""How many different rooms there are: with more of them the rest of a walk would fit in."""
MOST = 100_000
"""Pages that SQLite may have again."""
NEW_NAMESPACE, NEW_USERS, PRIVATE_ALL = 0x20000, 0x10000000, 0x44000
"""Flags of unshare(2) and mount(2)."""
DETACH = 2
"""Flag of umount2(2): gone from its place at once."""


class Full(NamedTuple):
    """A way in which there is no more room."""

    name: str
    folder: Path
    fill: Callable[[int, Store | None], None]
    """Leave so much room; what a unit of it is depends on the way."""
    free: Callable[[Store | None], None]
    """Make room again."""
    unit: float
    """How much more room each level has than the one before."""


def small_disk(folder: Path) -> Full | None:
    """A file system of its own, None where this machine does not let us mount one."""
    system = ctypes.CDLL(None, use_errno=True)
    users = 0 if os.geteuid() == 0 else NEW_USERS
    maps = {"uid_map": f"0 {os.geteuid()} 1", "setgroups": "deny", "gid_map": f"0 {os.getegid()} 1"}
    if system.unshare(NEW_NAMESPACE | users):
        return None
    for name, mine in maps.items() if users else ():
        Path("/proc/self", name).write_text(mine)
    system.mount(b"none", b"/", None, PRIVATE_ALL, None)
    options = f"size={ROOM * PAGE}".encode()
    if system.mount(b"none", os.fsencode(folder), b"tmpfs", 0, options):
        return None
    ballast = folder / "ballast"

    def fill(pages: int, _: Store | None) -> None:
        told = os.statvfs(folder)
        taken = max(0, told.f_bavail * told.f_bsize // PAGE - pages)
        with open(ballast, "wb", buffering=0) as file, suppress(OSError):
            for _ in range(taken):
                file.write(bytes(PAGE))

    def free(_: Store | None) -> None:
        ballast.unlink(missing_ok=True)

    return Full("disk", folder, fill, free, 0.75)


def file_limit(folder: Path) -> Full:
    """A limit on the size of any file, past the largest that is there."""

    def fill(room: int, _: Store | None) -> None:
        there = max(
            (each.stat().st_size for each in folder.rglob("*") if each.is_file()), default=0
        )
        resource.setrlimit(resource.RLIMIT_FSIZE, (there + room, resource.RLIM_INFINITY))

    def free(_: Store | None) -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY,) * 2)

    return Full("size", folder, fill, free, 709)


def page_limit(folder: Path) -> Full:
    """A limit on the pages of the database, past those that it has."""

    def fill(pages: int, store: Store | None) -> None:
        if store:
            ((there,),) = store._base.execute("PRAGMA page_count").fetchall()
            store._base.execute(f"PRAGMA max_page_count = {there + pages}")

    def free(store: Store | None) -> None:
        if store:
            store._base.execute(f"PRAGMA max_page_count = {MOST}")

    return Full("pages", folder, fill, free, 0.1)


class Walk(NamedTuple):
    """A rehearsal that came to its end with nothing in its way, and the journal at each event."""

    answers: Answers
    bodies: tuple[str, ...]
    text: str


def whole(folder: Path, name: str) -> Walk:
    """The rehearsal as it has to be in the end, whatever came between."""
    answers = read_answers(ANSWERS / f"{name}.yaml")
    procedure = find(answers.procedure)
    with Store(folder / FILE) as store:
        rehearse(procedure, answers, store, SETUP)
        return Walk(answers, _bodies(store), procedure.text)


def _bodies(store: Store) -> tuple[str, ...]:
    return tuple(row.body for row in store.rows(SETUP))


class Trial:
    """One level: walked until there is no room, looked at, given room, walked to its end."""

    def __init__(self, walk: Walk, full: Full, stood: int, closes: bool) -> None:
        self.walk, self.full, self.stood, self.closes = walk, full, stood, closes
        self.refused: list[str] = []
        self.wrong: list[str] = []
        self.done = 0
        """Events that were acknowledged."""

    @property
    def file(self) -> Path:
        """The journal."""
        return self.full.folder / "home" / FILE

    def run(self, room: int, before: bool) -> None:
        """Fill up, `before` the journal is opened or after, and walk.

        A trial that `closes` is left at the refusal, with no room still, and gone on with later.
        """
        with self._room():
            if self.stood:
                self._written(self.stood)
            if before:
                self.full.fill(room, None)
            with self._opened() as store:
                self.full.fill(room, store)
                self._walked(store)
            if self.done < len(self.walk.bodies):
                self._read()
                self.full.free(None)
                with Store(self.file) as store:
                    self._walked(store)
            self._ended()

    @contextmanager
    def _room(self) -> Iterator[None]:
        self.full.free(None)
        shutil.rmtree(self.file.parent, ignore_errors=True)
        try:
            yield
        finally:
            self.full.free(None)

    def _written(self, count: int) -> None:
        """The walk up to some event, by a process that has ended since."""
        with Store(self.file) as store:
            self._open_setup(store)
            walk = replayed(store, SETUP)
            for number, answer in enumerate(self.walk.answers.answers[: count - 1], start=1):
                give(walk, answer, self.walk.answers.at(number))
        self.done = count

    def _open_setup(self, store: Store) -> None:
        answers = self.walk.answers
        open_setup(
            store, find(answers.procedure), setup=SETUP, person=answers.person, at=answers.at(0),
            lathe=answers.lathe, mode="rehearsal", typed_at="file",
        )  # fmt: skip

    def _opened(self) -> Store:
        """The journal, which needs a little room to be opened or made."""
        try:
            return Store(self.file)
        except Refusal as refusal:
            self._told(refusal)
        self._read()
        self.full.free(None)
        return Store(self.file)

    def _walked(self, store: Store) -> None:
        """Every answer from here on; one that is refused is given again when there is room."""
        if self.done == 0 and not self._done(store, lambda: self._open_setup(store)):
            return
        walk, answers = replayed(store, SETUP), self.walk.answers
        for number in range(self.done, len(answers.answers) + 1):
            what = partial(give, walk, answers.answers[number - 1], answers.at(number))
            if not self._done(store, what):
                return

    def _done(self, store: Store, what: Callable[[], object]) -> bool:
        """Whether it was written, at the latest with more room."""
        try:
            what()
        except Refusal as refusal:
            self._told(refusal)
            self._stands(store)
            self._read()
            if self.closes:
                return False
            self.full.free(store)
            what()
        self.done += 1
        return True

    def _told(self, refusal: Refusal) -> None:
        """One sentence and a remedy, both with nothing left to fill in."""
        self.refused.append(refusal.sentence)
        said = str(refusal)
        if not refusal.remedy or "\n" in said or "{" in said or str(self.file) not in said:
            self.wrong.append(f"said: {said}")

    def _stands(self, store: Store) -> None:
        """What was acknowledged is there, and nothing else."""
        if _bodies(store) != self.walk.bodies[: self.done]:
            self.wrong.append(f"{len(_bodies(store))} events of {self.done} acknowledged")
        self.wrong += map(str, findings(store))

    def _read(self) -> None:
        """Somebody who only reads is not kept from it by a full disk."""
        if self.done:
            with Store.read(self.file) as reader:
                self._stands(reader)

    def _ended(self) -> None:
        """In the end the journal is as if there had been room all the time."""
        with Store.read(self.file) as reader:
            if _bodies(reader) != self.walk.bodies:
                self.wrong.append("the walk did not end as it does where there is room")
            self.wrong += (each.says for each in faults(reader))


def trials(way: str, levels: int, folder: Path, walk: Walk) -> Iterator[Trial]:
    """Every level, each beginning earlier in the walk; every fourth in a new journal."""
    full = {"disk": small_disk, "size": file_limit, "pages": page_limit}[way](folder)
    full = full or file_limit(folder)
    for level in range(levels):
        late = (levels - level) * (len(walk.bodies) - 2) // levels
        stood = 0 if level % 4 == 3 else max(1, late)
        trial = Trial(walk, full, stood, closes=level % 3 == 1)
        trial.run(int(level % ROOMS * full.unit), before=level % 2 == 1)
        trial.wrong = [f"level {level}, event {stood}: {each}" for each in trial.wrong]
        yield trial


def main(arguments: list[str]) -> None:
    """Print what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("way", choices=["disk", "size", "pages"])
    parser.add_argument("--levels", type=int, default=36)
    parser.add_argument("--answers", default="chuck-recheck-inch")
    told = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as place:
        for name in ("walked", "full"):
            Path(place, name).mkdir()
        walk = whole(Path(place, "walked"), told.answers)
        try:
            done = list(trials(told.way, told.levels, Path(place, "full"), walk))
        finally:
            ctypes.CDLL(None).umount2(os.fsencode(Path(place, "full")), DETACH)
        print(json.dumps(reported(done, told.levels)))


def reported(done: list[Trial], levels: int) -> dict[str, object]:
    """What the trials found, together."""
    return {
        "way": done[0].full.name,
        "levels": levels,
        "whole": len(done[0].walk.bodies),
        "levels_refused": sum(bool(each.refused) for each in done),
        "refusals": sum(len(each.refused) for each in done),
        "events": sum(each.done for each in done),
        "sentences": Counter(sentence for each in done for sentence in each.refused),
        "wrong": [line for each in done for line in each.wrong],
    }


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
