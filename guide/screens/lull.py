"""Memory is tidied while no hand is at the keys."""

from __future__ import annotations

import gc
from collections.abc import Callable
from time import monotonic

EVERY = 0.5
"""Seconds between two looks."""
QUIET = 1.0
"""Seconds without a touch after which nobody is kept waiting."""
AT_LEAST = 60
"""Sweeps of what is young before everything is gone through in spite of a busy hand."""


class Lull:
    """Puts off the search for garbage in all of memory, which takes a fifth of a second here."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self.clock = clock
        self.touched_at, self.tidied_at = clock(), -1.0
        self.usual = gc.get_threshold()

    def begin(self) -> None:
        """From now on only what is young is gone through by the way."""
        gc.set_threshold(*self.usual[:2], AT_LEAST)

    def touched(self) -> None:
        """Somebody is there."""
        self.touched_at = self.clock()

    def look(self) -> bool:
        """Tidy once after the last touch, when it is long enough ago; whether that was so now."""
        due = self.tidied_at < self.touched_at <= self.clock() - QUIET
        if due:
            gc.collect()
            self.tidied_at = self.clock()
        return due

    def end(self) -> None:
        """As it was."""
        gc.set_threshold(*self.usual)
