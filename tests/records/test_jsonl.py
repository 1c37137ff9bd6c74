"""The portable record can be checked by a stranger with SHA-256 alone."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from guide.records import to_jsonl
from guide.records.write import write

PROGRAM = "\n".join(
    line.strip("\n")[4:]
    for line in (to_jsonl.__doc__ or "").splitlines()
    if re.match(r"    (?!\{)", line)
)
"""The program in the docstring, as a stranger would copy it."""


@pytest.fixture
def exported(walked, store, tmp_path: Path) -> Path:
    """The short setup as record.jsonl, with names that try to break the lines."""
    path = tmp_path / "record.jsonl"
    write(walked(second='B. "\n\u2028{\x1b</script>', note="one\nline"), store, path)
    return path


def stranger(folder: Path) -> int:
    """The exit code of the docstring's program, run where nothing of ours can be imported."""
    command = [sys.executable, "-I", "-c", PROGRAM]
    return subprocess.run(command, cwd=folder, capture_output=True, check=False).returncode


def test_the_program_in_the_docstring_accepts_a_record(exported: Path) -> None:
    """With hashlib and json and nothing else."""
    assert "sha256" in PROGRAM
    assert stranger(exported.parent) == 0


def test_the_first_line_tells_what_follows(exported: Path, store) -> None:
    """Setup, count, head and the digest of the procedure text that was walked."""
    first, *events = exported.read_bytes().splitlines()
    told = json.loads(first)
    assert (told["events"], told["head"]) == store.last("on-paper") == (len(events), told["head"])
    assert store.text(told["procedure_text"]).startswith("# Invented")
    assert json.loads(events[-1])["digest"] == told["head"]


def test_every_event_stands_there_as_it_is_stored(exported: Path, store) -> None:
    """Byte for byte, one object a line."""
    lines = exported.read_text(encoding="utf-8").split("\n")[1:-1]
    for line, row in zip(lines, store.rows("on-paper"), strict=True):
        assert line == f'{{"body":{row.body},"digest":"{row.digest}"}}'


def test_one_changed_sign_anywhere_is_found(exported: Path) -> None:
    """In each event, one digit of its time."""
    whole = exported.read_bytes()
    for number in (1, 9, 20, 27):
        lines = whole.split(b"\n")
        lines[number] = lines[number].replace(b'"at":"2031', b'"at":"2030')
        exported.write_bytes(b"\n".join(lines))
        assert stranger(exported.parent) != 0


def test_a_missing_event_is_found(exported: Path) -> None:
    """The chain does not close over a gap, and a cut end is not the head."""
    lines = exported.read_bytes().splitlines(keepends=True)
    for kept in (lines[:7] + lines[8:], lines[:-1]):
        exported.write_bytes(b"".join(kept))
        assert stranger(exported.parent) != 0


def test_a_change_in_the_journal_is_not_laundered(walked, store, tmp_path: Path, spoil) -> None:
    """The stored digest goes out with the changed text, so the stranger finds it too."""
    walk = walked()
    written = [row.digest for row in store.rows("on-paper")]
    spoil(store.path, "on-paper", 27, "handed over", "hand-over")
    write(walk, store, tmp_path / "record.jsonl")
    assert stranger(tmp_path) != 0
    lines = (tmp_path / "record.jsonl").read_text(encoding="utf-8").splitlines()[1:]
    assert [json.loads(line)["digest"] for line in lines] == written
