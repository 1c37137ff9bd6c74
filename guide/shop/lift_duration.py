"""How long lifting counts as going on: short, moderate or long, and the recovery that goes with it.

Source: `niosh` for the three classes, `niosh-duration` for the recovery.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Literal

from guide.plain import N_, BadInput

Kind = Literal["short", "moderate", "long"]

CLASSES: tuple[tuple[Kind, float, float], ...] = (("short", 1.0, 1.2), ("moderate", 2.0, 0.3))
"""Class, the most hours of lifting in it, and the recovery it asks for in times that work."""
MINUTES = 60


@dataclass(frozen=True, slots=True)
class Duration:
    """How long the lifting counts as going on, and the light work that has to follow it."""

    kind: Kind
    hours: float
    """Lifting that counts as one stretch; sessions without enough recovery between are added."""
    recovery_hours: float | None
    """Light work before any more lifting; None for long, which has the day's ordinary breaks."""

    def to_json(self) -> dict[str, object]:
        """The record as plain values, in minutes."""
        recovery = self.recovery_hours
        return {
            "class": self.kind,
            "work_minutes": round(self.hours * MINUTES, 1),
            "recovery_minutes": None if recovery is None else round(recovery * MINUTES, 1),
        }


def duration(hours: float) -> Duration:
    """The class of one stretch of lifting, and the recovery that it asks for.

    Up to 1 h short, with 1.2 times as much recovery; up to 2 h moderate, with 0.3 times; else long.

    >>> duration(0.75).kind, round(duration(0.75).recovery_hours * 60)
    ('short', 54)
    """
    for kind, most, times in CLASSES:
        if hours <= most:
            return Duration(kind, hours, times * hours)
    return Duration("long", hours, None)


def sessions(minutes: Sequence[float]) -> Duration:
    """The class of work, recovery, work … in minutes: what has no full recovery is added up.

    >>> sessions([30, 10, 45]).kind, sessions([30, 36, 45]).kind
    ('moderate', 'short')
    """
    if len(minutes) % 2 == 0:
        raise BadInput(
            N_(
                "Sessions go from work to work with recovery between: {count} figures are not that."
            ),
            N_('Write them such as "30 40 30".'),
            count=len(minutes),
        )
    if not all(isfinite(each) and each > 0 for each in minutes):
        raise BadInput(
            N_("Minutes of work and of recovery are always above zero."), N_("Look again.")
        )
    stretches = [duration(minutes[0] / MINUTES)]
    for rest, work in zip(minutes[1::2], minutes[2::2], strict=True):
        last = stretches[-1]
        recovered = last.recovery_hours is not None and rest / MINUTES >= last.recovery_hours - 1e-9
        stretches.append(duration(work / MINUTES + (0 if recovered else last.hours)))
    return max(stretches, key=lambda each: each.hours)
