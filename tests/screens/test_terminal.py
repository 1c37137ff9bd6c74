"""A removal walked in a real terminal of the smallest size, by keys, by what can be read on it."""

from __future__ import annotations

import os
import re
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pexpect
import pyte
import pytest

from guide.journal.store import Store
from guide.present.questions import ANSWERS, ASKS
from guide.procedure.shelf import find

LINES, COLUMNS = 24, 80
PROGRAM = "from guide.cli.main import run; run(['start', 'chuck-removal'])"
TOLD = {
    "lathe": "Lathe 2 (invented)", "nose": "camlock", "nose-size": "D1-6", "guard-fitted": "yes",
    "on-nose": "this-chuck", "take-off": "whole", "mass": "50 lb", "help": "alone",
    "hoist": "no", "lift-way": "cradle", "support-turns": "yes", "turns-freely": "yes",
    "seat": "caught", "body": "on-plate", "bolts": "snug", "screws": "touching",
    "power": "as-found", "controls": "other", "spindle": "free", "carried": "nothing",
    "lifting-gear": "clear", "chuck-key": "out", "screw-key": "out", "spanner": "out",
    "small-things": "about", "jaws": "closed", "indicator": "off", "guard": "shut",
    "bystanders": "near", "dressed": "other",
}  # fmt: skip
STRONGER = {"caught": "locked", "snug": "tight", "touching": "nipped"}


class Terminal:
    """A terminal with the program in it."""

    def __init__(self, home: Path) -> None:
        self.screen = pyte.Screen(COLUMNS, LINES)
        self.stream = pyte.ByteStream(self.screen)
        env = {**os.environ, "SPINDLESIDE_HOME": str(home), "TERM": "xterm-256color"}
        env["PYTHONPATH"] = str(Path(__file__).parents[2])
        self.child = pexpect.spawn(
            sys.executable, ["-c", PROGRAM], dimensions=(LINES, COLUMNS), env=env, timeout=5
        )

    def read(self, seconds: float = 0.12) -> None:
        """Whatever comes until nothing comes for a while."""
        while True:
            try:
                self.stream.feed(self.child.read_nonblocking(65536, seconds))
            except pexpect.TIMEOUT:
                return
            except pexpect.EOF:
                return

    def send(self, keys: str) -> None:
        """Keys, and what they change."""
        self.child.send(keys)
        self.read()

    @property
    def lines(self) -> list[str]:
        """What stands on the screen."""
        return [line.rstrip() for line in self.screen.display]

    @property
    def text(self) -> str:
        """The same as one text."""
        return "\n".join(self.lines)

    def until(self, words: str, seconds: float = 10) -> None:
        """Wait for words."""
        end = time.monotonic() + seconds
        while words not in self.text:
            assert time.monotonic() < end, f"no “{words}” in\n{self.text}"
            self.read()


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[Terminal]:
    """A terminal whose program is gone afterwards."""
    one = Terminal(tmp_path)
    yield one
    one.child.close(force=True)


def focused(lines: list[str]) -> list[str]:
    """The lines from the sign of the focus on, without the page's edges; none without it."""
    bare = [re.sub(r"^[\s▐▌█│┃▊▎]+", "", line).rstrip(" ▁▂▃▄▅▆▇█│") for line in lines]
    place = next((n for n, line in enumerate(bare) if line.startswith("▸ ")), None)
    return [] if place is None else [bare[place][2:], *bare[place + 1 :]]


def facts() -> dict[str, str]:
    """The questions of the procedure, by how they begin on the screen."""
    return {fact.ask[:40]: name for name, fact in find("chuck-removal").facts.items()}


def answer(here: list[str]) -> str:
    """The keys that answer the question that has the focus."""
    for words, variable in ((words, name) for name, words in ASKS.items()):
        if here[0].startswith(words):
            return seen(variable, here)
    if here[0].startswith("Your name"):
        return "A. Sample\r"
    if here[0].startswith("What does your name"):
        return "1"
    if here[0].startswith("Which lathe is it?"):
        return f"{TOLD['lathe']}\r"
    name = next(name for ask, name in facts().items() if here[0].startswith(ask[: len(here[0])]))
    fact = find("chuck-removal").facts[name]
    if fact.closed:
        return str(fact.closed.index(TOLD.get(name, fact.closed[0])) + 1)
    other = "unknown" if fact.may_be_unknown else "invented"
    return "\r" if name == "lathe" else f"{TOLD.get(name, other)}\r"


def seen(variable: str, here: list[str]) -> str:
    """The number of what is recorded last, or was found, or a wrench then proves."""
    told = " ".join(here[:3])
    recorded = re.search(r"recorded last: (.*?)(?=\s+○|$)", told)
    values = ANSWERS[variable]
    wanted = TOLD[variable]
    if recorded:
        wanted = max(values, key=lambda each: same_beginning(values[each], recorded[1]))
    numbers = dict(offered(variable, here))
    stronger = STRONGER.get(wanted, "")
    return numbers.get(stronger) or numbers.get(wanted) or "1"


def same_beginning(one: str, other: str) -> int:
    """How many signs two texts begin with alike."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def offered(variable: str, here: list[str]) -> Iterator[tuple[str, str]]:
    """Each value in sight and its number."""
    for line in here[1:8]:
        found = re.findall(r"○ (\d) (.*?)(?=\s+○|$)", line)
        if not found and "○" not in line and "recorded" not in line:
            return
        for number, words in found:
            for value, said in ANSWERS[variable].items():
                if said.startswith(words) and len(words) > 1:
                    yield value, number


def gate(terminal: Terminal) -> None:
    """Every check by its own number, slowly, as far as it is in sight."""
    for _ in range(12):
        open_checks = re.findall(r"○ (\d)  ", terminal.text)
        if "own number" not in terminal.text and not open_checks:
            return
        before = terminal.text
        terminal.send(open_checks[0] if open_checks else "\x1b[6~")
        terminal.read(0.55)
        if "own number" not in terminal.text and terminal.text != before:
            return


def test_a_removal_is_walked_in_a_terminal(terminal: Terminal, tmp_path: Path) -> None:
    """From the command to the signature, at 80 × 24, by keys alone; the journal then verifies."""
    terminal.until("Your name")
    end = time.monotonic() + 85
    while "Close this sheet" not in terminal.text:
        assert time.monotonic() < end, terminal.text
        here = focused(terminal.lines)
        if "own number" in terminal.text or re.search(r"[○✓…] \d  ", terminal.text):
            gate(terminal)
        elif here and here[0].startswith("Your name, typed"):
            terminal.send("A. Sample\r")
        elif here:
            terminal.send(answer(here))
        else:
            terminal.read(0.3)
            terminal.send("\r")
    assert "Finished" in terminal.text
    with Store.read(tmp_path / "journal.sqlite3") as store:
        (told,) = store.setups()
    assert told.closing["ends"] == "finished"
    assert told.opening["input"] == "terminal"
