"""A record file is there whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from guide.plain import BadInput, Refusal
from guide.records import write as writing
from guide.records.write import ENDINGS, known, write


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_ending_picks_the_form(walked, store, tmp_path: Path, ending: str) -> None:
    """Each begins as its form does, and nothing else is left in the folder."""
    begins = {".html": "<!DOCTYPE html>", ".md": "# Record", ".jsonl": '{"events":27'}
    path = tmp_path / "out" / f"record{ending.upper()}"
    path.parent.mkdir()
    write(walked(), store, path)
    assert path.read_text(encoding="utf-8").startswith(begins[ending])
    assert os.listdir(path.parent) == [path.name]


@pytest.mark.parametrize(
    "name", ["record.pdf", "record", "record.md.exe", ".html", "record.jsonl "]
)
def test_an_ending_that_is_not_known_is_refused(name: str) -> None:
    """The refusal names the endings that are."""
    with pytest.raises(BadInput, match=r"\.html, \.md, \.jsonl"):
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
