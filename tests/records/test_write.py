"""A record file is there whole or not at all."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path
from stat import S_ISDIR
from time import time

import pytest

from guide.plain import BadInput, Refusal
from guide.records import write as writing
from guide.records.write import ENDINGS, known, write

HOME = Path(__file__).parents[2]


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_ending_picks_the_form(walked, store, tmp_path: Path, ending: str) -> None:
    """Each begins as its form does, and nothing else is left in the folder."""
    begins = {".html": b"<!DOCTYPE html>", ".md": b"# Record", ".jsonl": b'{"events":27',
              ".pdf": b"%PDF-1.", ".csv": b"setup,sequence,"}  # fmt: skip
    path = tmp_path / "out" / f"record{ending.upper()}"
    path.parent.mkdir()
    write(walked(), store, path)
    assert path.read_bytes().startswith(begins[ending])
    assert os.listdir(path.parent) == [path.name]


@pytest.mark.parametrize(
    "name", ["record.pdfx", "record", "record.md.exe", ".html", "record.jsonl "]
)
def test_an_ending_that_is_not_known_is_refused(name: str) -> None:
    """The refusal names the endings that are."""
    with pytest.raises(BadInput, match=r"\.pdf, \.html, \.md, \.csv, \.jsonl"):
        known(Path(name))


def test_what_fails_half_way_leaves_the_old_file(walked, store, tmp_path: Path, monkeypatch):
    """A full disk at the last moment: the old record stands, and no half one beside it."""
    path = tmp_path / "out" / "record.md"
    path.parent.mkdir()
    path.write_text("the old one")

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(writing.os, "fsync", full)
    with pytest.raises(Refusal, match="no space left on device"):
        write(walked(), store, path)
    assert path.read_text() == "the old one"
    assert os.listdir(path.parent) == ["record.md"]


def test_a_folder_that_is_not_there_is_a_plain_refusal(walked, store, tmp_path: Path) -> None:
    """Said in a sentence with a remedy."""
    with pytest.raises(Refusal, match="cannot be written: no such file or directory"):
        write(walked(), store, tmp_path / "nowhere" / "record.md")


def test_a_folder_of_that_name_stays(walked, store, tmp_path: Path) -> None:
    """It is not written into or over."""
    (tmp_path / "record.md").mkdir()
    with pytest.raises(Refusal):
        write(walked(), store, tmp_path / "record.md")
    assert os.listdir(tmp_path / "record.md") == []


def test_others_may_read_it_as_they_may_read_new_files(walked, store, tmp_path: Path) -> None:
    """The folder's habits decide, not those of a temporary file."""
    (tmp_path / "plain").touch()
    write(walked(), store, tmp_path / "record.md")
    modes = [(tmp_path / name).stat().st_mode for name in ("plain", "record.md")]
    assert modes[0] == modes[1]


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_link_is_refused_and_what_it_leads_to_stays(
    walked, store, tmp_path: Path, ending: str
) -> None:
    """Whoever may lay a link may not choose what is written over."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.write_text("not to be touched")
    link = tmp_path / f"record{ending}"
    link.symlink_to(elsewhere)
    with pytest.raises(BadInput, match="not a plain file"):
        write(walked(events=2), store, link)
    assert (elsewhere.read_text(), link.is_symlink()) == ("not to be touched", True)


@pytest.mark.parametrize("make", [os.mkfifo, os.mkdir])
def test_what_is_no_file_is_refused_in_one_sentence(walked, store, tmp_path: Path, make) -> None:
    """A pipe or a folder of that name: nothing waits and nothing is put in its place."""
    path = tmp_path / "record.csv"
    make(path)
    with pytest.raises(BadInput, match="not a plain file"):
        write(walked(events=2), store, path)
    assert not path.is_file()


@pytest.mark.parametrize("name", ["n" * 300 + ".md", "nul\0l.md"])
def test_a_name_that_no_file_can_have_is_a_plain_refusal(walked, store, tmp_path, name) -> None:
    """Too long, or with a sign that ends it."""
    with pytest.raises(Refusal, match="cannot be written"):
        write(walked(events=2), store, tmp_path / name)


def test_a_name_as_long_as_a_file_can_have_is_written(walked, store, tmp_path: Path) -> None:
    """The half file has a short name of its own."""
    path = tmp_path / ("n" * 252 + ".md")
    write(walked(events=2), store, path)
    assert path.is_file()


def left(folder: Path, name: str, age: float) -> Path:
    """A half file, or what looks like one, that was written so many seconds ago."""
    path = folder / name
    path.write_bytes(b"half of it")
    then = time() - age
    os.utime(path, (then, then))
    return path


HALF = ".spindleside-00112233445566{}.part"


def test_what_killed_writings_left_long_ago_is_cleared_away(tmp_path: Path) -> None:
    """Of this folder, by the name that only this program gives; also where the clock was ahead."""
    for number, age in enumerate((3700, 10**7, -3700)):
        left(tmp_path, HALF.format(f"{number:02}"), age)
    writing.put(tmp_path / "record.md", b"whole")
    assert os.listdir(tmp_path) == ["record.md"]


def test_nothing_else_is_cleared_away(tmp_path: Path) -> None:
    """One that may be being written now, other names, folders, links and what they lead to."""
    old = 10**7
    left(tmp_path, HALF.format("77"), 60)
    for name in (
        ".0011223344556677.part", "spindleside-0011223344556677.part",
        HALF.format("7"), HALF.format("777"), HALF.format("GG"), HALF.format("77") + "s",
        ".spindleside.part", "record.part",
    ):  # fmt: skip
        left(tmp_path, name, old)
    (tmp_path / HALF.format("88")).mkdir()
    os.utime(tmp_path / HALF.format("88"), (0, 0))
    left(tmp_path / HALF.format("88"), HALF.format("00"), old)
    (tmp_path / HALF.format("99")).symlink_to(left(tmp_path, "elsewhere", old))
    os.utime(tmp_path / HALF.format("99"), (0, 0), follow_symlinks=False)
    before = {*tmp_path.rglob("*")}
    writing.put(tmp_path / "record.md", b"whole")
    assert {*tmp_path.rglob("*")} == {*before, tmp_path / "record.md"}


def test_a_half_file_that_cannot_be_cleared_away_is_no_trouble(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody else's, in a folder that many write to."""
    half = left(tmp_path, HALF.format("77"), 10**7)

    def barred(path: Path, missing_ok: bool = False) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(Path, "unlink", barred)
    writing.put(tmp_path / "record.md", b"whole")
    monkeypatch.undo()
    assert (half.exists(), (tmp_path / "record.md").read_bytes()) == (True, b"whole")


