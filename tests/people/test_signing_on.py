"""PINs: which may be chosen, what a wrong one costs, and how fast anybody can guess."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

import guide
from guide.journal import keys
from guide.journal.store import Store
from guide.people.people import People
from guide.people.pin import chosen
from guide.people.waiting import LONGEST, delay_after, still_to_wait
from guide.plain import BadInput, NotAllowed

A, B = "A. Sample", "B. Sample"
RIGHT, WRONG = "nine wet boots", "ten dry boots"
REAL_COST = 2**16


@pytest.mark.parametrize(
    "pin",
    [
        "", "12345", "abcde", "111111", "aaaaaaaa", "123456", "654321", "abcdef", "      ",
        "12345\n", "123\x00567", "abc\x1b[2", "123456789", "\u202e135790",
    ],
)  # fmt: skip
def test_a_pin_that_would_be_guessed_first_or_cannot_be_typed_is_refused(pin: str) -> None:
    """Too short, all alike, in a row, or with signs that are not seen; the PIN is not repeated."""
    with pytest.raises(BadInput) as refused:
        chosen(pin)
    assert not pin.strip() or pin not in str(refused.value)


@pytest.mark.parametrize("pin", ["135790", "121212", "passphrase of words", "äöü123", "xy" * 250])
def test_any_other_is_taken_as_it_is(pin: str) -> None:
    """Nothing is cut off and no sort of sign is asked for."""
    assert chosen(pin) == pin


def test_however_an_accent_is_typed_it_is_the_same_pin(shop) -> None:
    """One sign, or a letter and a sign above it."""
    shop.people.new_pin(shop.hands[B], "caf\u00e9 at noon", shop.at())
    assert shop.people.sign_on(B, "cafe\u0301 at noon", shop.at()).name == B


def test_spaces_and_case_of_a_pin_count(shop) -> None:
    """It is no name."""
    for hour, pin in enumerate((f" {RIGHT}", RIGHT.upper()), start=9):
        with pytest.raises(NotAllowed, match="not the PIN"):
            shop.people.sign_on(B, pin, shop.at(hour))


def test_nobody_who_is_not_on_record_signs_on(shop) -> None:
    """The sentence says who lists them; nothing is written."""
    before = shop.people.roster().sequence
    with pytest.raises(BadInput, match=r"nobody called Z\. Sample"):
        shop.people.sign_on("Z. Sample", RIGHT, shop.at())
    assert shop.people.roster().sequence == before


def test_delays_are_those_that_are_told() -> None:
    """Nothing before the first, then 1 s, twice as much each time, a quarter of an hour at most."""
    assert [delay_after(n) for n in range(13)] == [
        0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900
    ]  # fmt: skip
    assert delay_after(10**9) == LONGEST == 900


@given(st.integers(1, 40), st.integers(0, 2000))
def test_the_wait_runs_down_by_the_clock_and_never_below_nothing(wrong: int, passed: int) -> None:
    """And a process that says it waited gains nothing by it while the clock goes on."""
    now = f"2031-03-02T08:{passed // 60:02}:{passed % 60:02}.000Z"
    left = still_to_wait(wrong, "2031-03-02T08:00:00.000Z", now)
    assert left == max(delay_after(wrong) - passed, 0)
    assert still_to_wait(wrong, "2031-03-02T08:00:00.000Z", now, 1e9) == left


@given(st.integers(1, 40), st.integers(1, 10**6), st.floats(0, 2000))
def test_a_clock_that_was_set_back_starts_the_wait_anew(
    wrong: int, back: int, waited: float
) -> None:
    """Then what the process itself waited counts, else nobody could sign on for years."""
    now, last = "2031-03-02T08:00:00.000Z", f"{2032 + back % 60}-03-02T08:00:00.000Z"
    assert still_to_wait(wrong, last, now) == delay_after(wrong)
    assert still_to_wait(wrong, last, now, waited) == max(delay_after(wrong) - waited, 0)


def wrong(people: People, at: str, name: str = B) -> str:
    """A wrong PIN; gives the sentence."""
    with pytest.raises(NotAllowed) as refused:
        people.sign_on(name, WRONG, at)
    return str(refused.value)


def test_wrong_pins_are_written_down_and_each_costs_twice_the_wait(shop) -> None:
    """The wait is told; one tried too soon is not tried and not written."""
    second = 0
    for count in range(1, 8):
        now = shop.at(9, second // 60, second % 60)
        assert f"tried again in {2 ** (count - 1)} s" in wrong(shop.people, now)
        assert shop.people.roster().tries[B.casefold()].count == count
        sequence = shop.people.roster().sequence
        too_soon = second + 2 ** (count - 1) - 1
        said = shop.at(9, too_soon // 60, too_soon % 60, 500)
        with pytest.raises(NotAllowed, match="can be tried again in 1 s"):
            shop.people.sign_on(B, RIGHT, said)
        assert shop.people.roster().sequence == sequence
        second += 2 ** (count - 1)


def test_the_right_pin_after_the_wait_forgives_and_is_written(shop, store) -> None:
    """The next wrong one costs a second again."""
    wrong(shop.people, shop.at(9))
    wrong(shop.people, shop.at(9, 0, 1))
    assert shop.people.sign_on(B, RIGHT, shop.at(9, 0, 3)).name == B
    assert store.events("people")[-1].kind == "let-in"
    assert shop.people.roster().tries == {}
    assert "tried again in 1 s" in wrong(shop.people, shop.at(9, 1))


def test_one_who_signs_on_at_once_leaves_no_event(shop) -> None:
    """Nothing was amiss."""
    before = shop.people.roster().sequence
    shop.people.sign_on(B, RIGHT, shop.at(9))
    assert shop.people.roster().sequence == before


def test_wrong_pins_of_one_do_not_keep_another_waiting(shop) -> None:
    """Nobody can lock the whole shop out."""
    wrong(shop.people, shop.at(9))
    assert shop.people.sign_on(A, "four tin horses", shop.at(9)).name == A


def test_the_wait_is_still_there_in_a_new_process(shop, file: Path, store) -> None:
    """It is in the journal: closing the program and starting it again gains nothing."""
    for second in (0, 1, 3):
        wrong(shop.people, shop.at(9, 0, second))
    store.close()
    with Store(file) as again, pytest.raises(NotAllowed, match="again in 3 s"):
        People(again).sign_on(B, RIGHT, shop.at(9, 0, 4))


def test_a_clock_set_back_is_no_way_round_and_no_lock_for_ever(shop) -> None:
    """The whole wait anew; a process that waited it is let in."""
    for second in (0, 1, 3):
        wrong(shop.people, shop.at(9, 0, second))
    for waited in (0.0, 3.9):
        with pytest.raises(NotAllowed, match="can be tried again"):
            shop.people.sign_on(B, RIGHT, shop.at(8), waited)
    assert shop.people.sign_on(B, RIGHT, shop.at(8), 4.0).name == B


def test_having_waited_elsewhere_gains_no_try_while_the_clock_goes_on(shop) -> None:
    """Ten programs that each waited would else each have a try."""
    for second in (0, 1, 3):
        wrong(shop.people, shop.at(9, 0, second))
    with pytest.raises(NotAllowed, match="can be tried again"):
        shop.people.sign_on(B, RIGHT, shop.at(9, 0, 4), 900.0)


def test_a_supervisor_lets_somebody_in_with_a_new_key(shop) -> None:
    """Wrong PINs are forgotten with the key that they were tried on."""
    wrong(shop.people, shop.at(9))
    shop.people.new_key(shop.hands[A], B, "six blue plates", shop.at(9))
    assert shop.people.sign_on(B, "six blue plates", shop.at(9)).name == B


TRYING = """
import sys
from pathlib import Path
from guide.journal.store import Store
from guide.people.people import People
from guide.plain import NotAllowed
with Store(Path(sys.argv[1])) as store:
    print("ready", flush=True)
    sys.stdin.readline()
    for number in range(6):
        try:
            pin, at = f"ten dry boots {number}", "2031-03-02T09:00:00.000Z"
            People(store).sign_on("B. Sample", pin, at)
        except NotAllowed as refused:
            print("tried" if "not the PIN" in str(refused) else "held off", flush=True)
