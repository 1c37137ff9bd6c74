"""Lines as they are typed, from a terminal or a pipe, and what was typed before it was asked for.

The clock is an argument. Nothing is read by a library that would read ahead: what stands in the
input unread has to be known at a gate.
"""

from __future__ import annotations

import os
import select
import signal
import sys
import termios
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from time import monotonic
from types import FrameType

from guide.linear.ends import Ended

PIECE = 4096
LONGEST = 4096
"""Signs of a line that are kept: nobody types more."""
MOST = 256
"""Pieces that are thrown away at once: an input that never stops is not waited out."""
TICK = 5.0
"""Seconds between two looks whether anybody is there."""


class Keys:
    """The input; Ctrl-C ends it, but never while something is being written down."""

    def __init__(self, source: int = 0, clock: Callable[[], float] = monotonic) -> None:
        self.source, self.clock = source, clock
        self.terminal = os.isatty(source)
        self.arrived = clock()
        """When the last line came."""
        self._rest = b""
        self._asking = False
        self._stopped = False

    @contextmanager
    def heeding(self) -> Iterator[None]:
        """While this holds, Ctrl-C ends a question and nothing else."""
        before = signal.signal(signal.SIGINT, self._stop)
        try:
            yield
        finally:
            signal.signal(signal.SIGINT, before)

    def _stop(self, number: int, frame: FrameType | None) -> None:
        self._stopped = True
        if self._asking:
            raise Ended

    def line(self, tick: Callable[[], None] | None = None) -> str:
        """The next line without its end; `tick` is called every few seconds until it comes.

        Raises `Ended` where there is none: a line that was begun and not ended does not count.
        """
        self._asking = True
        try:
            while not self._stopped:
                if b"\n" in self._rest:
                    return self._taken()
                if select.select([self.source], [], [], TICK)[0]:
                    self._read()
                elif tick is not None:
                    tick()
            raise Ended
        finally:
            self._asking = False

    @contextmanager
    def silent(self) -> Iterator[None]:
        """While this holds, a terminal shows nothing of what is typed; what came before is gone."""
        if not self.terminal:
            yield
            return
        before = termios.tcgetattr(self.source)
        silent = [*before]
        silent[3] &= ~termios.ECHO
        termios.tcsetattr(self.source, termios.TCSAFLUSH, silent)
        try:
            yield
        finally:
            termios.tcsetattr(self.source, termios.TCSADRAIN, before)

    def waiting(self, seconds: float = 0.0) -> bool:
        """Whether anything stands in the input that nobody asked for, or comes so soon."""
        return bool(self._rest) or bool(select.select([self.source], [], [], seconds)[0])

    def drain(self) -> bool:
        """Throw away what was typed before it was asked for; whether there was anything."""
        found, least = bool(self._rest), MOST
        self._rest = b""
        while self.waiting() and least > 0:
            found, least = True, least - 1
            with suppress(Ended):
                self._read()
            if not self._rest:
                break
            self._rest = b""
        if self.terminal:
            termios.tcflush(self.source, termios.TCIFLUSH)
        return found

    def _read(self) -> None:
        """Some more of the input; `Ended` where there is no more."""
        try:
            piece = os.read(self.source, PIECE)
        except OSError:
            piece = b""
        if not piece:
            self._stopped = True
            raise Ended
        self._rest += piece
        if b"\n" not in self._rest:
            self._rest = self._rest[:LONGEST]

    def _taken(self) -> str:
        """The first line of what was read."""
        first, _, self._rest = self._rest.partition(b"\n")
        self.arrived = self.clock()
        encoding = getattr(sys.stdin, "encoding", None) or "utf-8"
        return first[:LONGEST].decode(encoding, "replace").rstrip("\r")