def synced(monkeypatch: pytest.MonkeyPatch, fails: int = 0) -> list[str]:
    """What is synced and moved from now on, in order; folders fail with that error."""
    seen: list[str] = []
    real_sync, real_move = os.fsync, os.replace

    def sync(descriptor: int) -> None:
        folder = S_ISDIR(os.fstat(descriptor).st_mode)
        seen.append("folder" if folder else "file")
        if folder and fails:
            raise OSError(fails, os.strerror(fails))
        real_sync(descriptor)

    def move(half: Path, whole: Path) -> None:
        seen.append("move")
        real_move(half, whole)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(os, "replace", move)
    return seen


def test_the_name_is_on_the_disk_when_it_is_said_to_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The folder is synced after the move: else a power cut would leave the old file."""
    seen = synced(monkeypatch)
    writing.put(tmp_path / "record.md", b"whole")
    assert seen == ["file", "move", "folder"]


def test_a_place_whose_folders_cannot_be_synced_is_written_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A network share may refuse it; a disk that says it failed is not believed."""
    synced(monkeypatch, errno.EINVAL)
    writing.put(tmp_path / "record.md", b"whole")
    monkeypatch.undo()
    assert (tmp_path / "record.md").read_bytes() == b"whole"
    synced(monkeypatch, errno.EIO)
    with pytest.raises(Refusal, match="cannot be written: input/output error"):
        writing.put(tmp_path / "record.md", b"whole")


KILLED = """
import os, signal, stat, sys
from pathlib import Path
from guide.records import write as writing

path, size = Path(sys.argv[1]), int(sys.argv[2])
real_open, real_fsync, real_replace = open, os.fsync, os.replace
point = 0

def die_at(here):
    if here == point:
        os.kill(os.getpid(), signal.SIGKILL)

class Dying:
    def __init__(self, file):
        self.file = file
    def __enter__(self):
        die_at(1)
        return self
    def __exit__(self, *told):
        self.file.close()
        die_at(3)
    def write(self, whole):
        part = len(whole) * (point - 10) // 20 if point >= 10 else len(whole)
        self.file.write(whole[:part])
        if point >= 10:
            self.file.flush()
            os.kill(os.getpid(), signal.SIGKILL)
    def flush(self):
        self.file.flush()
    def fileno(self):
        return self.file.fileno()

def fsync(descriptor):
    real_fsync(descriptor)
    if not stat.S_ISDIR(os.fstat(descriptor).st_mode):
        die_at(2)

def replace(half, whole):
    die_at(4)
    real_replace(half, whole)
    die_at(5)

writing.open = lambda *told, **more: Dying(real_open(*told, **more))
os.fsync, os.replace = fsync, replace
for point in (1, 2, 3, 4, 5, *range(10, 30)):
    path.write_bytes(b"the old one")
    child = os.fork()
    if child == 0:
        writing.put(path, bytes(size))
        os._exit(0)
    ended = os.WTERMSIG(os.waitpid(child, 0)[1])
    found = path.read_bytes()
    stands = "old" if found == b"the old one" else "new" if found == bytes(size) else "half"
    print(point, ended, stands)
"""
"""Writes in children that kill themselves: 1 at the opening, 2 after the sync, 3 after the close, 4
before and 5 after the move, and from 10 on after so many twentieths were written."""


def test_a_kill_at_any_moment_leaves_the_old_file_or_the_new_one(tmp_path: Path) -> None:
    """Twenty-five moments, each in a process that is killed with SIGKILL; no half file is seen."""
    path = tmp_path / "out" / "record.pdf"
    path.parent.mkdir()
    script = tmp_path / "killed.py"
    script.write_text(KILLED)
    told = [sys.executable, str(script), str(path), "400000"]
    environment = os.environ | {"PYTHONPATH": str(HOME)}
    ended = subprocess.run(told, check=True, env=environment, capture_output=True, text=True)
    moments = [line.split() for line in ended.stdout.splitlines()]
    assert len(moments) == 25
    assert {int(by) for _, by, _ in moments} == {signal.SIGKILL}
    assert {stands for point, _, stands in moments if point == "5"} == {"new"}
    assert {stands for point, _, stands in moments if point != "5"} == {"old"}
