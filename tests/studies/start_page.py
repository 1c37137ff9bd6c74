"""The start page with ten thousand setups beside an empty journal; run by hand.

    .venv/bin/python tests/studies/start_page.py [SETUPS [TURNS]]

Writes an invented journal through the store: sixty chucks on twelve lathes over the years, with
practice and rehearsals between them, three setups open, some chucks and an indicator due. Then,
turn by turn, the program is started on it and on an empty one, in a terminal high enough for every
row, and the time from exec to the paint of the last row is taken. Prints medians and the ratio,
which has to stay at or below 1.2.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import statistics
import struct
import sys
import tempfile
import termios
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

from guide.equipment.equipment import Equipment
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.journal.wellformed import stamp

TOP = Path(__file__).parents[2]
SETUPS, TURNS = 10_000, 21
LINES, COLUMNS = 90, 100
MOST = 1.2
FIRST_DAY = datetime(2006, 1, 2, 7, tzinfo=UTC)
PROGRAM = [sys.executable, "-c", "from guide.cli.main import run; run()"]
OLDEST = "the oldest that is shown"
"""The person of the last row's setup, by whom the paint of that row is known."""
EMPTY_LAST = "No record yet"


def main() -> None:
    """Write, measure, print."""
    given = [int(each) for each in sys.argv[1:]]
    setups, turns = (*given, *(SETUPS, TURNS)[len(given) :])
    with tempfile.TemporaryDirectory() as folder:
        homes = {name: Path(folder) / name for name in ("empty", "full")}
        for home in homes.values():
            home.mkdir()
        Store(homes["empty"] / "journal.sqlite3").close()
        began = time.perf_counter()
        write(homes["full"] / "journal.sqlite3", setups)
        print(f"{setups} setups written in {time.perf_counter() - began:.0f} s")
        times: dict[str, list[float]] = {name: [] for name in homes}
        for turn in range(turns + 2):
            for name, marker in (("empty", EMPTY_LAST), ("full", OLDEST)):
                took = painted(homes[name], marker)
                if turn >= 2:
                    times[name].append(took)
        empty, full = (statistics.median(times[name]) for name in ("empty", "full"))
        print(
            f"exec to the last row: empty {empty * 1e3:.0f} ms, full {full * 1e3:.0f} ms,"
            f" ratio {full / empty:.3f} ({'within' if full <= MOST * empty else 'ABOVE'} {MOST})"
        )


def write(file: Path, setups: int) -> None:
    """An invented journal; every event goes through the store."""
    chance = Random(7)
    with Store(file) as store:
        for number in range(setups):
            day = FIRST_DAY + timedelta(hours=17 * number)
            shown_last = setups - number == 20 + OPEN
            one(store, number, day, chance, shown_last, number >= setups - OPEN)
        add = {"calibration-due": "2020-01-31", "unit": "in"}
        Equipment(store).add("A. Sample", "indicator", "Indicator 3", add, stamp(FIRST_DAY))


OPEN = 3
"""Setups that have not ended."""


def one(
    store: Store, number: int, day: datetime, chance: Random, oldest: bool, is_open: bool
) -> None:
    """One setup of three events, or of two where it is open."""
    mode = chance.choices(("real", "practice", "rehearsal"), (8, 1, 1))[0]
    mode = "real" if oldest or is_open else mode
    opening = {
        "mode": mode, "input": "terminal", "procedure": "chuck-recheck", "sign_on": "off",
        "file": "chuck-recheck.yaml", "revision": "1", "procedure_text": "0" * 64,
        "facts": {"lathe": f"Lathe {number % 12}"},
        "remembered": {f"fact-{n}": "an answer of some length" for n in range(20)},
    }  # fmt: skip
    name, who = f"setup-{number:05d}", OLDEST if oldest else "A. Sample"
    events: list[tuple[str, str, dict[str, Any]]] = [
        ("open", "", opening), ("record", "facts", {"facts": {"chuck": f"Chuck {number % 60}"}})
    ]  # fmt: skip
    if not is_open:
        events.append(("sign", "sign-off", closing(number, day, chance)))
    previous = GENESIS
    for sequence, (kind, step, data) in enumerate(events, 1):
        at = stamp(day + timedelta(hours=sequence))
        event = Event(name, sequence, at, who, step, kind, data, previous)
        store.append(event)
        previous = event.digest


def closing(number: int, day: datetime, chance: Random) -> dict[str, Any]:
    """The data of an event that ends a setup, with its outcome; some chucks are long due."""
    judged = f"{chance.uniform(0.0001, 0.0009):.6f}"
    read = {"judged": judged, "unit": "in", "expanded_uncertainty": "0.0001", "verdict": "within",
            "tolerance": "0.001 in", "station": "3 in", "at": day.date().isoformat()}  # fmt: skip
    again = "2020-01-31" if number % 60 < 3 else "2199-01-31"
    world = {"seat": "locked", "body": "on-plate"} | {f"variable-{n}": "value" for n in range(18)}
    return {"ends": "finished", "meaning": "handed over as left", "name": "A. Sample",
            "world": world, "outcome": {"chuck": f"Chuck {number % 60}", "as_found": read,
                                        "as_left": read, "recheck": again}}  # fmt: skip


def painted(home: Path, marker: str) -> float:
    """Seconds from exec to the paint of a marker, in a high terminal."""
    environ = {**os.environ, "TERM": "xterm-256color", "SPINDLESIDE_HOME": str(home),
               "PYTHONPATH": str(TOP)}  # fmt: skip
    began = time.perf_counter()
    pid, fd = pty.fork()
    if pid == 0:
        os.execvpe(PROGRAM[0], PROGRAM, environ)
    fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
    try:
        text, limit = b"", began + 60
        while time.perf_counter() < limit:
            if select.select([fd], [], [], 0.2)[0]:
                text += os.read(fd, 65536)
                if marker.encode() in re.sub(rb"\x1b\[[0-9;?]*[A-Za-z]", b"", text):
                    return time.perf_counter() - began
        raise TimeoutError(f"{marker!r} not in {text[-600:]!r}")
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(fd)


if __name__ == "__main__":
    main()
