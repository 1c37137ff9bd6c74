"""`export` writes the record of a setup to a file."""

from __future__ import annotations

import os
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from guide.cli.label import label
from guide.journal.store import Store
from guide.plain import BadInput, NotAllowed
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse

WHOLE = Path(__file__).parents[1] / "answers" / "adjustable-chuck-inch.yaml"


NAMES = ["record.html", "record.md", "record.jsonl", "record.csv", "record.pdf"]


@pytest.mark.parametrize("name", NAMES)
def test_it_says_what_it_wrote_and_the_digest_to_keep(call, rehearsed, tmp_path, name) -> None:
    """The digest that is printed is in the journal, and in the file where that is of the whole."""
    found = call("export", "first", "--to", tmp_path / name)
    assert (found.code, found.err) == (0, "")
    assert "setup first, 11 events" in found.out
    assert "REHEARSAL, not a real lathe" in found.out
    with Store.read(rehearsed) as store:
        head = store.last("first")[1]
    assert head in found.out
    whole = (tmp_path / name).read_bytes()
    if name == "record.pdf":
        assert shows(whole, head)
    elif name != "record.csv":
        assert head.encode() in whole


def shows(whole: bytes, head: str) -> bool:
    """Whether the pages show a digest."""
    pages = PdfReader(BytesIO(whole), strict=True).pages
    return all(head in "".join(page.extract_text().split()) for page in pages)


@pytest.mark.parametrize("name", ["../climbed.md", "sub/../../climbed.csv"])
def test_a_setup_s_id_or_a_name_writes_nowhere_but_where_it_is_told(
    call, rehearsed, tmp_path: Path, name: str
) -> None:
    """A target is a path that a person names; an id with a path in it is no id of a setup."""
    (tmp_path / "here" / "sub").mkdir(parents=True)
    before = {each for each in tmp_path.rglob("*") if each.is_file()}
    target = tmp_path / "here" / name
    found = call("export", "first", "--to", target)
    assert found.code == 0
    after = {each for each in tmp_path.rglob("*") if each.is_file()}
    assert after - before == {target.resolve()}
    climbing = call("export", "../first", "--to", tmp_path / "no.md")
    assert (climbing.code, climbing.in_one_sentence) == (2, True)
    assert not (tmp_path / "no.md").exists()


@pytest.mark.parametrize("name", ["folder.md", "pipe.csv", "link.pdf"])
def test_what_is_no_plain_file_is_refused(call, rehearsed, tmp_path: Path, name: str) -> None:
    """A folder, a pipe or a link: exit 2, one sentence, and it stays what it is."""
    path = tmp_path / name
    made = {"folder.md": path.mkdir, "pipe.csv": lambda: os.mkfifo(path),
            "link.pdf": lambda: path.symlink_to(rehearsed)}  # fmt: skip
    made[name]()
    before = rehearsed.read_bytes()
    found = call("export", "first", "--to", path)
    assert (found.code, found.in_one_sentence) == (2, True)
    assert "not a plain file" in found.err
    assert rehearsed.read_bytes() == before


def test_a_label_is_refused_where_no_result_stands(rehearsed, tmp_path: Path) -> None:
    """The short rehearsal reads nothing: one sentence that says why, and no file."""
    target = tmp_path / "label.svg"
    told = ["first", "--to", str(target), "--journal", str(rehearsed.parent)]
    with pytest.raises(NotAllowed, match="No result of first stands"):
        label.main(told, standalone_mode=False)
    assert not target.exists()


def test_a_label_is_written_in_the_form_that_its_name_asks_for(home, tmp_path: Path, capsys):
    """Of a whole job that was rehearsed, as such; another ending is bad input."""
    answers = read_answers(WHOLE)
    with Store(home / "journal.sqlite3") as store:
        rehearse(find(answers.procedure), answers, store, "whole")
    for name in ("label.svg", "label.pdf"):
        target = tmp_path / name
        label.main(["whole", "--to", str(target), "--journal", str(home)], standalone_mode=False)
        assert target.stat().st_size > 1000
    assert "REHEARSAL, not a real lathe" in capsys.readouterr().out
    with pytest.raises(BadInput, match=r"\.pdf, \.svg"):
        label.main(["whole", "--to", "label.png", "--journal", str(home)], standalone_mode=False)


@pytest.mark.parametrize("name", ["record.exe", "record", "record.pdfx"])
def test_an_ending_that_no_form_has_is_bad_input(call, rehearsed, tmp_path, name) -> None:
    """Exit 2, and no file."""
    found = call("export", "first", "--to", tmp_path / name)
    assert (found.code, found.in_one_sentence) == (2, True)
    assert not (tmp_path / name).exists()


def test_a_setup_that_is_not_there_writes_nothing(call, rehearsed, tmp_path) -> None:
    """Exit 2, and no file, not even half of one."""
    found = call("export", "nosuch", "--to", tmp_path / "out.md")
    assert (found.code, found.in_one_sentence) == (2, True)
    assert sorted(each.name for each in tmp_path.iterdir()) == ["home"]


def test_the_journal_is_only_read(call, rehearsed, tmp_path) -> None:
    """Its folder holds afterwards what it held before."""
    before = {each.name: each.read_bytes() for each in rehearsed.parent.iterdir()}
    call("export", "first", "--to", tmp_path / "record.html")
    assert {each.name: each.read_bytes() for each in rehearsed.parent.iterdir()} == before


def test_a_changed_record_goes_out_under_its_mark(call, rehearsed, sql, tmp_path: Path) -> None:
    """It can be looked at, and every page says which event does not verify."""
    with sql(rehearsed) as base:
        base.execute("UPDATE event SET body = replace(body, 'telephone', 'telegraph')")
    found = call("export", "first", "--to", tmp_path / "record.md")
    assert "DOES NOT VERIFY: Event 5 of setup first" in found.out
    assert "DOES NOT VERIFY" in (tmp_path / "record.md").read_text(encoding="utf-8")
