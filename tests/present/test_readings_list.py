"""The list of the readings of a turn."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.present.readings_list import aligned, in_columns

ENTRIES = st.lists(st.from_regex(r"\A[0-9]{1,8}\Z"), max_size=13)


@given(ENTRIES, st.integers(10, 120), st.integers(0, 13))
def test_every_reading_is_listed_once_and_none_is_cut(entries, width, places) -> None:
    """Down the columns in their order."""
    lines = in_columns(entries, width, places)
    columns = [line.split() for line in lines]
    most = max(map(len, columns), default=0)
    told = [line[n] for n in range(most) for line in columns if n < len(line)]
    assert told == entries


@given(ENTRIES, st.integers(10, 120))
def test_no_line_is_wider_than_the_page(entries, width) -> None:
    """At any width that holds one reading."""
    assert max(map(len, in_columns(entries, width))) <= width


def test_nothing_moves_while_readings_come() -> None:
    """There are as many lines for one reading as for all of them."""
    entry = ("0°", "screw 1", "0.0000")
    alone, full = aligned([entry]), aligned([entry] * 8)
    assert len(in_columns(alone, 72, 8)) == len(in_columns(full, 72, 8)) == 3
