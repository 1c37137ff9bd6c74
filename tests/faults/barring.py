"""Bars the way to a journal, and reads and writes it as somebody who has no rights over it.

    python tests/faults/barring.py [WAY …]

Run by root, everything is tried as another user; where a file system may be mounted, also on one
that nobody can write to.
"""

from __future__ import annotations

import ctypes
import io
import json
import os
import shutil
import struct
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

import journals
import warm
from filling import DETACH, NEW_NAMESPACE, PRIVATE_ALL
from journals import FILE, SETUP

from guide.cli.main import run
from guide.journal.event import Event
from guide.journal.store import Store
from guide.plain import Refusal

NOBODY = 65534
CAPABILITIES = 0x20080522
"""The version of capset(2) whose data are 24 bytes."""
LOG, INDEX = f"{FILE}-wal", f"{FILE}-shm"
READ_ONLY, REMOUNT, BIND = 1, 32, 4096
"""Flags of mount(2)."""
MORE = "more"


class Barred(NamedTuple):
    """One way in which a journal is barred."""

    left: tuple[str, ...]
    """Which of the files that a killed process leaves are there; the database alone is closed."""
    modes: dict[str, int]
    """Permissions by name, `.` the folder."""
    readable: bool
    mount: bool = False
    """Whether it lies on a file system that nobody can write to."""
    no_room: bool = False
    """Whether there is no folder for a copy either."""


OPEN = (FILE, LOG, INDEX)
WAYS = {
    "a folder": Barred((FILE,), {".": 0o555}, True),
    "a folder and its file": Barred((FILE,), {".": 0o555, FILE: 0o444}, True),
    "a file": Barred((FILE,), {".": 0o777, FILE: 0o444}, True),
    "all its files": Barred(OPEN, {".": 0o555, FILE: 0o444, LOG: 0o444, INDEX: 0o444}, True),
    "files, log and all": Barred(OPEN, {".": 0o777, FILE: 0o444, LOG: 0o444, INDEX: 0o444}, True),
    "a folder, with its log": Barred((FILE, LOG), {".": 0o555}, True),
    "files, with its log": Barred((FILE, LOG), {".": 0o777, FILE: 0o444, LOG: 0o444}, True),
    "a file system": Barred((FILE,), {".": 0o777}, True, mount=True),
    "a file system, log and all": Barred(OPEN, {".": 0o777}, True, mount=True),
    "a file system, with its log": Barred((FILE, LOG), {".": 0o777}, True, mount=True),
    "its folder to all": Barred((FILE,), {".": 0o000}, False),
    "its file to all": Barred((FILE,), {".": 0o555, FILE: 0o000}, False),
    "its log to all": Barred((FILE, LOG), {".": 0o555, LOG: 0o000}, False),
    "its log, index and all": Barred(OPEN, {".": 0o555, LOG: 0o000, INDEX: 0o000}, False),
    "the room for a copy": Barred((FILE, LOG), {".": 0o555}, False, no_room=True),
}


class Said(NamedTuple):
    """What one try left behind."""

    code: int
    out: str
    err: str
    raised: str


def called(arguments: tuple[str, ...]) -> Said:
    """The command line in this process."""
    out, err = io.StringIO(), io.StringIO()
    code, raised = 0, ""
    with redirect_stdout(out), redirect_stderr(err):
        try:
            run(list(arguments))
        except SystemExit as left:
            code = int(left.code or 0)
        except BaseException:
            raised = traceback.format_exc()
    return Said(code, out.getvalue(), err.getvalue(), raised)


def tried(what: Callable[[], object]) -> Said:
    """A call past the command line, a refusal of it spelled as that does."""
    try:
        return Said(0, str(what()), "", "")
    except Refusal as refusal:
        return Said(2, "", f"spindleside: {refusal}\n" if refusal.remedy else "", "")
    except BaseException:
        return Said(0, "", "", traceback.format_exc())


def _without_rights() -> None:
    """Root becomes nobody; where that is not allowed, it gives up all rights past its files."""
    try:
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)
    except PermissionError:
        given_up = ctypes.CDLL(None).capset(struct.pack("Ii", CAPABILITIES, 0), bytes(24))
        assert given_up == 0


def _may_be_nobody() -> bool:
    """Whether this process may change who it is: tried by one that ends at once."""
    pid = os.fork()
    if pid == 0:
        try:
            os.setgroups([])
            os.setuid(NOBODY)
        except OSError:
            os._exit(1)
        os._exit(0)
    return os.waitpid(pid, 0)[1] == 0


def as_nobody(what: Callable[[], Said], folder: str = "") -> Said:
    """In a process without rights, `folder` the only one for temporary files if it is named."""
    reader, writer = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.chdir("/")
        if folder:
            tempfile.tempdir = folder
        if os.geteuid() == 0:
            _without_rights()
        os.write(writer, json.dumps(what()).encode())
        os._exit(0)
    os.close(writer)
    with open(reader, "rb") as told:
        said = Said(*json.load(told))
    os.waitpid(pid, 0)
    return said


def readings(home: Path, out: Path) -> dict[str, Callable[[], Said]]:
    """Everything that only reads."""
    at, target = ("--journal", str(home)), str(out / "record")
    calls = {
        "verify": ("verify", *at),
        "verify one": ("verify", SETUP, *at),
        "records": ("records", *at),
        "show": ("records", "show", SETUP, *at),
        "jsonl": ("export", SETUP, "--to", f"{target}.jsonl", *at),
        "markdown": ("export", SETUP, "--to", f"{target}.md", *at),
    }
    return {name: lambda told=told: called(told) for name, told in calls.items()}


