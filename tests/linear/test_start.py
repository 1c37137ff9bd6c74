"""The start list in lines: open setups, procedures, records and what is due."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.rehearse import give, read_answers
from guide.walk.setup import open_setup

ANSWERS = Path(__file__).parents[1] / "answers" / "chuck-recheck-inch.yaml"


def rechecked(home: Path) -> None:
    """A chuck rechecked long ago, so that it is due."""
    answers = read_answers(ANSWERS)
    with Store(home / "journal.sqlite3") as store:
        walk = open_setup(store, find(answers.procedure), setup="long-ago", person=answers.person,
                          at=answers.at(0), lathe=answers.lathe)  # fmt: skip
        for minute, each in enumerate(answers.answers, start=1):
            if "recheck-date" in each.data.get("facts", {}):
                told = {**each.data["facts"], "recheck-date": "2026-09-03"}
                each = replace(each, data={**each.data, "facts": told})
            give(walk, each, answers.at(minute))


def test_a_record_is_read_out_line_by_line_and_what_is_due_is_said(home, terminal) -> None:
    """Chosen by its number, every section with its rows, no column of blanks; then the list."""
    rechecked(home)
    at = terminal(home, "--plain", "--width", "0")
    told = at.prompt()
    assert "Begin at the lathe:" in told
    assert re.search(r"^To look at again:\nChuck 7.*: due 2026-09-03. Read it again.$", told, re.M)
    number = re.search(r"^(\d+): .* · Recheck a chuck that is on the nose · .*finished", told, re.M)
    assert number, told
    told = at.send(number[1])
    assert "Summary:" in told
    assert re.search(r"^Chuck: ", told, re.M)
    assert "  " not in told.replace("> ", "")
    at.child.send("0\r")
    at.end()
    assert at.child.exitstatus == 0


def test_a_setup_that_is_left_stands_in_the_list_and_goes_on_from_there(home, terminal) -> None:
    """Left behind `*` with a reason by number; gone on with by the same person, by number."""
    at = terminal(home, "--plain", "--width", "0")
    begin = re.search(r"^(\d+): Take a chuck", at.prompt(), re.M)
    assert begin
    at.send(begin[1])
    at.send("1")
    at.send("1")
    leave = re.search(r"^(\d+): Leave;", at.send("*"), re.M)
    assert leave
    at.send(leave[1])
    told = at.send("1")
    assert "Recorded: Paused: a break" in told
    assert re.search(r"^1: Lathe 1 · Take a chuck or a plate off [^·]+ · last Person 1", told, re.M)
    assert "Who goes on with it?" in at.send("1")
    assert "Step 1 of about" in at.send("1")


def test_a_number_that_is_not_there_is_said(home, terminal) -> None:
    """One sentence and the question again."""
    at = terminal(home, "--plain")
    at.prompt()
    told = at.send("77")
    assert "Type a number from 0 to" in told
    assert told.rstrip("> \n").endswith("Which number? 0: leave.")
