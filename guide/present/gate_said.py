"""Why a key at a gate did not count, said once it lies back; it counts none itself."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from guide.plain import N_
from guide.present.bursts import GAP
from guide.present.gate_keys import QUIET, is_check

TOGETHER = N_("Two keys came together, none counted: look, then press one number.")
ENTER = N_("Enter confirms nothing here: press each check's own number.")
NONE = N_("No check here has that number.")
ENDS = frozenset({"enter", "ctrl+j"})
"""Keys that confirm elsewhere."""


class Ignored:
    """Says why keys did not count, once they lie far enough back; it counts none itself."""

    def __init__(self, checks: int, quiet: float = QUIET) -> None:
        self.checks, self.quiet = checks, quiet
        self._together: list[tuple[float, str]] = []
        """Keys of which each came close behind the one before."""

    def press(self, key: str, at: float) -> None:
        """A key of any sort; ask `why` before calling this."""
        if self._together and at - self._together[-1][0] >= self.quiet:
            self._together = []
        self._together.append((at, key))

    def why(self, now: float) -> str:
        """Why the last keys did not count, once; blank where they did or were meant for no check.

        Of what an instrument types nothing is said here: the page says it of the whole value.
        """
        if not self._together or now - self._together[-1][0] < self.quiet:
            return ""
        keys, self._together = self._together, []
        if all(key in ENDS for _, key in keys):
            return ENTER
        if len(keys) == 1 and _beyond(keys[0][1], self.checks):
            return NONE
        meant = len(keys) > 1 and any(is_check(key, self.checks) for _, key in keys)
        return TOGETHER if meant and not _ended_at_once(keys) else ""


def _beyond(key: str, checks: int) -> bool:
    """Whether a key is a number from 1 that no check has; 0 takes all back."""
    return is_check(key, 9) and not is_check(key, checks)


def _ended_at_once(keys: Sequence[tuple[float, str]]) -> bool:
    """Whether a key was ended as fast as an instrument does it."""
    pairs = pairwise(keys)
    return any(b in ENDS | {"tab"} and then - at <= GAP for (at, _), (then, b) in pairs)
