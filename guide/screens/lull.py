"""Memory is tidied while no hand is at the keys."""

from __future__ import annotations

import gc
from collections.abc import Callable
from time import monotonic
from types import ModuleType

EVERY = 0.5
"""Seconds between two looks."""
FIRST, QUIET = 1.0, 5.0
"""Seconds without a touch after which nobody is kept waiting: at first, when all that was imported
is there for good, and later, when whoever reads a gate may be about to press."""
AT_LEAST = 60
"""Sweeps of what is young before everything is gone through in spite of a busy hand."""


class Lull:
    """Puts off the search for garbage in all of memory, which takes a fifth of a second here.

    What is there at a rest is left out of every search until the next one, so that what a page
    leaves behind can be found as the next one opens (`let_go`), in some hundredths.
    """

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
        quiet = FIRST if self.tidied_at < 0 else QUIET
        due = self.tidied_at < self.touched_at <= self.clock() - quiet
        if due:
            load_ahead()
            gc.unfreeze()
            gc.collect()
            gc.freeze()
            self.tidied_at = self.clock()
        return due

    def end(self) -> None:
        """As it was."""
        gc.unfreeze()
        gc.set_threshold(*self.usual)


def load_ahead() -> tuple[ModuleType, ...]:
    """What the way to a setup's pages imports, and no first picture needs.

    It is there before a tile is pressed: nobody waits for it later.
    """
    from guide.front import opening
    from guide.screens import pages_of_figures, people, sheet, signing

    return opening, signing, people, sheet, pages_of_figures
