"""`export` writes the record of a setup to a file."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.journal.store import Store


@pytest.mark.parametrize("name", ["record.html", "record.md", "record.jsonl"])
def test_it_says_what_it_wrote_and_the_digest_to_keep(call, rehearsed, tmp_path, name) -> None:
    """The digest that is printed is in the file and in the journal."""
    found = call("export", "first", "--to", tmp_path / name)
    assert (found.code, found.err) == (0, "")
    assert "setup first, 11 events" in found.out
    assert "REHEARSAL, not a real lathe" in found.out
    with Store.read(rehearsed) as store:
        head = store.last("first")[1]
    assert head in found.out
    assert head in (tmp_path / name).read_text(encoding="utf-8")


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
