"""Kills a process of its own before each of its calls that change a file, and looks what is left.

    python tests/faults/killing.py SCENE [--points N] [--way ptrace|RLIMIT_FSIZE] [--careless]

prints what it found as one line of JSON. Where a process cannot be watched (`tracing`), a limit on
the size of files kills it with SIGXFSZ in the midst of a write, at any byte of it. Both are real.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import shutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from mmap import mmap
from pathlib import Path
from typing import NamedTuple

import journals
import warm
from journals import FILE, Walk
from tracing import Watched, can_watch

from guide.journal.event import Event
from guide.journal.store import Store

WATCHED, LIMITED = "ptrace", "RLIMIT_FSIZE"
GOLDEN = 0.6180339887
"""Multiples of it, whole parts dropped, fill 0 to 1 evenly however many are taken."""


class Told:
    """What a process has said to be written, in memory that survives it; no call is made for it."""

    def __init__(self) -> None:
        self._shared = mmap(-1, 8)

    @property
    def count(self) -> int:
        """How many events."""
        return int.from_bytes(self._shared[:8], "little")

    @count.setter
    def count(self, number: int) -> None:
        self._shared[:8] = number.to_bytes(8, "little")


class Scene(NamedTuple):
    """Something that is done to a journal, during which the process is killed."""

    before: Path
    """The folder as it is then, copied for each kill."""
    events: tuple[Event, ...]
    """The whole walk."""
    stood: int
    """How many of its events are in the journal before."""
    most: int
    """How many of its events are in the journal when all is done."""
    work: Callable[[Path, Told], Store]
    """What is done with the journal file of a copy; the store stays open."""


class Found(NamedTuple):
    """What one kill left."""

    killed: bool
    """False where the process came to its end first."""
    at: str
    """Before which call, or in which write."""
    wrong: list[str]


def killed(scene: Scene, point: int, way: str, deeply: bool) -> Found:
    """Kill a copy of the scene at one point: before that call, counted from 1, or at that byte."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(shutil.copytree(scene.before, Path(place, "journal")))
        told = Told()
        told.count = scene.stood
        at = kill(lambda: scene.work(folder / FILE, told), point, way)
        lost = journals.wrong(folder / FILE, scene.events, told.count, scene.most, deeply)
        return Found(bool(at), at, [f"{at} {point}: {each}" for each in lost])


def kill(work: Callable[[], object], point: int, way: str) -> str:
    """Kill some work at a point; gives where it was killed, blank where it ended first."""
    return (_before_a_call if way == WATCHED else _at_a_byte)(work, point)


