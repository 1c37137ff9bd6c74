"""Attacks on a gate in lines, with its real times: nothing but a person's own number opens it."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from typing import Any

import pytest

from guide.journal.store import Store

GATE = "lock-gate"
QUIET = 0.35
"""A little more than the screens' own quiet time."""


@pytest.fixture
def gate(home, terminal, person) -> Any:
    """Somebody in front of the first check of a gate."""
    at = terminal(home, "start", "chuck-removal", "--plain")
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to(GATE)
    assert "Check 1 of" in at.last
    return one


@pytest.fixture
def acknowledged(home) -> Callable[[], list[str]]:
    """The gates that the journal has as acknowledged."""

    def steps() -> list[str]:
        with Store.read(home / "journal.sqlite3") as store:
            return [each.step for each in store.events(store.names()[0])
                    if each.kind == "acknowledge"]  # fmt: skip

    return steps


def later(at: Any, text: str) -> str:
    """A line typed once a person could have looked."""
    time.sleep(QUIET)
    return at.send(text)


def test_no_value_no_row_of_numbers_and_no_word_confirms_a_check(gate, acknowledged) -> None:
    """It is named, nothing is confirmed, and what begins with a figure locks the gate."""
    for text in ("2", "0.0012", "+1.2", "-0.0005 in", "1 2 3", "0012", "yes"):
        told = later(gate.at, text)
        assert f"“{text}” is not the number of this check" in told
        assert "Confirmed" not in told
        if text != "yes":
            assert "Type / and Enter" in told
            told = gate.at.send("/")
        assert "Check 1 of" in told
    assert acknowledged() == []


def test_enter_alone_confirms_nothing_however_often(gate, acknowledged) -> None:
    """The same number still counts afterwards, since a blank line guesses nothing."""
    code = gate.at.code()
    for _ in range(3):
        assert "Enter alone confirms nothing" in later(gate.at, "")
    assert "Confirmed" in later(gate.at, code)
    assert acknowledged() == []


def test_a_locked_gate_takes_nothing_but_the_sign_that_no_instrument_types(gate) -> None:
    """The right number, sent after a wrong one, counts no more; the check gets a new one."""
    code = gate.at.code()
    later(gate.at, "0.0012")
    for text in (code, "0.0013", ""):
        told = later(gate.at, text)
        assert "Confirmed" not in told
        assert "Check 1" not in told
    later(gate.at, "/")
    assert gate.at.code() != code


def test_what_was_typed_before_a_check_was_read_out_is_thrown_away(gate, acknowledged) -> None:
    """Numbers typed ahead while the first check is being confirmed undo it and open nothing."""
    at = gate.at
    time.sleep(QUIET)
    at.child.send(f"{at.code()}\r")
    time.sleep(0.1)
    at.child.send("".join(f"{number}\r" for number in range(1, 10)))
    told = at.prompt()
    assert "did not come alone" in told
    assert "Confirmed" not in told
    assert acknowledged() == []


def test_all_numbers_pasted_at_once_confirm_nothing(gate, acknowledged) -> None:
    """The right number among them: it came with others, so it was not a person's."""
    told = later(gate.at, f"{gate.at.code()}\r1\r2\r3")
    assert "did not come alone" in told
    assert "Check 1 of" in told
    assert acknowledged() == []


def test_a_line_faster_than_anybody_looks_confirms_nothing(gate) -> None:
    """The right number, at the moment in which it is read out."""
    told = gate.at.send(gate.at.code())
    assert "came as fast as no one looks" in told
    assert "Check 1 of" in told


def test_an_instrument_that_types_on_and_on_opens_no_gate(gate, acknowledged) -> None:
    """Bare values of three digits, one after the other: one try, then the gate is locked."""
    tried = [str(number) for number in range(411, 417) if str(number) != gate.at.code()]
    for number in tried:
        told = later(gate.at, number)
    assert "Type / and Enter" in told
    assert "is not the number" not in told
    assert acknowledged() == []


def test_zero_takes_all_back_and_every_number_is_new_each_time(gate) -> None:
    """Three readings of one check have three numbers, of three digits without a zero."""
    at, codes = gate.at, []
    for _ in range(3):
        codes.append(at.code())
        assert "taken back" in later(at, "0")
    assert len({*codes}) == 3
    assert all(re.fullmatch(r"[1-9]{3}", each) for each in codes)


def test_a_person_opens_it(gate, acknowledged) -> None:
    """Each check by the number that was told, alone, a moment after it was read out."""
    while "Check" in gate.at.last:
        assert "Confirmed" in later(gate.at, gate.at.code())
    assert acknowledged() == [GATE]


def test_a_gate_is_asked_for_the_whole_list_behind_the_star(gate, acknowledged) -> None:
    """`*` and back again reads the check out anew; what is listed names no way past the gate."""
    told = later(gate.at, "*")
    assert "not done as written" not in told
    assert "Check 1 of" in later(gate.at, "/")
    assert acknowledged() == []
