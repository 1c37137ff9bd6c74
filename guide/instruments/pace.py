"""Values that come without pause, told from those that somebody sends one by one.

An indicator that sends by itself would fill every position before the spindle is turned.
"""

from __future__ import annotations

from collections import deque

MOST, WITHIN = 5, 1.0
"""So many values within so many seconds are a stream: no hand sends them, no spindle is turned so
fast (common practice, no source). A slower stream cannot be told from a hand."""


class Pace:
    """Hears when values come; the clock is an argument."""

    def __init__(self, most: int = MOST, within: float = WITHIN) -> None:
        self.within = within
        self._times: deque[float] = deque(maxlen=most)
        self._streams = False

    def streams(self, at: float) -> bool:
        """Whether a value that came now is one of a stream, which lasts until it pauses or slows
        to half of that.
        """
        paused = not self._times or at - self._times[-1] >= self.within
        self._times.append(at)
        full = len(self._times) == self._times.maxlen
        least = self.within * (2 if self._streams else 1)
        self._streams = full and not paused and at - self._times[0] < least
        return self._streams
