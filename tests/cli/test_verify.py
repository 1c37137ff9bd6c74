"""`verify` names the first event that does not stand as it was written."""

from __future__ import annotations

import json
import shutil
from hashlib import sha256
from pathlib import Path

import pytest

from guide.journal.store import Store


@pytest.fixture
def head(rehearsed: Path) -> str:
    """The digest of the last event."""
    with Store.read(rehearsed) as store:
        return store.last("first")[1]


@pytest.mark.parametrize("setup", [(), ("first",)])
def test_a_journal_as_it_was_written(call, head: str, setup) -> None:
    """Exit 0, the digest to compare, and what the check cannot show."""
    found = call("verify", *setup)
    assert (found.code, found.err) == (0, "")
    assert found.out.startswith("Setups: 1, events: 11, faults: 0.")
    assert f"first: 11 events, last digest {head}" in found.out
    assert "not signed can be worked out again by whoever holds the journal file" in found.out


@pytest.mark.parametrize(
    ("statements", "first"),
    [
        (
            ["UPDATE event SET body = replace(body, 'bystanders clear', 'bystanders near')"],
            "Event 9 of setup first (acknowledge, step clear-gate) was changed",
        ),
        (["DELETE FROM event WHERE sequence = 4"], "Event 4 of setup first is missing"),
        (["DELETE FROM event WHERE sequence = 11"], "Event 11 of setup first is missing"),
        (["DELETE FROM event WHERE sequence > 3"], "Events 4 to 11 of setup first are missing"),
        (
            [f"INSERT INTO event VALUES ('first', 12, '{{}}', '{sha256(b'{}').hexdigest()}', '')"],
            "Event 12 of setup first (–, step –) was added",
        ),
        (
            ["INSERT INTO event SELECT setup, 12, body, digest, '' FROM event WHERE sequence = 9"],
            "Event 12 of setup first (acknowledge, step clear-gate) was reordered",
        ),
        (
            [
                "UPDATE event SET sequence = 99 WHERE sequence = 4",
                "UPDATE event SET sequence = 4 WHERE sequence = 5",
                "UPDATE event SET sequence = 5 WHERE sequence = 99",
            ],
            "Event 4 of setup first (pause, step see-isolated) was reordered",
        ),
    ],
    ids=["changed", "taken out", "cut short", "several out", "added", "copied", "reordered"],
)
def test_the_first_event_that_is_wrong_is_named_first(call, rehearsed, sql, statements, first):
    """Exit 1: it was changed, is missing, was added or was moved."""
    with sql(rehearsed) as base:
        for each in statements:
            base.execute(each)
    found = call("verify")
    assert (found.code, found.err) == (1, "")
    assert found.out.startswith(first), found.out


def test_all_the_others_are_listed_behind_it(call, rehearsed, sql) -> None:
    """Three changed events are three findings, in order."""
    with sql(rehearsed) as base:
        where = "WHERE sequence IN (3, 6, 9)"
        base.execute(f"UPDATE event SET body = replace(body, '2031-03-02', '2031-03-01') {where}")
    answer = json.loads(call("verify", "--json").out)
    assert answer["sound"] is False
    assert [each["sequence"] for each in answer["findings"]] == [3, 6, 9]
    assert {each["fault"] for each in answer["findings"]} == {"changed"}


def test_as_json_when_all_is_well(call, head: str) -> None:
    """The digest and the limit of the check are keys too."""
    answer = json.loads(call("verify", "first", "--json").out)
    assert (answer["sound"], answer["findings"]) == (True, [])
    assert answer["setups"] == [{"setup": "first", "events": 11, "head": head}]
    assert "not signed" in answer["note"]


def test_only_the_setup_that_was_named_is_looked_at(call, rehearsed, sql, given, home) -> None:
    """Another one that is wrong does not fail it; the whole journal does fail."""
    arguments = ("--answers", given / "answers.yaml", "--journal", home, "--setup", "second")
    call("rehearse", given / "short.yaml", *arguments)
    with sql(rehearsed) as base:
        base.execute("DELETE FROM event WHERE setup = 'second' AND sequence = 2")
    assert call("verify", "first").code == 0
    assert call("verify", "second").code == 1
    assert call("verify").code == 1


def test_it_reads_only(call, rehearsed: Path) -> None:
    """The folder holds the same bytes afterwards, and no file more."""
    before = {each.name: each.read_bytes() for each in rehearsed.parent.iterdir()}
    assert call("verify").code == 0
    assert {each.name: each.read_bytes() for each in rehearsed.parent.iterdir()} == before


def test_no_journal_is_bad_input_and_none_is_made(call, home: Path) -> None:
    """Exit 2: there is nothing to say anything about."""
    found = call("verify")
    assert (found.code, found.out, found.in_one_sentence) == (2, "", True)
    assert not home.exists()


@pytest.mark.parametrize("name", ["nosuch", "\x1b[2J"])
def test_a_setup_that_is_not_there_is_bad_input(call, rehearsed, name: str) -> None:
    """Exit 2, one sentence, and its name cannot steer the terminal."""
    found = call("verify", name)
    assert (found.code, found.out, found.in_one_sentence) == (2, "", True)
    assert "\x1b" not in found.err


def test_some_other_file_is_refused_untouched(call, home: Path) -> None:
    """Exit 2 for a file that is no journal."""
    home.mkdir()
    (home / "journal.sqlite3").write_bytes(b"not a database at all, " * 40)
    found = call("verify")
    assert (found.code, found.in_one_sentence) == (2, True)


def test_a_changed_text_cannot_steer_the_terminal(call, rehearsed, sql) -> None:
    """An escape written into an event's step is shown, not obeyed."""
    with sql(rehearsed) as base:
        base.execute("UPDATE event SET body = replace(body, 'clear-gate', '\\u001b[2J')")
    found = call("verify")
    assert found.code == 1
    assert "\x1b" not in found.out
    assert "⟨U+001B⟩[2J" in found.out


def test_a_copied_folder_verifies_as_well(call, rehearsed, tmp_path: Path) -> None:
    """The journal is one file that can be taken elsewhere."""
    shutil.copytree(rehearsed.parent, tmp_path / "copy")
    assert call("verify", "--journal", tmp_path / "copy").code == 0
