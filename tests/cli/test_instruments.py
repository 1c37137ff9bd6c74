"""`instruments`: an indicator on a wire is set, tried out, listed and forgotten."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from guide.journal.store import Store
from guide.people.people import People
from guide.people.rules import Rules

NAME = "Indicator 3"


@pytest.fixture
def shop(call, home: Path) -> Callable[..., Any]:
    """Calls `instruments` in a shop that has one indicator and where nobody signs on."""
    with Store(home / "journal.sqlite3") as store:
        People(store).set_rules("A. Sample", Rules(sign_on=False), "2030-05-25T09:00:00.000Z")
    assert call("equipment", "add", "indicator", NAME, "--by", "A. Sample").code == 0
    return lambda *arguments: call("instruments", *arguments)


def listed(shop) -> list[dict[str, Any]]:
    """All that are set."""
    told: list[dict[str, Any]] = json.loads(shop("--json").out)["instruments"]
    return told


def test_one_is_set_listed_set_again_and_forgotten(shop) -> None:
    """Under the name that the equipment has, however it was typed."""
    assert "No indicator is set" in shop().out
    found = shop("set", "indicator  3", "--port", "/dev/ttyUSB0", "--unit", "mm",
                 "--decimal", "comma", "--ask", "R\\r", "--pattern", "01A{value}")  # fmt: skip
    assert (found.code, found.err) == (0, "")
    (kept,) = listed(shop)
    assert (kept["name"], kept["unit"], kept["speed"], kept["ask"]) == (NAME, "mm", 9600, "R\\r")
    assert "/dev/ttyUSB0, 9600 8N1, pattern 01A{value}, mm" in shop().out
    shop("set", NAME, "--port", "COM3", "--unit", "in", "--speed", "4800", "--json")
    assert [(each["port"], each["speed"]) for each in listed(shop)] == [("COM3", 4800)]
    assert "not read by wire any more" in shop("forget", NAME).out
    assert listed(shop) == []


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("set", "Indicator 9", "--port", "COM3", "--unit", "in"), "No indicator called"),
        (("set", NAME, "--port", "COM3", "--unit", "in", "--pattern", "(a+)+"), "{value}"),
        (("set", NAME, "--port", "COM3", "--unit", "in", "--format", "8X1"), "8N1"),
        (("set", NAME, "--port", "COM3", "--unit", "in", "--ask", "\\q"), "\\x1b"),
        (("set", NAME, "--port", "COM3", "--unit", "thou"), "thou"),
        (("forget", NAME), "`spindleside instruments` lists"),
        (("try", NAME), "No indicator called"),
    ],
)
def test_what_cannot_be_set_is_one_sentence(shop, arguments: tuple[str, ...], words: str) -> None:
    """And nothing is kept."""
    found = shop(*arguments)
    assert (found.code, len(found.err.splitlines())) == (2, 1)
    assert words in found.err
    assert listed(shop) == []


def sending(far: Any, data: bytes) -> None:
    """Send something from the indicator a moment later."""

    def later() -> None:
        time.sleep(0.4)
        far.sends(data)

    Thread(target=later).start()


def test_trying_shows_what_comes_and_how_it_is_understood(shop, indicator) -> None:
    """Values, what is past the range, what is not understood; in lines or as JSON."""
    far = indicator()
    shop("set", NAME, "--port", far.port, "--unit", "in", "--positive", "out")
    data = b"+0.0012\r0.4 mm\rOL\r\x1bwhat\r"
    sending(far, data)
    lines = shop("try", NAME, "--seconds", "1").out.splitlines()
    assert lines[1:] == ["-0.0012 in", "-0.4 mm", "OL: past its range, not taken",
                         "\\x1bwhat: not understood, not taken"]  # fmt: skip
    sending(far, data)
    lines = shop("try", NAME, "--seconds", "1", "--json").out.splitlines()
    told = [json.loads(each) for each in lines]
    assert told == [{"value": "-0.0012", "unit": "in"}, {"value": "-0.4", "unit": "mm"},
                    {"over": "OL"}, {"not_understood": "\\x1bwhat"}]  # fmt: skip


def test_trying_where_nothing_comes_or_no_port_is_says_so(shop, indicator) -> None:
    """A check that failed, and input that cannot be used."""
    shop("set", NAME, "--port", indicator().port, "--unit", "in")
    found = shop("try", NAME, "--seconds", "0.5")
    assert (found.code, "No value came from" in found.err) == (1, True)
    shop("set", NAME, "--port", "/dev/no-such-port", "--unit", "in")
    found = shop("try", NAME, "--seconds", "0.5")
    assert (found.code, "there is no port" in found.err) == (2, True)
