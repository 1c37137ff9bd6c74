"""A burst of keys is a value only if every key comes close behind the one before and Enter ends it.

The gap between keys of an instrument and of hands: common practice, no source.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present.bursts import GAP, LONGEST, Bursts, is_value

VALUES = ("0.0012", "-0.0004", "+ 0.0009", "0,012", "0.0012-", "-.0021in", '.0001"', "0.4 mm", "7")


def keys(text: str, end: str = "enter") -> list[str]:
    """The signs of a text and the key behind it."""
    return [*text, end]


def passed(pressed: list[str], gaps: list[float]) -> tuple[list[str], list[str]]:
    """What went on its way, and which values were stopped, when each key came so long after."""
    bursts: Bursts[str] = Bursts()
    at, out, values = 0.0, [], []
    for key, gap in zip(pressed, gaps, strict=True):
        at += gap
        out += bursts.press(key, at, key)
        values += [bursts.value] if bursts.value else []
    return [*out, *bursts.settle(at + 1)], values


@pytest.mark.parametrize("text", VALUES)
@pytest.mark.parametrize("end", ["enter", "tab", "ctrl+j"])
def test_a_value_in_one_burst_goes_nowhere(text: str, end: str) -> None:
    """Not one key of it, and it is told once; a second end close behind goes nowhere either."""
    pressed = [*keys(text, end), "ctrl+j"]
    assert passed(pressed, [0.01] * len(pressed)) == ([], [text])


@pytest.mark.parametrize("text", VALUES)
def test_the_same_keys_from_a_hand_all_go_on_their_way(text: str) -> None:
    """In their order, whether or not the value is the same."""
    pressed = keys(text)
    assert passed(pressed, [GAP + 0.005] * len(pressed)) == (pressed, [])


@pytest.mark.parametrize("text", ["Lathe 2", "D1-6", "shaft 12, 40 mm", "2031-01-31", "n", "1 3/8"])
def test_text_that_is_no_value_goes_on_its_way_however_fast(text: str) -> None:
    """Names and dates that were pasted key by key."""
    pressed = keys(text)
    assert passed(pressed, [0.001] * len(pressed)) == (pressed, [])


def test_a_number_that_is_pasted_without_an_end_goes_on_its_way() -> None:
    """A moment later."""
    assert passed([*"0.001 in"], [0.001] * 8) == ([*"0.001 in"], [])


def test_one_slow_key_makes_it_a_hand_s() -> None:
    """What came before the pause was typed by somebody, and so is what came behind it."""
    pressed = keys("0.001")
    slow_end = [0.01] * 5 + [GAP * 2]
    assert passed(pressed, slow_end) == (pressed, [])


def test_a_key_waits_no_longer_than_the_gap() -> None:
    """A single digit chooses an answer a moment later."""
    bursts: Bursts[str] = Bursts()
    assert bursts.press("1", 5.0, "1") == []
    assert bursts.settle(5.0 + GAP - 0.001) == []
    assert bursts.settle(5.0 + GAP + 0.001) == ["1"]
    assert not bursts.waiting


def test_a_key_that_is_held_down_is_let_go_at_last() -> None:
    """Nothing grows without end."""
    bursts: Bursts[str] = Bursts()
    out = [each for n in range(1000) for each in bursts.press("1", n * 0.01, "1")]
    assert len(out) >= 1000 - LONGEST - 1


@given(
    st.lists(st.sampled_from([*'0123456789+-., inmab"', "enter", "tab", "up"]), max_size=40),
    st.data(),
)
def test_no_key_is_lost_or_doubled_but_those_of_values(pressed: list[str], data: st.DataObject):
    """What goes on its way is the keys in their order, less whole values and their ends."""
    gaps = data.draw(st.lists(st.sampled_from([0.001, 0.029, 0.031, 0.5]), min_size=len(pressed),
                              max_size=len(pressed)))  # fmt: skip
    out, values = passed(pressed, gaps)
    rest = iter(pressed)
    assert all(each in rest for each in out)
    assert all(is_value(each) for each in values)
    if not values:
        assert out == pressed
