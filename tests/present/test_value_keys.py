"""A value that an instrument types, told from single keys by time."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present.gate_keys import QUIET
from guide.present.value_keys import END, OTHER, PART, TAIL, ValueKeys

VALUES = st.from_regex(r"\A *[-+]?[0-9]{1,2}[.,][0-9]{1,4}(mm|in)? *\Z")


@given(VALUES, st.sampled_from(["enter", "tab"]), st.floats(0, QUIET * 0.9))
def test_a_burst_is_one_value_with_an_end(value: str, end: str, gap: float) -> None:
    """Every key is part of it, whatever it would be alone, and the text is what was typed."""
    heard = ValueKeys()
    kinds = [heard.press(sign, at * gap) for at, sign in enumerate(value)]
    assert set(kinds) == {PART}
    assert heard.press(end, len(value) * gap) == END
    assert heard.text == value


@given(st.lists(st.tuples(VALUES, st.sampled_from(["enter", "tab"])), min_size=2, max_size=5))
def test_values_that_follow_each_other_at_once_are_kept_apart(values) -> None:
    """However fast they come."""
    heard, told = ValueKeys(), []
    for value, end in values:
        for sign in value:
            heard.press(sign, 1.0)
        assert heard.press(end, 1.0) == END
        told.append(heard.text)
    assert told == [value for value, _ in values]


@pytest.mark.parametrize("ends", [("tab", "enter"), ("enter", "enter"), ("enter", "tab")])
def test_a_second_end_right_behind_the_first_means_nothing(ends: tuple[str, str]) -> None:
    """An instrument may send two; later the same key is one of a person's."""
    heard = ValueKeys()
    for sign in "0.1":
        heard.press(sign, 0.0)
    assert [heard.press(end, 0.0) for end in ends] == [END, TAIL]
    assert heard.press("enter", QUIET) == OTHER


@pytest.mark.parametrize("key", ["enter", "tab", "f5", "down", "x"])
def test_keys_that_begin_no_value_have_nothing_to_do_with_one(key: str) -> None:
    """They keep their own meaning."""
    assert ValueKeys().press(key, 0.0) == OTHER


@pytest.mark.parametrize("key", ["2", " "])
def test_one_key_alone_may_still_be_a_key_of_its_own(key: str) -> None:
    """Until another comes within the gate's own time."""
    heard = ValueKeys()
    heard.press(key, 0.0)
    assert heard.lone
    heard.press("5", QUIET / 2)
    assert not heard.lone


def test_a_pause_ends_what_was_typed_unless_it_goes_on_by_hand() -> None:
    """A person types more slowly, on a line that shows what is there."""
    heard = ValueKeys()
    heard.press("1", 0.0)
    heard.press("2", 1.0, going_on=True)
    assert heard.text == "12"
    heard.press("3", 2.0)
    assert heard.text == "3"
