"""`people`: who may sign, changed by supervisors, with PINs that are never shown."""

from __future__ import annotations

import io
import json
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest

import guide
from guide.journal import keys
from guide.journal.store import Store
from guide.people.people import People

A, B = "A. Sample", "B. Sample"
PIN, OTHER, THIRD = "four tin horses", "nine wet boots", "six blue plates"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keys, "COST", 2**10)


@pytest.fixture
def people(call, monkeypatch: pytest.MonkeyPatch) -> Callable[..., object]:
    """Calls `people` with lines of standard input."""

    def with_lines(*arguments: object, lines: tuple[str, ...] = ()) -> object:
        monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
        return call("people", *arguments)

    return with_lines


@pytest.fixture
def shop(people) -> None:
    """A. Sample is a supervisor, B. Sample a machinist."""
    assert people("first", A, lines=(PIN, PIN)).code == 0
    assert people("add", B, "--role", "machinist", "--by", A, lines=(PIN, OTHER, OTHER)).code == 0


def roster(home: Path) -> object:
    """Everybody, from the journal itself."""
    with Store.read(home / "journal.sqlite3") as store:
        return People(store).roster()


def test_where_there_is_no_journal_nobody_is_listed_and_none_is_made(people, home: Path) -> None:
    """Listing reads only."""
    said = people()
    assert (said.code, said.err) == (0, "")
    assert "Nobody is on record yet." in said.out
    assert not home.exists()


def test_everybody_is_listed_with_role_day_and_key(people, shop, home: Path) -> None:
    """In words, and as JSON keys."""
    said = people()
    known = roster(home)
    for name, role in ((A, "supervisor"), (B, "machinist")):
        assert f"{name}, {role}, since 20" in said.out
        assert known.find(name).key in said.out
    answer = json.loads(people("--json").out)
    assert [each["name"] for each in answer["people"]] == [A, B]
    assert answer["rules"] == {"sign_on": True, "idle_minutes": 15, "witness": {}}
    assert answer["people"][0]["retired"] is None


def test_no_pin_and_no_private_key_is_ever_shown(people, home: Path) -> None:
    """Neither on standard output nor on standard error, right or wrong."""
    said = [
        people("first", A, lines=(PIN, PIN)),
        people("add", B, "--role", "machinist", "--by", A, lines=(PIN, OTHER, OTHER)),
        people("retire", B, "--by", A, lines=(THIRD,)),
        people("retire", B, "--by", A, lines=(PIN, PIN)),
        people("--json"),
    ]
    for each in said:
        assert not any(pin in each.out + each.err for pin in (PIN, OTHER, THIRD))


def test_two_pins_that_differ_change_nothing(people, shop, home: Path) -> None:
    """Exit 2."""
    said = people("new-pin", B, lines=(OTHER, THIRD, "six blue plate"))
    assert (said.code, said.out, said.in_one_sentence) == (2, "", True)
    assert people("new-pin", B, lines=(OTHER, THIRD, THIRD)).code == 0


@pytest.mark.parametrize("lines", [(), (PIN,), (PIN, OTHER)])
def test_a_pin_that_does_not_come_is_bad_input(people, shop, lines: tuple[str, ...]) -> None:
    """Standard input ended."""
    said = people("add", "C. Sample", "--role", "apprentice", "--by", A, lines=lines)
    assert (said.code, said.out, said.in_one_sentence) == (2, "", True)


def test_a_wrong_pin_is_not_allowed_and_the_next_has_to_wait(people, shop, home: Path) -> None:
    """Exit 1, and the right one is refused too until the wait is over."""
    said = people("retire", B, "--by", A, lines=(THIRD,))
    assert (said.code, said.in_one_sentence) == (1, True)
    assert "on record" in said.err
    soon = people("retire", B, "--by", A, lines=(PIN,))
    assert (soon.code, "can be tried again in 1 s" in soon.err) == (1, True)
    assert roster(home).find(B).active