def writings(home: Path, walked: journals.Walk) -> dict[str, Callable[[], Said]]:
    """Everything that writes."""
    file, last = home / FILE, walked.events[-1]
    told = (SETUP, last.sequence + 1, journals.AFTERWARDS, last.person, "", "note", {}, last.digest)
    return {
        "append": lambda: tried(lambda: Store(file).append(Event(*told))),
        "text": lambda: tried(lambda: Store(file).keep_text(MORE)),
        "relist": lambda: called(("records", "relist", "--journal", str(home))),
        "deeper": lambda: tried(lambda: Store(home / "deeper" / FILE)),
    }


def barred(way: Barred, before: Path, place: Path) -> Path:
    """The journal laid out and barred; the folder it lies in."""
    home = place / "home"
    home.mkdir()
    for name in way.left:
        shutil.copy(before / name, home / name)
        (home / name).chmod(0o644 if _may_be_nobody() else 0o444)
    for name, mode in sorted(way.modes.items(), reverse=True):
        (home / name).chmod(mode)
    if way.mount:
        system, spot = ctypes.CDLL(None, use_errno=True), os.fsencode(home)
        if system.mount(spot, spot, None, BIND, None) or system.mount(
            None, spot, None, REMOUNT | BIND | READ_ONLY, None
        ):
            raise OSError(ctypes.get_errno(), "no mount here")
    return home


def digests(folder: Path, names: tuple[str, ...]) -> dict[str, str]:
    """The files with their digests, but for the index, in which readers note themselves."""
    return {n: sha256((folder / n).read_bytes()).hexdigest() for n in names if n != INDEX}


def one_line(said: Said) -> bool:
    """Refused in one sentence in the program's name."""
    lines = said.err.splitlines()
    alone = len(lines) == 1 and lines[0].startswith("spindleside: ")
    return alone and said.code in (1, 2) and not said.out and not said.raised


class Place:
    """Where journals are barred: what they are copied from, and what a sound one answers."""

    def __init__(self, top: Path, mounts: bool) -> None:
        self.top, self.mounts = top, mounts
        top.chmod(0o755)
        self.out = top / "out"
        self.out.mkdir()
        self.out.chmod(0o777)
        self.walked = self._journals()
        spare = Path(shutil.copytree(top / "closed", top / "spare"))
        self.sound = {name: what() for name, what in readings(spare, self.out).items()}
        for what in writings(spare, self.walked).values():
            what()
        for each in self.out.iterdir():
            each.unlink()

    def _journals(self) -> journals.Walk:
        """One that was closed, and one as a process leaves it that is killed."""
        closed = self.top / "closed"
        closed.mkdir()
        walked = journals.written(closed, "chuck-recheck-inch")
        again = Path(shutil.copytree(closed, self.top / "again"))
        with Store(again / FILE) as store:
            store.keep_text("kept in the log")
            shutil.copytree(again, self.top / "killed")
        return walked

    def wrong(self, name: str, way: Barred) -> Iterator[str]:
        """Try everything, and say what was not as it has to be."""
        source = self.top / ("closed" if way.left == (FILE,) else "killed")
        with tempfile.TemporaryDirectory(dir=self.top) as folder:
            os.chmod(folder, 0o755)
            home = barred(way, source, Path(folder))
            for said in self._tried(way, home):
                yield f"{name}: {said}"
            if way.mount:
                ctypes.CDLL(None).umount2(os.fsencode(home), DETACH)
            home.chmod(0o755)
            for each in way.left:
                (home / each).chmod(0o644)
            if digests(home, way.left) != digests(source, way.left):
                yield f"{name}: the files are not what they were"

    def _tried(self, way: Barred, home: Path) -> Iterator[str]:
        nowhere = str(home / "nowhere") if way.no_room else ""
        for each, what in readings(home, self.out).items():
            said = as_nobody(what, nowhere)
            if not (said == self.sound[each] if way.readable else one_line(said)):
                yield f"{each}: {said}"
        for each, what in writings(home, self.walked).items():
            said = as_nobody(what, nowhere)
            allowed = each == "deeper" and way.modes["."] == 0o777 and not way.mount
            if not allowed and not one_line(said):
                yield f"{each}: {said}"


def main(arguments: list[str]) -> None:
    """Print what was found."""
    system = ctypes.CDLL(None, use_errno=True)
    mounts = system.unshare(NEW_NAMESPACE) == 0
    if mounts:
        system.mount(b"none", b"/", None, PRIVATE_ALL, None)
    wanted = {name: WAYS[name] for name in arguments} or WAYS
    ways = {name: way for name, way in wanted.items() if mounts or not way.mount}
    with tempfile.TemporaryDirectory() as top:
        place = Place(Path(top), mounts)
        wrong = [each for name, way in ways.items() for each in place.wrong(name, way)]
        sound = all(said.code == 0 and said.out for said in place.sound.values())
    print(json.dumps({
        "ways": len(ways), "mounted": sum(way.mount for way in ways.values()), "sound": sound,
        "readable": sum(way.readable for way in ways.values()),
        "tries": len(ways) * (len(place.sound) + 4), "wrong": wrong,
    }))  # fmt: skip


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
