"""A removal walked in a real terminal of the smallest size, by keys, by what can be read on it."""

from __future__ import annotations

import os
import re
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pexpect
import pyte
import pytest

from guide.journal.store import Store

LINES, COLUMNS = 24, 80
PROGRAM = "from guide.cli.main import run; run(['start', '{procedure}'])"
STILL = 12
"""Answers after which a screen that is still the same has hung."""
KEYS = {"choose": ("{}",), "type": ("{}", "\r"), "scroll": ("\x1b[6~",)}
"""Enter comes a moment behind a text, as by hand: else a number would be an instrument's."""


class Terminal:
    """A terminal with the program in it."""

    def __init__(self, home: Path, procedure: str) -> None:
        self.screen = pyte.Screen(COLUMNS, LINES)
        self.stream = pyte.ByteStream(self.screen)
        env = {**os.environ, "SPINDLESIDE_HOME": str(home), "TERM": "xterm-256color"}
        env["PYTHONPATH"] = str(Path(__file__).parents[2])
        env["TEXTUAL_LOG"] = str(home / "log.txt")
        self.child = pexpect.spawn(
            sys.executable,
            ["-c", PROGRAM.format(procedure=procedure)],
            dimensions=(LINES, COLUMNS),
            env=env,
            timeout=5,
        )

    def read(self, seconds: float = 0.08) -> None:
        """Whatever comes until nothing comes for a while."""
        while True:
            try:
                self.stream.feed(self.child.read_nonblocking(65536, seconds))
            except pexpect.TIMEOUT:
                return
            except pexpect.EOF:
                return

    def send(self, *keys: str) -> None:
        """Keys, each a moment after the one before, and what they change."""
        for each in filter(None, keys):
            self.child.send(each)
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
def terminal(tmp_path: Path) -> Iterator[Callable[[str], Terminal]]:
    """Opens a terminal on a procedure; its program is gone afterwards."""
    opened: list[Terminal] = []

    def begin(procedure: str) -> Terminal:
        opened.append(Terminal(tmp_path, procedure))
        return opened[-1]

    yield begin
    for each in opened:
        each.child.close(force=True)


def gate(terminal: Terminal) -> None:
    """Every check by its own number, slowly, as far as it is in sight."""
    terminal.read(0.25)
    for _ in range(20):
        if not at_gate(terminal.text):
            return
        before, open_checks = terminal.text, re.findall(r"○ (\d)  ", terminal.text)
        if open_checks:
            waits = rf"[○…] {open_checks[0]}  "
            terminal.send(open_checks[0])
            wait(terminal, lambda sign=waits: not re.search(sign, terminal.text), 0.8)
            continue
        terminal.read(0.4)
        if terminal.text == before:
            terminal.send("\x1b[6~")


def at_gate(text: str) -> bool:
    """Whether checks are to be confirmed."""
    return "own number" in text or bool(re.search(r"[○✓…] \d  ", text))


def wait(terminal: Terminal, done: Callable[[], bool], seconds: float = 1.5) -> None:
    """Until an answer is seen to be taken, so that the next is not given to the same question."""
    end = time.monotonic() + seconds
    while not done() and time.monotonic() < end:
        terminal.read()


def onward(terminal: Terminal) -> None:
    """Without the sign of the focus: read on to the end of the page, then the usual button.

    A page that is still being drawn is left alone, to be read again. Where Enter does nothing a
    question above was passed over: back up to it.
    """
    before = terminal.text
    terminal.read(0.15)
    if terminal.text != before:
        return
    below = "more below" in terminal.text and "Done   ⏎" not in terminal.text
    terminal.send("\x1b[6~" if below else "\r")
    wait(terminal, lambda: terminal.text != before, 1)
    for _ in range(8 if terminal.text == before else 0):
        if "▸ " not in terminal.text:
            terminal.send("\x1b[5~")


def walk(terminal: Terminal, reader: Any, seconds: float) -> None:
    """From the question who and which lathe to the end, by what stands on the screen."""
    terminal.until("Your name")
    end = time.monotonic() + seconds
    last, same = "", 0
    while "Close this sheet" not in terminal.text:
        same = same + 1 if terminal.text == last else 0
        last = terminal.text
        assert time.monotonic() < end, last
        assert same < STILL, last
        reader.chuck.look(terminal.text)
        here = reader.focused(terminal.lines)
        if at_gate(terminal.text):
            gate(terminal)
        elif here:
            kind, text = reader.answer(here)
            terminal.send(*(each.format(text) for each in KEYS[kind]))
            wait(terminal, lambda old=here: reader.focused(terminal.lines)[:1] != old[:1])
            terminal.read(0.08 if reader.focused(terminal.lines) else 0.3)
        else:
            onward(terminal)
    assert "Finished" in terminal.text


@pytest.mark.long
def test_a_removal_is_walked_in_a_terminal(terminal, reader, tmp_path: Path, works_alone) -> None:
    """From the command to the signature, at 80 × 24, by keys alone; the journal has its end."""
    works_alone(tmp_path / "journal.sqlite3")
    walk(terminal("chuck-removal"), reader("chuck-removal"), 120)
    with Store.read(tmp_path / "journal.sqlite3") as store:
        (told,) = store.setups()
    assert told.closing["ends"] == "finished"
    assert told.opening["input"] == "terminal"


def test_first_use_begin_and_the_first_answers_in_a_terminal(
    terminal, reader, tmp_path: Path, pin, sound
) -> None:
    """We sign on: name and PIN twice, the same person and PIN for the setup, the first page.

    By keys alone, at 80 × 24; no log and no file has the PIN, whatever Textual is told to log.
    """
    at = terminal("chuck-removal")
    at.until("Who works here?")
    at.send("1")
    for text in ("A. Sample", pin, pin):
        at.send(f"{text}\r")
        assert pin not in at.text
    at.send("\r")
    at.until("A new setup")
    at.until("▸ Your PIN")
    for text in (pin, "Lathe 2"):
        at.send(f"{text}\r")
    at.send("\r")
    at.until("Say which lathe this is")
    assert "NOT SIGNED" not in at.text
    known = reader("chuck-removal")
    end = time.monotonic() + 40
    while len(sound()) < 2 and time.monotonic() < end:
        here = known.focused(at.lines)
        if not here:
            onward(at)
        else:
            kind, text = known.answer(here)
            at.send(*(each.format(text) for each in KEYS[kind]))
            wait(at, lambda old=here: known.focused(at.lines)[:1] != old[:1])
    opening, first = sound()[:2]
    assert (first.kind, first.key) == ("record", opening.key)
    assert opening.data["input"] == "terminal"
    files = [each.read_bytes() for each in tmp_path.rglob("*") if each.is_file()]
    assert not [each for each in files if pin.encode() in each]
    assert not (tmp_path / "log.txt").exists()
