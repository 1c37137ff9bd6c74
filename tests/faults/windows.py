"""A window of the real program: a process of its own on a terminal of its own."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from time import monotonic
from types import TracebackType

import pexpect
import pyte
from calling import ENVIRONMENT, PROGRAM

SIZE = (24, 80)
LONGEST = 30.0
"""Seconds that a busy machine may take for one page."""


class Window:
    """`spindleside resume` of one setup, as somebody sees it."""

    def __init__(self, home: Path, setup: str) -> None:
        self.screen = pyte.Screen(SIZE[1], SIZE[0])
        self._stream = pyte.Stream(self.screen)
        self._child = pexpect.spawn(
            PROGRAM[0], [*PROGRAM[1:], "resume", setup, "--journal", str(home)], dimensions=SIZE,
            env=ENVIRONMENT | {"TERM": "xterm-256color"}, encoding="utf-8",
        )  # fmt: skip

    def __enter__(self) -> Window:
        """The window itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Nothing of it is left."""
        self.kill()

    @property
    def pid(self) -> int:
        """The process."""
        return int(self._child.pid)

    @property
    def shown(self) -> str:
        """What stands on the screen, on one line."""
        return " ".join(" ".join(self.screen.display).replace("│", " ").split())

    def until(self, text: str) -> None:
        """Wait until something is shown."""
        latest = monotonic() + LONGEST
        while text not in self.shown:
            assert monotonic() < latest, f"{text!r} is not in {self.shown!r}"
            try:
                self._stream.feed(self._child.read_nonblocking(1 << 16, 0.2))
            except pexpect.TIMEOUT:
                continue

    def type(self, keys: str) -> None:
        """Some keys."""
        self._child.send(keys)

    def kill(self) -> None:
        """SIGKILL, which no program can answer."""
        self._child.kill(signal.SIGKILL)
        self._child.wait() if self._child.isalive() else None
        self._child.close(force=True)


if __name__ == "__main__":
    sys.exit("run by test_two_windows.py")