def test_after_a_clock_that_was_set_back_the_program_waits_itself(
    people, shop, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody typed a wrong PIN while the clock stood in another century: nobody is locked out."""
    slept: list[float] = []
    monkeypatch.setattr("time.sleep", slept.append)
    with Store(home / "journal.sqlite3") as store, pytest.raises(Exception, match="not the PIN"):
        People(store).sign_on(A, THIRD, "2131-03-02T08:00:00.000Z")
    said = people("retire", B, "--by", A, lines=(PIN,))
    assert (said.code, slept) == (0, [1.0])
    assert said.err == "The clock was set back; waiting for 1 s.\n"


def test_only_a_supervisor_adds_retires_and_rules(people, shop, home: Path) -> None:
    """A machinist's right PIN is not enough; exit 1."""
    before = roster(home)
    for arguments, lines in (
        (("add", "C. Sample", "--role", "supervisor", "--by", B), (OTHER, THIRD, THIRD)),
        (("retire", A, "--by", B), (OTHER,)),
        (("role", B, "supervisor", "--by", B), (OTHER,)),
        (("new-key", A, "--by", B), (OTHER, THIRD, THIRD)),
        (("rules", "--sign-on", "off", "--by", B), (OTHER,)),
        (("retire", A, "--by", A), (PIN,)),
    ):
        said = people(*arguments, lines=lines)
        assert (said.code, said.out, said.in_one_sentence) == (1, "", True), arguments
    assert roster(home) == before


def test_a_person_through_all_that_can_happen(people, shop, home: Path) -> None:
    """Role, new key, retirement; each time they are told as they are now."""
    assert "B. Sample, apprentice" in people("role", B, "apprentice", "--by", A, lines=(PIN,)).out
    key = roster(home).find(B).key
    said = people("new-key", B, "--by", A, lines=(PIN, THIRD, THIRD))
    assert roster(home).find(B).key != key
    assert roster(home).find(B).key in said.out
    assert "retired 20" in people("retire", B, "--by", A, lines=(PIN,)).out
    assert "retired 20" in people().out


def test_rules_are_changed_one_by_one(people, shop) -> None:
    """What is not named stays."""
    people("rules", "--witness", "gate=supervisor", "--idle", "10", "--by", A, lines=(PIN,))
    said = people("rules", "--witness", "verdict=machinist", "--by", A, lines=(PIN,))
    assert "Signed off after 10 idle minutes." in said.out
    rules = json.loads(people("--json").out)["rules"]
    assert rules["witness"] == {"gate": "supervisor", "verdict": "machinist"}
    people("rules", "--witness", "gate=none", "--by", A, lines=(PIN,))
    assert json.loads(people("--json").out)["rules"]["witness"] == {"verdict": "machinist"}


@pytest.mark.parametrize(
    "witness", ["gate", "gate=boss", "task=machinist", "\x1b[2J=machinist", "="]
)
def test_what_can_be_no_rule_is_bad_input(people, shop, witness: str) -> None:
    """Exit 2, one sentence, and nothing steers the terminal."""
    said = people("rules", "--witness", witness, "--by", A, lines=(PIN,))
    assert (said.code, said.out, said.in_one_sentence) == (2, "", True)
    assert "\x1b" not in said.err


def test_somebody_alone_turns_sign_on_off_with_one_command(people, home: Path) -> None:
    """No PIN is asked, and the listing says that nothing is signed."""
    said = people("rules", "--sign-on", "off", "--by", A)
    assert said.code == 0
    assert "NOT SIGNED" in said.out
    assert "NOT SIGNED" in people().out


@pytest.mark.parametrize(
    "name", ["", " ", "\x1b[2J", "A\u202eB", "A\u200bB", "x" * 81, "x" * 10_000, "\udcff", "\x00"]
)
def test_what_can_be_no_name_is_bad_input(people, shop, name: str) -> None:
    """Exit 2, one sentence of a length that can be read, nothing that steers a terminal."""
    for said in (
        people("add", name, "--role", "apprentice", "--by", A, lines=(PIN, THIRD, THIRD)),
        people("retire", name, "--by", A, lines=(PIN,)),
        people("new-pin", name, lines=(PIN, THIRD, THIRD)),
        people("role", "C. Sample", "machinist", "--by", name, lines=(PIN,)),
    ):
        assert (said.code, said.out, said.in_one_sentence) == (2, "", True)
        assert not any(sign in said.err for sign in ("\x1b", "\u202e", "\u200b", "\x00"))
        assert len(said.err) < 300


@pytest.mark.parametrize(
    "name",
    ["[bold red]A[/]", "<script>x</script>", "=cmd|'/c'!A0", "-x", "{name}", "%(x)s", "$(x)"],
)
def test_odd_names_are_only_signs(people, shop, name: str) -> None:
    """Kept, listed and found as they were typed."""
    option = ("--role", "apprentice", "--by", A, "--", name)
    assert people("add", *option, lines=(PIN, THIRD, THIRD)).code == 0
    assert f"{name}, apprentice" in people().out
    assert name in [each["name"] for each in json.loads(people("--json").out)["people"]]
    assert people("retire", "--by", A, "--", name, lines=(PIN,)).code == 0


def test_a_changed_people_chain_is_said_in_one_sentence(people, shop, home: Path, sql) -> None:
    """No traceback where an event cannot be read."""
    with sql(home / "journal.sqlite3") as base:
        base.execute("UPDATE event SET body = '[' WHERE setup = 'people' AND sequence = 2")
    for said in (people(), people("retire", B, "--by", A, lines=(PIN,))):
        assert (said.out, said.in_one_sentence) == ("", True)
        assert said.code in (1, 2)


def test_at_a_terminal_a_pin_is_asked_for_unseen(home: Path) -> None:
    """Typed twice; it does not come back."""
    environment = os.environ | {
        "PYTHONPATH": str(Path(guide.__file__).parents[1]),
        "SPINDLESIDE_HOME": str(home),
    }
    program = (
        "from guide.journal import keys; keys.COST = 2**10; from guide.cli.main import run; run()"
    )
    child = pexpect.spawn(
        sys.executable, ["-c", program, "people", "first", A],
        env=environment, encoding="utf-8", timeout=20,
    )  # fmt: skip
    child.expect("New PIN or passphrase")
    child.waitnoecho()
    child.sendline(PIN)
    child.expect("The same again")
    child.waitnoecho()
    child.sendline(PIN)
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    assert PIN not in (child.before or "")
    assert roster(home).find(A).active
