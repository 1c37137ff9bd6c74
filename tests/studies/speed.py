"""Speed beside a floor in the same run, on a compiled, installed wheel; run by hand.

    .venv/bin/python tests/studies/speed.py

Builds the wheel, installs it in a fresh environment, compiles it, and then, turn by turn:
exec to first paint of the start page beside a bare Textual app with one Static; key to paint of
"done" with its journal commit beside a key that changes that Static; `calc runout` as a process;
`check` of every shipped procedure. Prints medians, 99th percentiles and ratios.
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
import subprocess
import sys
import tempfile
import termios
import time
from pathlib import Path

TOP = Path(__file__).parents[2]
FLOOR, FIRST, FILLED = "Bare app", "Walk a lathe setup", "Begin at the lathe"
"""Words of the bare app, of the start page's first paint, and of its rows."""
STARTS, KEYS, RUNS = 15, 30, 15

BARE = """
from textual.app import App
from textual.widgets import Static

class Bare(App):
    BINDINGS = [("enter", "next", "next")]
    count = 0
    def compose(self):
        yield Static("Bare app", id="one")
    def action_next(self):
        self.count += 1
        self.query_one("#one", Static).update(f"painted-{self.count:03d} " * 40)

Bare().run()
"""

PREPARED = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from guide.journal.store import Store
from guide.journal.wellformed import stamp
from guide.procedure.load import read
from guide.walk.setup import open_setup

steps = "".join(
    f'''
      - step: look-{n}
        kind: task
        title: Painted {n:03d} of many
        full: Look once more, for the clock. {"A sentence as long as most are. " * 4}
        brief: Look.
''' for n in range(60)
)
text = f'''
procedure: timed
revision: "1"
title: A procedure for the clock
rests-on: [invented]
stages:
  - stage: timed
    title: Timed
    steps:{steps}
      - step: sign-off
        kind: sign-off
        title: Sign
        full: Sign.
        brief: Sign.
'''
store = Store(Path(sys.argv[1]) / "journal.sqlite3")
open_setup(
    store, read(text, "timed.yaml"), setup="timed", person="A. Sample",
    at=stamp(datetime.now(UTC)), lathe="Lathe (invented)",
)
"""


class Terminal:
    """A child program on a pseudo-terminal of 80 × 24."""

    def __init__(self, command: list[str], environ: dict[str, str]) -> None:
        self.began = time.perf_counter()
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.execvpe(command[0], command, environ)
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))

    def until(self, marker: str, seconds: float = 20) -> float:
        """When the marker was painted; raises where it never is."""
        text, limit = b"", time.perf_counter() + seconds
        while time.perf_counter() < limit:
            if select.select([self.fd], [], [], 0.2)[0]:
                text += os.read(self.fd, 65536)
                plain = re.sub(rb"\x1b\[[0-9;?]*[A-Za-z]", b"", text)
                if marker.encode() in plain or marker.encode() in text:
                    return time.perf_counter()
        raise TimeoutError(f"{marker!r} not in {text[-600:]!r}")

    def send(self, keys: str) -> float:
        """Type, and say when."""
        began = time.perf_counter()
        os.write(self.fd, keys.encode())
        return began

    def quiet(self, seconds: float = 0.15) -> None:
        """Read on until nothing has come for a while."""
        while select.select([self.fd], [], [], seconds)[0]:
            os.read(self.fd, 65536)

    def end(self) -> None:
        """End the child that this terminal started."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.fd)


def main() -> None:
    """Measure everything and print it."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        python = installed(place)
        environ = {**os.environ, "TERM": "xterm-256color", "SPINDLESIDE_HOME": str(place / "home")}
        environ.pop("PYTHONDONTWRITEBYTECODE", None)
        tool = str(python.parent / "spindleside")
        bare = [str(python), str(place / "bare.py")]
        (place / "bare.py").write_text(BARE)
        paint: dict[str, list[float]] = {FLOOR: [], FIRST: [], FILLED: []}
        for turn in range(STARTS + 2):
            for marker, command in ((FLOOR, bare), (FIRST, [tool]), (FILLED, [tool])):
                took = first_paint(command, environ, marker)
                if turn >= 2:
                    paint[marker].append(took)
        told("exec to first paint", paint[FLOOR], paint[FIRST])
        told("exec to all rows filled", paint[FLOOR], paint[FILLED])
        told("key to paint", *key_to_paint(python, tool, bare, environ, place))
        runout = [tool, "calc", "runout", "--readings", "0 12 20 8", "--unit", "thou", "--json"]
        print(f"calc runout, process: median {statistics.median(process(runout, RUNS)):.3f} s")
        print(f"check, process: median {statistics.median(process([tool, 'check'], 3)):.2f} s")


def installed(place: Path) -> Path:
    """The interpreter of a fresh environment with the wheel in it, compiled."""
    run = subprocess.check_call
    run([sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", place, TOP])
    run([sys.executable, "-m", "venv", place / "venv"])
    python = place / "venv" / "bin" / "python"
    run([python, "-m", "pip", "install", "-q", next(place.glob("*.whl"))])
    run([python, "-m", "compileall", "-q", place / "venv" / "lib"])
    return python


def first_paint(command: list[str], environ: dict[str, str], marker: str) -> float:
    """Seconds from exec to the paint of a marker."""
    terminal = Terminal(command, environ)
    try:
        return terminal.until(marker) - terminal.began
    finally:
        terminal.end()


def key_to_paint(
    python: Path, tool: str, bare: list[str], environ: dict[str, str], place: Path
) -> tuple[list[float], list[float]]:
    """Seconds from the key to the paint of what it changes: the bare app, and `done` here."""
    home = place / "timed"
    subprocess.check_call([python, "-c", PREPARED, home])
    ours = Terminal([tool, "resume", "timed"], {**environ, "SPINDLESIDE_HOME": str(home)})
    floor = Terminal(bare, environ)
    found: tuple[list[float], list[float]] = ([], [])
    try:
        floor.until(FLOOR)
        ours.until("Your name")
        for line in ("1", "\r", "\r"):
            ours.quiet(0.6)
            ours.send(line)
        ours.until("Painted 000")
        for turn in range(1, KEYS + 1):
            for terminal, marker, times in (
                (floor, f"painted-{turn:03d}", found[0]),
                (ours, f"Timed · Painted {turn:03d}", found[1]),
            ):
                terminal.quiet(0.6)
                began = terminal.send("\r")
                times.append(terminal.until(marker) - began)
    finally:
        ours.end()
        floor.end()
    return found


def process(command: list[str], count: int) -> list[float]:
    """Seconds that a command takes as a process."""
    times = []
    for _ in range(count):
        began = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        times.append(time.perf_counter() - began)
    return times


def told(what: str, floor: list[float], ours: list[float]) -> None:
    """Medians, 99th percentiles and the ratio."""
    one, other = statistics.median(floor), statistics.median(ours)
    worst = [sorted(each)[int(len(each) * 0.99)] for each in (floor, ours)]
    print(
        f"{what}: bare median {one * 1e3:.1f} ms, ours {other * 1e3:.1f} ms, "
        f"ratio {other / one:.2f}; p99 {worst[0] * 1e3:.1f} / {worst[1] * 1e3:.1f} ms"
    )


if __name__ == "__main__":
    main()
