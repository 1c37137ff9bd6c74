"""`rehearse` walks an answers file to its end, or says at which line it could not."""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

import pexpect
import pytest

from guide.journal.store import Store

GIVEN = Path(__file__).parent / "given"


@pytest.fixture
def rehearse(call, given: Path):
    """Rehearses the short procedure with other answers: each pair is a piece and its stand-in."""

    def go(*changed: tuple[str, str], options: tuple[object, ...] = (), tmp: Path):
        text = (given / "answers.yaml").read_text()
        for old, new in changed:
            assert old in text
            text = text.replace(old, new, 1)
        (tmp / "answers.yaml").write_text(text)
        return call("rehearse", given / "short.yaml", "--answers", tmp / "answers.yaml", *options)

    return go


def test_it_finishes_and_says_so(call, given: Path, rehearsed: Path, home: Path) -> None:
    """The setup, its events and the digest of the last are printed and are in the journal."""
    arguments = ("--answers", given / "answers.yaml", "--journal", home, "--setup", "second")
    found = call("rehearse", given / "short.yaml", *arguments)
    assert (found.code, found.err) == (0, "")
    assert "Rehearsed short as second: finished, 11 events" in found.out
    with Store.read(rehearsed) as store:
        assert store.last("second")[1] in found.out


def test_as_json(rehearse, tmp_path: Path) -> None:
    """Setup, procedure, place, events, head; no figure as left where none was read."""
    found = json.loads(rehearse(options=("--json",), tmp=tmp_path).out)
    assert set(found) == {"setup", "procedure", "place", "events", "head", "as_left"}
    assert found["setup"].startswith("rehearsal-")
    assert (found["place"], found["events"], found["as_left"]) == ("finished", 11, None)


def test_without_a_journal_nothing_stays(rehearse, home: Path, tmp_path: Path, monkeypatch) -> None:
    """Neither in the user's folder nor in the folder for temporary files."""
    (tmp_path / "temporary").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "temporary"))
    assert rehearse(tmp=tmp_path).code == 0
    assert not home.exists()
    assert list((tmp_path / "temporary").iterdir()) == []


def test_the_record_of_a_rehearsal_is_marked_for_ever(rehearsed: Path) -> None:
    """In its first event, which no later one can take back."""
    with Store.read(rehearsed) as store:
        opening = store.events("first")[0].data
    assert (opening["mode"], opening["input"]) == ("rehearsal", "file")


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (('checks: ["1"]', 'checks: ["1", "1"]'), "each confirmed once"),
        (("  - step: isolate\n", "  - step: see-isolated\n"), "the answer is for see-isolated"),
        (("    name: B. Sample", "    name: C. Sample"), "Type that name"),
        (("bystanders: clear", "bystanders: gone"), "bystanders was not answered"),
        (('checks: ["1"]', "why: none"), "stays shut"),
    ],
)
def test_an_answer_that_is_refused_fails_at_its_line(rehearse, changed, said, tmp_path) -> None:
    """Exit 1, one sentence, and the line of that answer in the file."""
    found = rehearse(changed, tmp=tmp_path)
    assert (found.code, found.out, found.in_one_sentence) == (1, "", True), found
    assert said in found.err
    assert "answers.yaml:" in found.err


def test_answers_that_end_too_early_do_not_finish(rehearse, tmp_path: Path) -> None:
    """Exit 1, naming where the walk still stands."""
    cut = ("  - step: sign-off\n    name: B. Sample\n    meaning: left isolated\n", "")
    found = rehearse(cut, tmp=tmp_path)
    assert (found.code, found.in_one_sentence) == (1, True)
    assert "end at sign-off; the walk is not finished" in found.err


@pytest.mark.parametrize(
    ("changed", "code", "said"),
    [
        (("procedure: short", "procedure: long"), 2, "answers the procedure long, not short"),
        (("answers:\n", "answers: none\nrest:\n"), 2, "must be a list"),
        (("begins: 2031-03-02T08:00", "begins: soon"), 2, "is not a time such as"),
    ],
)
def test_an_answers_file_that_cannot_be_used(rehearse, changed, code, said, tmp_path) -> None:
    """Refused before anything is opened."""
    found = rehearse(changed, tmp=tmp_path)
    assert (found.code, found.out) == (code, "")
    assert said in found.err
    assert "Traceback" not in found.err


def test_a_missing_answers_file_is_bad_input(call, given: Path) -> None:
    """Exit 2, one sentence."""
    found = call("rehearse", given / "short.yaml", "--answers", "nowhere.yaml")
    assert (found.code, found.in_one_sentence) == (2, True)


def test_a_procedure_that_fails_its_check_does_not_run(call, given, home, tmp_path) -> None:
    """Exit 1, the first finding, and no journal."""
    text = (given / "short.yaml").read_text()
    (tmp_path / "bad.yaml").write_text(text.replace("[stop, isolate]", "[isolate, clear away]"))
    arguments = ("--answers", given / "answers.yaml", "--journal", home)
    found = call("rehearse", tmp_path / "bad.yaml", *arguments)
    assert (found.code, found.out, found.in_one_sentence) == (1, "", True)
    assert "fails its check and does not run" in found.err
    assert not home.exists()


def test_a_setup_of_that_name_is_not_gone_on_with(call, given, rehearsed, home) -> None:
    """A second rehearsal under one id is refused and changes nothing."""
    before = rehearsed.read_bytes()
    arguments = ("--answers", given / "answers.yaml", "--journal", home, "--setup", "first")
    found = call("rehearse", given / "short.yaml", *arguments)
    assert (found.code, found.in_one_sentence) == (1, True)
    assert rehearsed.read_bytes() == before


def test_one_that_is_watched_is_walked_again_when_its_answers_change(tmp_path) -> None:
    """Each event is shown; what is refused is one sentence; Ctrl-C ends it and is no failure."""
    answers = tmp_path / "answers.yaml"
    good = (GIVEN / "answers.yaml").read_text()
    answers.write_text(good.replace("nose: camlock", "nose: nothing-such"))
    told = ["rehearse", str(GIVEN / "short.yaml"), "--answers", str(answers), "--watch"]
    child = pexpect.spawn(sys.executable, ["-c", f"from guide.cli.main import run; run({told!r})"],
                          encoding="utf-8", timeout=20, dimensions=(40, 200))  # fmt: skip
    child.expect("✗ ")
    child.expect("Waiting for a change of")
    answers.write_text(good)
    child.expect("this was no real lathe")
    child.expect("Waiting for a change of")
    child.sendintr()
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
