"""Rows that no program wrote, in any table: named in a sentence, and nothing breaks on them."""

from __future__ import annotations

import json
from typing import Any

import pytest

from guide.journal.store import Store

ZERO = "00" * 32
LINK = "INSERT INTO link VALUES (?, ?, ?, ?, ?, ?)"
EVENT = "INSERT INTO event VALUES (?, ?, ?, ?, ?)"
HOSTILE = "../x\x1b[2J\u202e<b>"

ROWS: list[tuple[str, tuple[Any, ...], str]] = [
    (LINK, (0, "lone", 99, ZERO, "", ZERO), "missing"),
    (LINK, (-5, "lone", 99, ZERO, "", ZERO), "missing"),
    (LINK, (9999, "lone", 99, ZERO, "", ZERO), "missing"),
    (LINK, (9999, "lone", "abc", ZERO, "", ZERO), "missing"),
    (LINK, (9999, "lone", 1.5, ZERO, "", ZERO), "missing"),
    (LINK, (9999, "lone", 99, b"\xff\xfe", b"\x00", b"\xff"), "missing"),
    (LINK, (9999, "ghost", 1, ZERO, "", ZERO), "missing"),
    (LINK, (9999, HOSTILE, 1, ZERO, "", ZERO), "missing"),
    (LINK, (9999, b"lone", 1, ZERO, "", ZERO), "missing"),
    (EVENT, ("lone", "abc", "{}", ZERO, ""), "added"),
    (EVENT, ("lone", -1, "{}", ZERO, ""), "added"),
    (EVENT, ("lone", 22, b"\xff\xff", ZERO, ""), "changed"),
    (EVENT, ("lone", 22, "[" * 5000, ZERO, b"\xff"), "changed"),
    (EVENT, ("ghost", 1, "{}", ZERO, ""), "changed"),
    (EVENT, (HOSTILE, 1, "{}", ZERO, ""), "added"),
    (EVENT, ("people ", 1, "{}", ZERO, ""), "added"),
    (EVENT, (b"lone", 1, "{}", ZERO, ""), "added"),
    (EVENT, ("", 1, "{}", ZERO, ""), "added"),
    (EVENT, ("a" * 65, 1, "{}", ZERO, ""), "added"),
    ("INSERT INTO sealed VALUES (?, ?)", (ZERO, "{}"), "changed"),
    ("INSERT INTO sealed VALUES (?, ?)", (b"\xff", b"\x00\xff"), "changed"),
    ("INSERT INTO text VALUES (?, ?)", (HOSTILE, "procedure: x"), "changed"),
    ("INSERT INTO text VALUES (?, ?)", (b"\xff", b"\x00\xff"), "changed"),
    ("INSERT INTO glance VALUES (?, ?, ?, ?, ?, ?)", ("x", 1, 2, "real", "L", "C"), "damaged"),
    ("INSERT INTO glance VALUES (?, ?, ?, ?, ?, ?)", ("y", 9999, 9999, "r", "L", "C"), "damaged"),
    ("INSERT INTO glance VALUES (?, ?, ?, ?, ?, ?)", (HOSTILE, "", "", "", "", ""), "damaged"),
    ("INSERT INTO glance VALUES (?, ?, ?, ?, ?, ?)", (b"\xff", b"", None, "", "", ""), "damaged"),
]


@pytest.mark.parametrize(
    ("statement", "values", "fault"),
    ROWS,
    ids=[f"{statement.split()[2]} {number}" for number, (statement, *_) in enumerate(ROWS)],
)
def test_a_row_that_no_program_wrote_is_named(
    shop, statement: str, values: tuple[Any, ...], fault: str
) -> None:
    """In one line that steers no terminal; lists can still be shown and the rest be checked."""
    shop.tool.run(statement, values=values)
    found = shop.tool.found()
    assert fault in [each.fault for each in found]
    for each in found:
        assert each.says.isprintable()
    with Store.read(shop.file) as store:
        assert {"lone", "pair", "tried"} <= {each.setup for each in store.ended_setups()}
        assert store.open_setups() is not None
        assert list(store.outcomes()) is not None
        assert store.latest_outcomes() is not None
        assert store.setups() is not None


def test_the_command_line_names_it_and_fails(shop, call) -> None:
    """Exit 1 and a list of what is wrong, not a complaint about the name."""
    shop.tool.run(EVENT, values=(HOSTILE, 1, "{}", ZERO, ""))
    shop.tool.run(LINK, values=(9999, HOSTILE, 7, ZERO, "", ZERO))
    said = call("verify", "--journal", shop.file.parent)
    assert (said.code, said.err) == (1, "")
    assert "\x1b" not in said.out
    answer = json.loads(call("verify", "--json", "--journal", shop.file.parent).out)
    assert {each["fault"] for each in answer["findings"]} >= {"added", "missing"}


LISTED = [
    ("opened", "opened + 1"),
    ("ended", "NULL"),
    ("ended", "ended - 1"),
    ("mode", "'practice'"),
    ("lathe", "'Lathe 3'"),
    ("chuck", "'Chuck 9'"),
    ("setup", "'other'"),
]


@pytest.mark.parametrize(("column", "value"), LISTED)
def test_a_list_that_says_otherwise_than_the_events_is_named(shop, column: str, value: str) -> None:
    """Nothing rests on the list but what is shown first; it can be made anew."""
    shop.tool.run(f"UPDATE glance SET {column} = {value} WHERE setup = 'lone'")
    assert {each.fault for each in shop.tool.found()} == {"damaged"}
    with Store(shop.file) as store:
        store.relist()
    assert shop.tool.found() == []


def test_a_setup_left_out_of_the_list_is_named(shop) -> None:
    """A setup that no list shows would be forgotten."""
    shop.tool.run("DELETE FROM glance WHERE setup = 'lone'")
    assert shop.tool.first()[:2] == ("damaged", "lone")
