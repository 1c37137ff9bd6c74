"""The readings for a spreadsheet: every value once, numbers as numbers, and no formula."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import Decimal
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present.visible import visible
from guide.records.of_setup import record_of
from guide.records.record import Answer, Record
from guide.records.to_csv import COLUMNS, NUMBER, harmless, to_csv

FORMULAS = ("=1+1", "+1+1", "-1+1", "@SUM(A1)", "=cmd|' /C calc'!A0", "\t=1", "\r=1", " =1",
            "＝1+1", "-", "+", "--1", "-0.0005x", "=HYPERLINK(\"x\")", "%0A=1", "|x")  # fmt: skip


@pytest.fixture
def record(walked, store) -> Record:
    """The whole short setup."""
    return record_of(walked(), store)


def rows(record: Record) -> list[dict[str, str]]:
    """What a general reader makes of the file."""
    return list(csv.DictReader(StringIO(to_csv(record), newline=""), strict=True))


def test_every_value_of_a_dial_is_a_row_of_its_own(record: Record) -> None:
    """Two pushes and pulls, three turns of eight with what closed them and was watched, a screw
    and what it came to."""
    found = rows(record)
    assert len(found) == 2 * 2 + 3 * (8 + 1 + 2) + 2
    turn = [each for each in found if each["what"] == "as left" and each["angle_deg"]]
    assert [each["typed"] for each in turn[:8]] == [
        "0.0000", "0.0000", "0.0001", "0.0001", "0.0001", "0.0001", "0.0000", "0.0000",
    ]  # fmt: skip
    assert [each["screw"] for each in turn[:8]] == ["1", "", "2", "", "3", "", "4", ""]
    assert {each["station"] for each in turn} == {"4 in"}


def test_each_row_tells_when_who_and_what_the_turn_came_to(record: Record) -> None:
    """So that it can be sorted and counted by itself, and what is void is seen to be."""
    left = [each for each in rows(record) if each["what"] == "as left"]
    found = [each for each in rows(record) if each["what"] == "as found"]
    assert {(each["person"], each["verdict"], each["stands"]) for each in left} == {
        ("B. Sample", "within", "yes")
    }
    assert all(each["stands"].startswith("voided by event") or each["stands"] == ""
               for each in found)  # fmt: skip
    assert Decimal(left[0]["judged"]) == Decimal(record.results[-1].figures["judged"])
    assert {each["marks"] for each in left} == {"NOT SIGNED: sign-on was off"}
    assert {each["unit"] for each in rows(record)} == {"in"}


def test_a_screw_s_value_and_what_it_came_to_stand_at_its_angle(record: Record) -> None:
    """Screw 3 of four is half a turn from screw 1."""
    at = [each for each in rows(record) if each["what"] == "at one screw"]
    assert [(each["read"], each["typed"], each["screw"], each["angle_deg"]) for each in at] == [
        ("at the one", "-0.0020", "3", "180"), ("came to", "-0.0011", "3", "180"),
    ]  # fmt: skip


def test_a_negative_reading_stays_a_number(record: Record) -> None:
    """No apostrophe, no gap: a spreadsheet adds it up."""
    negative = [each for each in rows(record) if each["typed"].startswith("-")]
    assert negative
    for each in negative:
        assert Decimal(each["typed"]) == Decimal(each["value"]) < 0


def test_it_is_as_the_rfc_has_it(record: Record) -> None:
    """CRLF after every row, the same number of fields in each, the heads first, no byte mark."""
    told = to_csv(record)
    assert told.endswith("\r\n")
    assert told.count("\n") == told.count("\r\n")
    assert told.splitlines()[0] == ",".join(COLUMNS)
    assert {len(row) for row in csv.reader(StringIO(told, newline=""))} == {len(COLUMNS)}


@pytest.mark.parametrize("formula", FORMULAS)
def test_nothing_typed_begins_a_formula(walked, store, formula: str) -> None:
    """As a name or as the name of a chuck, through the whole way."""
    record = record_of(walked(second=formula, events=19), store)
    chuck = Answer("chuck", "", visible(formula), "")
    record = replace(record, answers=(*record.answers, chuck))
    for row in rows(record):
        for cell in row.values():
            assert NUMBER.fullmatch(cell) or cell.lstrip()[:1] not in tuple("=+-@＝＋－＠|%")
    assert any(row["person"] == f"'{visible(formula)}" for row in rows(record))


@given(st.text())
def test_a_cell_is_a_number_or_begins_with_nothing_that_is_obeyed(text: str) -> None:
    """And what is harmless already is left as it is."""
    told = harmless(visible(text))
    assert told in (visible(text), f"'{visible(text)}")
    assert NUMBER.fullmatch(told) or told.lstrip()[:1] not in tuple("=+-@＝＋－＠|%") or not told


def test_without_readings_there_are_only_heads(record: Record) -> None:
    """An empty list is no error."""
    assert to_csv(replace(record, dials=())) == ",".join(COLUMNS) + "\r\n"
