"""Why a key at a gate did not count, with a clock made of numbers; nothing counts because of it."""

from __future__ import annotations

import pytest

from guide.present.gate_keys import QUIET
from guide.present.gate_said import ENTER, NONE, TOGETHER, Ignored


def told(*keys: tuple[float, str], checks: int = 3) -> list[str]:
    """What is said of keys, looked at before each and long after the last."""
    heard, said = Ignored(checks), []
    for at, key in keys:
        said.append(heard.why(at))
        heard.press(key, at)
    return [each for each in (*said, heard.why(keys[-1][0] + 60)) if each]


@pytest.mark.parametrize("gap", [0.005, 0.1, QUIET - 0.01])
def test_two_numbers_that_came_together_are_said_not_to_count(gap: float) -> None:
    """Once for both, however near they came."""
    assert told((0.0, "1"), (gap, "2")) == [TOGETHER]


def test_a_number_beside_any_other_key_is_said_not_to_count() -> None:
    """Turning the page on and confirming at once confirms nothing."""
    assert told((0.0, "plus"), (0.1, "1")) == [TOGETHER]


def test_enter_is_said_to_confirm_nothing() -> None:
    """Alone, and held down."""
    assert told((0.0, "enter")) == [ENTER]
    assert told((0.0, "enter"), (0.03, "enter"), (0.06, "enter")) == [ENTER]


def test_a_number_that_no_check_has_is_said_to_have_none() -> None:
    """But not the one that takes all back."""
    assert told((0.0, "4")) == [NONE]
    assert told((0.0, "0")) == []


def test_what_counted_is_not_spoken_of() -> None:
    """Each alone, and keys that are for no check."""
    assert told((0.0, "1"), (QUIET, "2"), (1.0, "plus"), (1.1, "plus")) == []


def test_of_an_instruments_value_nothing_is_said_here() -> None:
    """It is said of the whole value that it was not taken."""
    keys = [(place * 0.002, each) for place, each in enumerate([*"0.0012", "enter"])]
    assert told(*keys) == []


def test_nothing_is_said_before_the_keys_lie_back() -> None:
    """While another one may still belong to them."""
    heard = Ignored(3)
    heard.press("1", 0.0)
    heard.press("2", 0.1)
    assert heard.why(0.1 + QUIET - 0.01) == ""
    assert heard.why(0.1 + QUIET) == TOGETHER
    assert heard.why(60.0) == ""
