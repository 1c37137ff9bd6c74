"""The portable record can be checked by a stranger with SHA-256 alone."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from guide.journal.canonical import canonical, digest
from guide.journal.link import head_of
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


@pytest.fixture
def signed(walked, store, tmp_path: Path) -> Path:
    """The same setup signed by two people, on a journal that has other chains before it."""
    path = tmp_path / "record.jsonl"
    write(walked(signed=True), store, path)
    return path


def stranger(folder: Path) -> int:
    """The exit code of the docstring's program, run where nothing of ours can be imported."""
    command = [sys.executable, "-I", "-c", PROGRAM]
    return subprocess.run(command, cwd=folder, capture_output=True, check=False).returncode


def test_the_program_in_the_docstring_accepts_a_record(exported: Path) -> None:
    """With hashlib and json and nothing else where nothing is signed."""
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
        after = f'"digest":"{row.digest}","signature":"{row.signature}"'
        assert line == f'{{"body":{row.body},{after}}}'


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


def test_a_signed_record_is_accepted_with_its_signatures(signed: Path) -> None:
    """Every event by the key of the one who did it; `people` holds both with their roles."""
    first, *events = map(json.loads, signed.read_text(encoding="utf-8").splitlines())
    assert stranger(signed.parent) == 0
    assert (first["format"], first["sign_on"]) == ("spindleside-record-2", "on")
    assert [(each["name"], each["role"]) for each in first["people"]] == [
        ("A. Sample", "supervisor"), ("B. Sample", "machinist"),
    ]  # fmt: skip
    assert {each["signature"] == "" for each in events} == {False}
    assert first["link"]["number"] > first["events"]


def test_a_signed_record_worked_out_again_without_the_keys_is_found(signed: Path) -> None:
    """Digests and the link can be made to match; a signature cannot, and none is missed."""
    first, *events = map(json.loads, signed.read_text(encoding="utf-8").splitlines())
    for signature in (events[-1]["signature"], ""):
        signed.write_text("\n".join(forged(first, events, signature)) + "\n", encoding="utf-8")
        assert stranger(signed.parent) != 0


def forged(first: dict, events: list[dict], signature: str) -> list[str]:
    """The record with another last word, and all that has no key worked out to match."""
    body = canonical(events[-1]["body"] | {"data": {"name": "B. Sample", "meaning": "all well"}})
    last = {"body": json.loads(body), "digest": digest(body), "signature": signature}
    link = first["link"]
    whole = (
        link["number"], first["setup"], len(events), last["digest"], signature, link["previous"],
    )  # fmt: skip
    told = first | {"head": last["digest"], "link": link | {"head": head_of(*whole)}}
    lines = (f'{{"body":{canonical(each["body"])},"digest":"{each["digest"]}",'
             f'"signature":"{each["signature"]}"}}' for each in (*events[:-1], last))  # fmt: skip
    return [canonical(told), *lines]
