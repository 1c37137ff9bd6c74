"""Key to paint on every screen, and memory after a whole setup, beside a bare app; run by hand.

    .venv/bin/python tests/studies/keys.py [FILE]

The installed program in a pseudo-terminal of 80 × 24, worked from a numeric keypad by what is
painted: every page that the start page opens, then a whole chuck mounting to its end. Each key is
timed from its write to the last byte of the first frame that it causes, commits included, and each
time beside one key of a bare Textual app. A key that paints nothing is counted apart; a digit or a
sign on a page that reads no dial is held back while it may be an instrument's (`present/bursts`),
and stands in a row of its own; so does Escape, which Textual waits a tenth of a second with, since
other keys begin with it. FILE gets every time as tab-separated values.
"""

from __future__ import annotations

import asyncio
import os
import re
import select
import sqlite3
import statistics
import sys
import tempfile
import time
from collections import defaultdict
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pyte
from speed import BARE, FLOOR, TOP, Terminal, installed

sys.path[:0] = [str(TOP), str(TOP / "tests" / "pictures")]

from every import loaded  # noqa: E402

FRAME, STILL, NOTHING = 0.003, 0.12, 0.4
"""Seconds of silence that end a frame, and a page; seconds after which nothing was painted."""
PAGES = ("Another procedure", "Practise on", "Shop calculators", "First time here")
"""Words on tiles of the start page."""
SHOP, OF_SHOP = "The shop", ("Chucks: how", "Equipment:", "People:", "These screens")
"""Words on the tile that leads to the shop's pages, and on theirs."""
SIGNS = {"plus": "+", "minus": "-", "full_stop": ".", "slash": "/", "asterisk": "*",
         "enter": "\r", "down": "\x1b[B", "up": "\x1b[A", "escape": "\x1b"}  # fmt: skip
HELD = set("0123456789+-. /")
"""Keys that may be the beginning of a value."""
SHOWN_AS = (
    (r"[○✓…] \d  ", "a gate"), (r"Record these readings", "readings, to be recorded"),
    (r"Reads \(|reads:", "a reading"), (r"Sign", "the signature"), (r"decided", "the verdict"),
    (r"Next +⏎", "a question"), (r"Record this +⏎", "a page of questions"), (r"Done +⏎", "a task"),
)  # fmt: skip
"""What is painted, and what that page is called here; the first that is found counts."""


class Far:
    """What a keypad's hands need of a screen, over a pseudo-terminal; times every key."""

    def __init__(self, program: Terminal, floor: Terminal, journal: Path) -> None:
        self.program, self.floor, self.journal = program, floor, journal
        self.drawn = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.drawn)
        self.pilot = SimpleNamespace(press=self.press, pause=self.pause)
        self.times: list[tuple[str, str, float, float, str]] = []
        self.blank: dict[str, int] = defaultdict(int)
        self.page = ""

    @property
    def lines(self) -> list[str]:
        """What is painted."""
        return [line.rstrip() for line in self.drawn.display]

    @property
    def text(self) -> str:
        """The same as one text."""
        return "\n".join(self.lines)

    async def press(self, name: str) -> None:
        """One key, timed, and one of the floor."""
        sign = SIGNS.get(name, name)
        self.read(STILL)
        here = self.page or kind(self.text)
        held = sign in HELD and here not in ("a reading", "readings, to be recorded", "a gate")
        before = self.events()
        took = self.timed(self.program, sign, self.stream.feed)
        self.floor.quiet(0.02)
        bare = self.timed(self.floor, "\r", lambda _: None)
        assert bare is not None
        self.read(STILL)
        does = "held" if held else "act" if self.events() > before else "key"
        does = "escape" if name == "escape" else does
        if took is None:
            self.blank[here] += 1
        else:
            self.times.append((here, does, bare, took, name))

    def timed(self, terminal: Terminal, sign: str, seen: Any) -> float | None:
        """Seconds to the end of the first frame; it is drawn here only when it has ended.

        Drawn piece by piece, it would be this terminal's slowness that is measured: less than a
        frame fits into a pseudo-terminal, and the program would wait for it.
        """
        began = terminal.send(sign)
        ended, wait, pieces = None, NOTHING, []
        while select.select([terminal.fd], [], [], wait)[0]:
            pieces.append(os.read(terminal.fd, 65536))
            ended, wait = time.perf_counter(), FRAME
        seen(b"".join(pieces))
        return None if ended is None else ended - began

    def read(self, still: float) -> None:
        """Whatever is painted, until nothing is for a while; a blinking cursor does not count."""
        end = time.perf_counter() + 3
        while select.select([self.program.fd], [], [], still)[0] and time.perf_counter() < end:
            self.stream.feed(os.read(self.program.fd, 65536))

    async def pause(self, seconds: float) -> None:
        """Let time go by."""
        end = time.perf_counter() + seconds
        while (left := end - time.perf_counter()) > 0:
            self.read(min(left, 0.05))
            time.sleep(min(left, 0.005))

    async def settle(self) -> None:
        """Until the page is painted."""
        self.read(STILL)

    async def until(self, words: str, seconds: float = 20) -> None:
        """Wait for words."""
        end = time.perf_counter() + seconds
        while words not in self.text:
            assert time.perf_counter() < end, f"no “{words}” in\n{self.text}"
            self.read(0.05)

    def events(self) -> int:
        """How many events are in the journal."""
        if not self.journal.exists():
            return 0
        with closing(sqlite3.connect(f"file:{self.journal}?mode=ro", uri=True)) as base:
            return int(base.execute("SELECT count(*) FROM event").fetchone()[0])


