"""How long to wait after wrong PINs: twice as long each time, up to a quarter of an hour.

At that pace a PIN of six digits takes decades to try through at the program itself. The clock of
the machine is believed: whoever may set it may shorten the wait, and whoever may copy the journal
file may try PINs elsewhere with no wait at all.
"""

from __future__ import annotations

from datetime import datetime

LONGEST = 900
"""Seconds."""


def delay_after(wrong: int) -> int:
    """Seconds to wait after so many wrong PINs in a row: 0, 1, 2, 4 … 900."""
    return min(2 ** (min(wrong, 32) - 1), LONGEST) if wrong > 0 else 0


def still_to_wait(wrong: int, last: str, now: str, waited: float = 0.0) -> float:
    """Seconds still to wait; a clock that was set back starts the wait anew.

    Only then does it count how long the process itself has `waited`: else as many processes as
    somebody starts would each have waited, and each have a try.
    """
    passed = (datetime.fromisoformat(now) - datetime.fromisoformat(last)).total_seconds()
    return max(delay_after(wrong) - (passed if passed >= 0 else waited), 0.0)