def extent(scene: Scene, way: str) -> range:
    """The points of a scene: its calls, or every 64th byte of the file that grows most."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(shutil.copytree(scene.before, Path(place, "journal")))
        if way == WATCHED:
            with Watched(lambda: scene.work(folder / FILE, Told())) as child:
                return range(1, 1 + sum(1 for _ in child.calls()))
        before = _largest(folder)
        _at_a_byte(lambda: scene.work(folder / FILE, Told()), 1 << 30)
        after = _largest(folder)
        return range(before if before < after else 0, after, 64)


def _largest(folder: Path) -> int:
    return max((file.stat().st_size for file in folder.iterdir()), default=0)


def _before_a_call(work: Callable[[], object], point: int) -> str:
    """Kill it before its call of that number; gives the call, blank where it ended first."""
    with Watched(work) as child:
        for number, call in enumerate(child.calls(), start=1):
            if number == point:
                child.kill()
                return call.name
    assert child.exit_code == 0, child.exit_code
    return ""


def _at_a_byte(work: Callable[[], object], point: int) -> str:
    """Let it write no file past that byte: what the signal cuts short is half written."""
    pid = os.fork()
    if pid == 0:
        _limited(work, point)
    _, status = os.waitpid(pid, 0)
    if os.WIFSIGNALED(status):
        assert os.WTERMSIG(status) == signal.SIGXFSZ, status
        return "byte"
    assert status == 0, status
    return ""


def _limited(work: Callable[[], object], point: int) -> None:
    """The fork: killed by a write past the limit, else gone when its work is done."""
    code = 1
    try:
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_FSIZE, (point, point))
        _kept = work()
        code = 0
    finally:
        os._exit(code)


def spread(points: range, number: int, of: int) -> list[int]:
    """So many of the points, evenly over all of them, elsewhere for each `number`; 0 for all."""
    if not of or of >= len(points):
        return list(points)
    places = (((number * GOLDEN) + each / of) % 1 for each in range(of))
    return sorted({points[int(place * len(points))] for place in places})


def appending(folder: Path, walked: Walk, careless: bool = False) -> Iterator[Scene]:
    """Each event of a rehearsal in turn, by a process that opens the journal and appends it."""
    with Store(folder / FILE) as store:
        store.keep_text(walked.text)
        write = carelessly if careless else Store.append
        for number, event in enumerate(walked.events):

            def work(file: Path, told: Told, event: Event = event) -> Store:
                opened = Store(file)
                write(opened, event)
                told.count += 1
                return opened

            yield Scene(folder, walked.events, number, number + 1, work)
            store.append(event)


def carelessly(store: Store, event: Event) -> None:
    """As no journal may be written: the event and what is noted of it one after the other."""
    row = (event.setup, event.sequence, event.body(), event.digest, "")
    store._base.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", row)
    with store._writing():
        store._link(event.setup, event.sequence, event.digest, "")


def making(folder: Path, walked: Walk) -> Iterator[Scene]:
    """A new journal, its folder, its procedure text and its first two events."""

    def work(file: Path, told: Told) -> Store:
        store = Store(file)
        store.keep_text(walked.text)
        for event in walked.events[:2]:
            store.append(event)
            told.count += 1
        return store

    yield Scene(folder, walked.events, 0, 2, work)


def checkpointing(folder: Path, walked: Walk) -> Iterator[Scene]:
    """A whole walk whose log is brought into the file again and again, and written from its start
    again after that; and a log that is brought in whole between two events."""
    _written(folder, walked, 3)

    def often(file: Path, told: Told) -> Store:
        store = Store(file)
        store._base.execute("PRAGMA wal_autocheckpoint = 8")
        for event in walked.events[3:]:
            store.append(event)
            told.count += 1
        return store

    def whole(file: Path, told: Told) -> Store:
        store = Store(file)
        for number, event in enumerate(walked.events[3:12]):
            store.append(event)
            told.count += 1
            if number % 4 == 3:
                store._base.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        return store

    yield Scene(folder, walked.events, 3, len(walked.events), often)
    yield Scene(folder, walked.events, 3, 12, whole)


def closing(folder: Path, walked: Walk) -> Iterator[Scene]:
    """A journal with everything in its log, which closing brings into the file and takes away."""

    def work(file: Path, told: Told) -> Store:
        store = Store(file)
        store.close()
        return store

    _written(folder, walked, len(walked.events))
    yield Scene(folder, walked.events, len(walked.events), len(walked.events), work)


def forward(folder: Path, walked: Walk) -> Iterator[Scene]:
    """A journal of the first version that is brought forward."""
    journals.of_first_version(folder / FILE, walked)

    def work(file: Path, told: Told) -> Store:
        store = Store(file)
        store.close()
        return store

    yield Scene(folder, walked.events, len(walked.events), len(walked.events), work)


def _written(folder: Path, walked: Walk, count: int) -> None:
    """So many events, all in the log, left as a process leaves them that is killed after them."""

    def work() -> Store:
        store = Store(folder / FILE)
        store._base.execute("PRAGMA wal_autocheckpoint = 0")
        store.keep_text(walked.text)
        for event in walked.events[:count]:
            store.append(event)
        return store

    assert _at_a_byte(work, 1 << 30) == ""


SCENES: dict[str, Callable[[Path, Walk], Iterator[Scene]]] = {
    "appending": appending, "making": making, "checkpointing": checkpointing, "closing": closing,
    "forward": forward,
}  # fmt: skip


def report(told: argparse.Namespace) -> dict[str, object]:
    """Kill at so many points of each scene, 0 for all, and say what was found."""
    way = told.way or (WATCHED if can_watch() else LIMITED)
    kills, deep, calls, wrong = 0, 0, Counter[str](), list[str]()
    with tempfile.TemporaryDirectory() as place:
        for number, scene in enumerate(_scenes(Path(place), told)):
            if wrong and told.careless:
                break
            for point in spread(extent(scene, way), number, told.points):
                deeply = kills % told.deeply == 0
                found = killed(scene, point, way, deeply)
                kills, deep = kills + found.killed, deep + deeply
                calls[found.at] += 1
                wrong += [f"scene {number}, {each}" for each in found.wrong]
    return {"way": way, "kills": kills, "resumed": deep, "calls": calls, "wrong": wrong}


def _scenes(place: Path, told: argparse.Namespace) -> Iterator[Scene]:
    """The scenes that were asked for, of a rehearsal that is walked first."""
    walked = journals.walk(told.answers)
    return SCENES[told.scene](place, walked, **({"careless": True} if told.careless else {}))


def main(arguments: list[str]) -> None:
    """Print what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("scene", choices=SCENES)
    parser.add_argument("--answers", default="adjustable-chuck-inch")
    parser.add_argument("--points", type=int, default=0, help="of each scene; 0 for all")
    parser.add_argument("--deeply", type=int, default=1, help="walk and resume at each so many")
    parser.add_argument("--way", default="", choices=["", WATCHED, LIMITED])
    parser.add_argument("--careless", action="store_true", help="until something is wrong")
    print(json.dumps(report(parser.parse_args(arguments))))


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