"""
"""Another process that tries PINs as fast as it can, all at one time of day."""


def test_two_programs_at_once_have_one_try_between_them(shop, file: Path) -> None:
    """One is held off while the other tries; then both wait. One wrong PIN is on record."""
    environment = os.environ | {"PYTHONPATH": str(Path(guide.__file__).parents[1])}
    command = [sys.executable, "-c", TRYING, str(file)]
    pipe = subprocess.PIPE
    both = [
        subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, env=environment)
        for _ in range(2)
    ]
    for each in both:
        assert each.stdout is not None
        assert each.stdout.readline() == "ready\n"
    for each in both:
        assert each.stdin is not None
        each.stdin.write("go\n")
        each.stdin.flush()
    said = [line for each in both for line in each.communicate(timeout=30)[0].splitlines()]
    assert (said.count("tried"), said.count("held off")) == (1, 11)
    assert shop.people.roster().tries[B.casefold()].count == 1


def test_while_one_pin_is_tried_another_is_held_off(shop, store) -> None:
    """The lock is the operating system's and is gone with its process."""
    with store.hold("people", shop.at()), pytest.raises(NotAllowed, match="open elsewhere"):
        shop.people.sign_on(B, RIGHT, shop.at())
    assert shop.people.sign_on(B, RIGHT, shop.at()).name == B


def guesses_in(seconds: int) -> int:
    """How many PINs of one person can be tried in a time, from `delay_after` alone."""
    tried = spent = 0
    while spent <= seconds:
        tried += 1
        spent += delay_after(tried)
    return tried


def test_at_the_program_a_pin_of_six_digits_takes_decades() -> None:
    """Four guesses an hour at the cap: a million takes 28 years, half of them 14."""
    at_the_cap = 3600 / LONGEST
    years = 10**6 / at_the_cap / 24 / 365.25
    assert at_the_cap == 4
    assert 28 < years < 29
    assert guesses_in(3600) == 13
    assert guesses_in(86400) == 105
    assert guesses_in(365 * 86400) < 36_000


def test_with_the_file_a_try_costs_what_scrypt_costs(monkeypatch: pytest.MonkeyPatch) -> None:
    """At the real cost a try takes 30 ms at the very least, so that a core needs many hours.

    `tests/studies/pins.py` measures it; six digits do not hold for long against the file.
    """
    monkeypatch.setattr(keys, "COST", REAL_COST)
    seed = keys.new_seed()
    seal = keys.sealed(seed, RIGHT)
    began = perf_counter()
    assert keys.unsealed(seal, WRONG) is None
    seconds = perf_counter() - began
    assert json.loads(seal)["n"] == REAL_COST
    assert seconds >= 0.03


def test_the_real_cost_is_the_one_that_was_measured() -> None:
    """Read from the module's text, as every test here lowers it."""
    text = Path(str(keys.__file__)).read_text(encoding="utf-8")
    assert "COST = 2**16\n" in text