def kind(text: str) -> str:
    """What page is painted."""
    return next((name for words, name in SHOWN_AS if re.search(words, text)), "another page")


async def moved(far: Far, name: str) -> None:
    """Down and up on a page, five times."""
    far.page = name
    for _ in range(5):
        for key in ("down", "up"):
            await far.press(key)
    far.page = ""


async def pages(far: Far) -> None:
    """The start page and every page that it opens."""
    await moved(far, "start page")
    for words in PAGES:
        await opened(far, words)
        await moved(far, words)
        await far.press("escape")
        await far.pause(0.6)
    for words in OF_SHOP:
        await opened(far, SHOP)
        await opened(far, words)
        await moved(far, words)
        await far.press("escape")
        await far.pause(0.6)


async def opened(far: Far, words: str) -> None:
    """What a tile opens, by its number."""
    for _ in range(6):
        found = re.search(rf"(\d) +[^\n]*{words}", far.text)
        if found:
            await far.press(found[1])
            await far.pause(0.6)
            return
        await far.press("plus")
    raise LookupError(f"not reached: {words}\n{far.text}")


async def walked(far: Far, procedure: str) -> None:
    """A whole setup from the keypad."""
    hands, pad = loaded("conftest"), loaded("test_keypad")
    one = hands.Reader(procedure, {**hands.TOLD_FOR[procedure], **pad.TOLD}, hands.Chuck())
    keypad = pad.Keypad(far, one)
    for _ in range(8):
        await far.press("minus")
    found = re.search(r"(\d) +[^\n]*true an adjustable", far.text, re.IGNORECASE)
    await keypad.press(found[1] if found else "2")
    await far.until("Your name")
    await keypad.walk()
    assert "Finished" in far.text, far.text


def memory(pid: int) -> float:
    """MiB that a process has in use."""
    told = Path(f"/proc/{pid}/status").read_text()
    return int(re.findall(r"VmRSS:\s+(\d+)", told)[0]) / 1024


def row(name: str, times: list[tuple[float, float]]) -> str:
    """One line of the table: medians and 99th percentiles beside the floor's."""
    bare, ours = (sorted(each) for each in zip(*times, strict=True))
    half = [statistics.median(each) * 1e3 for each in (bare, ours)]
    far = [each[int(len(each) * 0.99)] * 1e3 for each in (bare, ours)]
    return (
        f"{name:44} {len(ours):5}  {half[1]:6.1f} / {half[0]:5.1f} ms = {half[1] / half[0]:5.2f}"
        f"   p99 {far[1]:6.1f} / {far[0]:5.1f} = {far[1] / far[0]:5.2f}"
    )


def main(file: str = "") -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        python = installed(place)
        (place / "bare.py").write_text(BARE)
        home = place / "home"
        home.mkdir()
        hands = loaded("conftest")
        hands.alone(home / "journal.sqlite3")
        environ = {**os.environ, "TERM": "xterm-256color", "SPINDLESIDE_HOME": str(home)}
        environ.pop("PYTHONPATH", None)
        floor = Terminal([str(python), str(place / "bare.py")], environ)
        program = Terminal([str(python.parent / "spindleside")], environ)
        far = Far(program, floor, home / "journal.sqlite3")
        try:
            floor.until(FLOOR)
            asyncio.run(whole(far))
            told(far)
            used = memory(program.pid), memory(floor.pid)
            print(f"memory after it: {used[0]:.1f} / {used[1]:.1f} MiB = {used[0] / used[1]:.2f}")
        finally:
            if file:
                lines = ("\t".join(map(str, each)) for each in far.times)
                Path(file).write_text("\n".join(lines))
            program.end()
            floor.end()


async def whole(far: Far) -> None:
    """The pages, then the setup."""
    await far.until("Begin at the lathe")
    await far.pause(1)
    await pages(far)
    await walked(far, "adjustable-chuck")


def told(far: Far) -> None:
    """The table."""
    groups: dict[str, list[tuple[float, float]]] = defaultdict(list)
    for here, does, bare, ours, _ in far.times:
        groups[f"{here}: {does}"].append((bare, ours))
    for name in sorted(groups):
        print(row(name, groups[name]))
    for does in ("key", "act", "held", "escape"):
        print(row(f"all: {does}", [(b, o) for _, what, b, o, _ in far.times if what == does]))
    print("keys that painted nothing:", dict(far.blank))


if __name__ == "__main__":
    main(*sys.argv[1:])
