"""Cuts the power: what a disk may hold then, by every write and sync of a real process.

    python tests/faults/cutting.py [--cuts N] [--answers NAME] [--pragmas NAME=VALUE …]

A process walks a rehearsal in a new journal, watched at each call that changes a file (`tracing`).
At a cut the disk holds what was synced, and of everything written since then any part: nothing, all
of it, or some of the writes, each whole or torn at a sector. A new file is there or not until its
folder is synced, a removed one is gone or not. Each such disk is laid out as files, opened by the
program, and looked at. Needs ptrace; without it says so, as a kill loses nothing of what the system
was given and cannot stand for a power cut.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

import journals
import warm
from journals import FILE, Walk
from killing import Told
from tracing import Call, Watched, can_watch

from guide.journal.store import Store

SECTOR = 512
LOG_ONLY_IN_MEMORY = "-shm"
"""SQLite's index of its log, which it never syncs and makes anew."""


class Done(NamedTuple):
    """One change of a file, as it was given to the system."""

    name: str
    """write, truncate, unlink or sync."""
    path: str
    offset: int
    data: bytes
    told: int
    """How many events had been acknowledged by then."""


def watched(folder: Path, walked: Walk, pragmas: Iterable[str]) -> Iterator[Done]:
    """Everything that a process does to the files of a new journal, up to its closing."""
    told = Told()

    def work() -> None:
        with Store(folder / FILE) as store:
            for pragma in pragmas:
                store._base.execute(f"PRAGMA {pragma}")
            store.keep_text(walked.text)
            for event in walked.events:
                store.append(event)
                told.count += 1

    with Watched(work) as child:
        for call in child.calls():
            yield from _done(child, call, told.count)
        assert child.exit_code == 0


def _done(child: Watched, call: Call, told: int) -> Iterator[Done]:
    """What a call does; one that is not known here is no call to be passed over."""
    first, second, third, fourth = call.arguments[:4]
    if call.name in ("pwrite64", "write"):
        offset = fourth if call.name == "pwrite64" else child.offset(first)
        yield Done("write", child.file(first), offset, child.memory(second, third), told)
    elif call.name == "ftruncate":
        yield Done("truncate", child.file(first), second, b"", told)
    elif call.name in ("fsync", "fdatasync"):
        yield Done("sync", child.file(first), 0, _names(child.file(first)), told)
    elif call.name in ("unlink", "unlinkat"):
        yield Done("unlink", child.text(first if call.name == "unlink" else second), 0, b"", told)
    elif call.name not in ("mkdir", "mkdirat"):
        raise AssertionError(call)


def _names(path: str) -> bytes:
    """The files that are in a folder when it is synced."""
    found = Path(path)
    return b"\0".join(map(os.fsencode, found.iterdir())) if found.is_dir() else b""


class Disk:
    """What is on the platter, and what is still on its way there."""

    def __init__(self) -> None:
        self.synced: dict[str, bytes] = {}
        self.named: set[str] = set()
        """Files that were in the folder when it was synced last."""
        self.pending: list[Done] = []

    def take(self, done: Done) -> None:
        """One change more; a sync brings down all that was given of its file or folder."""
        if done.path.endswith(LOG_ONLY_IN_MEMORY):
            return
        if done.name != "sync":
            self.pending.append(done)
            return
        if done.data:
            self.named = {os.fsdecode(name) for name in done.data.split(b"\0")}
        for each in (each for each in self.pending if _is_of(each, done.path)):
            _apply(self.synced, each)
        self.pending = [each for each in self.pending if not _is_of(each, done.path)]

    def cut(self, chance: random.Random, kept: float) -> dict[str, bytes]:
        """The files after a cut, each pending change kept with that chance, or torn."""
        files = dict.fromkeys(self.named, b"") | self.synced
        for each in self.pending:
            if chance.random() < kept:
                _apply(files, _torn(each, chance) if kept < 1 else each)
        there = self.named | {path for path in sorted(files) if chance.random() < kept}
        return {path: data for path, data in files.items() if path in there}


def _is_of(done: Done, path: str) -> bool:
    """Whether a sync of that path brings the change down: of the file, or a name in the folder."""
    return done.path == path or (done.name == "unlink" and str(Path(done.path).parent) == path)


def _apply(files: dict[str, bytes], done: Done) -> None:
    """One change made to the files."""
    if done.name == "unlink":
        files.pop(done.path, None)
        return
    old = files.get(done.path, b"")
    if done.name == "truncate":
        files[done.path] = old[: done.offset].ljust(done.offset, b"\0")
    else:
        end = done.offset + len(done.data)
        files[done.path] = old[: done.offset].ljust(done.offset, b"\0") + done.data + old[end:]


def _torn(done: Done, chance: random.Random) -> Done:
    """A write of which, one time in two, only the sectors up to some border were written."""
    if done.name != "write" or chance.random() < 0.5:
        return done
    border = done.offset - done.offset % SECTOR + SECTOR * chance.randint(0, 8)
    return done._replace(data=done.data[: max(0, border - done.offset)])


def laid_out(files: dict[str, bytes], folder: Path, chance: random.Random) -> Path:
    """The files in a folder, beside them whatever is left of the index of the log."""
    for path, data in files.items():
        (folder / Path(path).name).write_bytes(data)
    if chance.random() < 0.5:
        (folder / f"{FILE}{LOG_ONLY_IN_MEMORY}").write_bytes(chance.randbytes(1 << 15))
    return folder / FILE


def report(told: argparse.Namespace) -> dict[str, object]:
    """Cut at so many places, evenly over all of them, and say what was found."""
    if not can_watch():
        return {"way": "none", "cuts": 0, "lost": 0, "wrong": []}
    cuts, lost, before, wrong = 0, 0, Counter[str](), list[str]()
    with tempfile.TemporaryDirectory() as place:
        walked = journals.walk(told.answers)
        changes = list(watched(Path(place), walked, told.pragmas))
        disk = Disk()
        share = min(1.0, told.cuts / len(changes)) if told.cuts else 1.0
        for number, change in enumerate(changes):
            if int(number * share) != int((number + 1) * share):
                chance = random.Random(f"{told.seed} {number}")
                kept = (0.0, 0.5, 1.0, 0.8)[cuts % 4]
                with tempfile.TemporaryDirectory() as folder:
                    file = laid_out(disk.cut(chance, kept), Path(folder), chance)
                    found = journals.wrong(
                        file, walked.events, change.told, len(walked.events), cuts % 8 == 0
                    )
                wrong += [f"cut {number} before {change.name}, {kept}: {each}" for each in found]
                cuts, lost = cuts + 1, lost + bool(disk.pending)
                before[change.name] += 1
            disk.take(change)
    return {
        "way": "ptrace", "seed": told.seed, "changes": len(changes), "cuts": cuts,
        "with_something_unsynced": lost, "before": before, "wrong": wrong,
    }  # fmt: skip


def main(arguments: list[str]) -> None:
    """Print what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--answers", default="chuck-recheck-inch")
    parser.add_argument("--cuts", type=int, default=0, help="0 for one before every change")
    parser.add_argument("--pragmas", nargs="*", default=[], metavar="NAME=VALUE")
    parser.add_argument("--seed", type=int, default=20310302)
    print(json.dumps(report(parser.parse_args(arguments))))


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
