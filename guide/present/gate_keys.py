"""When a number key at a gate counts: only if no other key came close before or after it.

An instrument that types sends its digits in a burst, so none of them stands alone. The clock is
an argument: every moment is given in seconds, from whatever start.
"""

from __future__ import annotations

from collections.abc import Iterable

QUIET = 0.3
"""Seconds in which no other key may come, before a check's number and after it."""


def counted(
    keys: Iterable[tuple[float, str]], checks: int, quiet: float = QUIET
) -> tuple[int, ...]:
    """The numbers that count among keys with their times in order, long after the last one."""
    pressed = list(keys)
    return tuple(
        int(key)
        for place, (at, key) in enumerate(pressed)
        if is_check(key, checks)
        and (place == 0 or at - pressed[place - 1][0] >= quiet)
        and (place + 1 == len(pressed) or pressed[place + 1][0] - at >= quiet)
    )


def is_check(key: str, checks: int) -> bool:
    """Whether a key is the number of one of so many checks."""
    return len(key) == 1 and key in "123456789" and int(key) <= checks


class GateKeys:
    """The same rule, key by key, for a screen that cannot see the next key yet."""

    def __init__(self, checks: int, quiet: float = QUIET) -> None:
        self.checks = checks
        self.quiet = quiet
        self._last = float("-inf")
        self._waiting: tuple[int, float] | None = None

    def press(self, key: str, at: float) -> None:
        """A key of any sort; settle what waited long enough before calling this."""
        alone = at - self._last >= self.quiet
        self._last = at
        self._waiting = (int(key), at) if alone and is_check(key, self.checks) else None

    def settled(self, now: float) -> int | None:
        """The number that stood alone long enough, once; None while there is none."""
        if self._waiting is None or now - self._waiting[1] < self.quiet:
            return None
        number, self._waiting = self._waiting[0], None
        return number

    @property
    def waiting(self) -> int | None:
        """The number that will count if no other key comes."""
        return self._waiting[0] if self._waiting else None
