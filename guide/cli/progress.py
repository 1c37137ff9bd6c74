"""How far long work is and how long it takes yet: one line on standard error, gone at the end.

Only a terminal is told, and only of work that lasts; standard output is the same with it and
without.
"""

from __future__ import annotations

import sys
from time import monotonic

from guide.plain import N_
from guide.present.words import say

LASTS, OFTEN = 1.0, 0.2
"""Seconds after which it is told at all, and between two times that it is."""
CLEAR = "\r\x1b[K"
"""Back to the begin of the line, and nothing on it."""
TOLD = N_("{percent} % · about {left} left")


class Progress:
    """Counts what is done of a whole."""

    def __init__(self, whole: int, language: str = "en") -> None:
        self.whole, self.language, self.done = max(whole, 1), language, 0
        self.began = self.last = monotonic()
        self.shown = False
        self.wanted = sys.stderr is not None and sys.stderr.isatty()

    def add(self, part: int) -> None:
        """So much more is done."""
        self.done += part
        now = monotonic()
        if self.wanted and now - self.began > LASTS and now - self.last > OFTEN:
            self.last, self.shown = now, True
            sys.stderr.write(CLEAR + self.line(now - self.began))
            sys.stderr.flush()

    def line(self, seconds: float) -> str:
        """What is told after so many seconds."""
        percent = min(100 * self.done // self.whole, 100)
        left = in_words(seconds_left(self.done, self.whole, seconds))
        return say(TOLD, self.language, percent=percent, left=left)

    def clear(self) -> None:
        """The line is gone: something else is to be written."""
        if self.shown:
            self.shown = False
            sys.stderr.write(CLEAR)
            sys.stderr.flush()


def seconds_left(done: int, whole: int, seconds: float) -> float:
    """How long the rest takes at the pace so far; nothing is known before anything is done."""
    return seconds * max(whole - done, 0) / done if done > 0 else 0.0


def in_words(seconds: float) -> str:
    """Seconds, or minutes where there are many."""
    return f"{seconds:.0f} s" if seconds < 120 else f"{seconds / 60:.0f} min"
