"""What is written: wrapped or never, in ASCII where the terminal has no more, nothing it obeys."""

from __future__ import annotations

import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.front.questions import keys_of
from guide.linear.lines import NARROWEST, SPELLED, Lines, in_ascii


@given(st.text())
def test_ascii_is_ascii_whatever_comes(text: str) -> None:
    """No sign is an error, and none is left."""
    assert in_ascii(text).isascii()


def test_signs_of_the_trade_are_spelled_and_not_dropped() -> None:
    """Degrees, plus-minus, micrometres, dashes and the centred point of a torque."""
    assert in_ascii("5° ± 2 µm – 33 N·m") == "5 deg +/- 2 um - 33 N.m"
    assert all(each.isascii() for each in SPELLED.values())


@given(st.text(), st.integers(0, 120))
def test_nothing_is_written_that_a_terminal_obeys(text: str, width: int) -> None:
    """Controls, direction marks and escapes are spelled as their numbers."""
    out = io.StringIO()
    Lines(out, width).tell(text)
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", out.getvalue())


@given(st.text("ab ", min_size=0, max_size=400), st.integers(NARROWEST, 120))
def test_no_line_is_wider_than_the_width(text: str, width: int) -> None:
    """Words are never cut unless one alone is wider; what is said stays the same."""
    out = io.StringIO()
    Lines(out, width).tell(text)
    assert all(len(line) <= width for line in out.getvalue().splitlines())
    assert "".join(out.getvalue().split()) == "".join(text.split())


@given(st.text("ab ", max_size=400))
def test_width_nothing_never_wraps(text: str) -> None:
    """A paragraph is one line, however long."""
    out = io.StringIO()
    Lines(out, 0).tell(text)
    assert out.getvalue().count("\n") == 1


@pytest.mark.parametrize(
    ("values", "keys"),
    [
        (["3", "4", "6"], ["3", "4", "6"]),
        (["in", "mm"], ["1", "2"]),
        (["3", "6", "unknown"], ["3", "6", "."]),
        (["3", "6", "other"], ["3", "6", "0"]),
        (["1", "3", "x", "y"], ["1", "2", "3", "4"]),
        (["4", "12"], ["4", "12"]),
    ],
)
def test_answers_that_are_numbers_are_typed_as_themselves(values, keys) -> None:
    """So that “3 screws” is never the third of some answers."""
    assert list(keys_of(values)) == keys
