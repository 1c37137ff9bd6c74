"""Signing on in lines: a PIN is shown nowhere, another's name takes another's PIN."""

from __future__ import annotations

import re
import time
from pathlib import Path
from typing import Any

from guide.journal.store import Store
from guide.records.evidence import faults

IDLE = """
import os
import guide.front.desk as desk, guide.linear.keys as linear_keys
linear_keys.TICK = 0.2
desk.Desk.idle = lambda self: 3600.0 if os.path.exists({away!r}) else 0.0
"""


def number(told: str, words: str) -> str:
    """The number that some words have in a list."""
    found = re.search(rf"^(\d+): {words}", told, re.M)
    assert found, told
    return found[1]


def begun(at: Any, pin: str) -> None:
    """A setup by the first person."""
    at.send(number(at.prompt(), "A. Sample"))
    at.send(pin)
    at.send("Lathe 2 (invented)")


def events(home: Path) -> list[Any]:
    """The events of the one setup, in which nothing is wrong."""
    with Store.read(home / "journal.sqlite3") as store:
        assert [each.says for each in faults(store)] == []
        return [*store.events(store.names()[0])]


def test_the_first_use_of_a_journal_and_no_pin_is_ever_shown(tmp_path, terminal, pin) -> None:
    """Twice typed, once mistyped, then signed on: neither what was written nor any file has it."""
    at = terminal(tmp_path, "start", "chuck-removal", "--plain", "--width", "0")
    assert "Who works here?" in at.prompt()
    at.send("1")
    at.send("A. Sample")
    at.send(pin)
    assert "The two PINs are not the same" in at.send("another one")
    at.send(pin)
    assert "Your name:" in at.send(pin)
    at.send("")
    assert "Wait 1 s, then type the PIN." in at.send("wrong one here")
    time.sleep(1.1)
    told = at.send(pin)
    assert "Which lathe is it?" in told
    at.send("Lathe 2")
    at.child.sendeof()
    at.end()
    assert pin not in at.all
    assert "wrong one here" not in at.all
    files = [each.read_bytes() for each in tmp_path.rglob("*") if each.is_file()]
    assert not [each for each in files if pin.encode() in each]
    assert events(tmp_path)[0].key


def test_whoever_works_alone_types_their_name_once(tmp_path, terminal) -> None:
    """At the very first use Enter alone takes it for the setup; the record has it."""
    at = terminal(tmp_path, "start", "chuck-removal", "--plain", "--width", "0")
    at.send(number(at.prompt(), "I work alone"))
    assert "Your name:" in at.send("A. Sample")
    assert "Which lathe is it?" in at.send("")
    at.send("Lathe 2")
    at.child.sendeof()
    at.end()
    assert events(tmp_path)[0].person == "A. Sample"


def test_a_gate_that_wants_a_witness_takes_the_second_persons_pin(
    shop, terminal, person, quick, pin
) -> None:
    """Nobody signs beside themselves: the one at the lathe is not offered; both sign the event."""
    home = shop(witness={"gate": "machinist"})
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0", before=quick)
    one = person(at, "chuck-removal-inch")
    begun(at, pin)
    one.to("lock-gate")
    while "Witness:" not in at.last:
        at.confirm()
    assert "A. Sample, machinist or above" in at.last
    assert "1: C. Sample" in at.last
    assert "B. Sample" not in at.last
    assert "That person's PIN" in at.send("1")
    assert "witnessed by C. Sample (machinist)" in at.send(pin)
    last = events(home)[-1]
    assert (last.kind, last.data["witness"]["person"]) == ("acknowledge", "C. Sample")
    assert pin not in at.all


def test_another_person_takes_over_with_a_pin_and_the_machine_is_made_sure_of(
    shop, terminal, person, quick, pin
) -> None:
    """From the list behind `*`; the first person's hand signs nothing more."""
    home = shop()
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0", before=quick)
    one = person(at, "chuck-removal-inch")
    begun(at, pin)
    one.to("stop-lathe")
    at.send(number(at.send("*"), "Another person"))
    at.send(number(at.last, "B. Sample"))
    assert "Make sure of the machine" in at.send(pin)
    assert events(home)[-1].person == "B. Sample"


def test_a_task_not_done_as_written_is_recorded_with_who_allowed_it(
    shop, terminal, person, quick, pin
) -> None:
    """A reason by number, a name, that person's PIN; it is read out that it was not done."""
    home = shop()
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0", before=quick)
    one = person(at, "chuck-removal-inch")
    begun(at, pin)
    one.to("stop-lathe")
    at.send(number(at.send("*"), "Record that this task"))
    at.send("1")
    at.send(number(at.last, "C. Sample"))
    assert "NOT DONE AS WRITTEN" in at.send(pin)
    last = events(home)[-1]
    assert (last.kind, last.data["allowed"]["person"]) == ("deviate", "C. Sample")


def test_who_is_away_is_signed_out_and_comes_back_to_the_same_question(
    shop, terminal, tmp_path, pin
) -> None:
    """After the shop's idle time, with nothing typed; what was answered on the page is kept."""
    home, away = shop(), tmp_path / "away"
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0",
                  before=f"exec({IDLE.format(away=str(away))!r})")  # fmt: skip
    begun(at, pin)
    at.send("")
    asked = at.last.splitlines()[-7:]
    away.touch()
    told = at.prompt()
    assert "A. Sample is signed out." in told
    away.unlink()
    at.send(number(told, "A. Sample"))
    assert at.send(pin).splitlines()[-3:] == asked[-3:]
    assert [each.kind for each in events(home)] == ["open"]
