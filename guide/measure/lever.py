"""Readings of a lever indicator, put right for its contact angle where the person says so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guide.measure.indicator import lever_factor
from guide.plain import N_, BadInput

BUILT_DEG = (0.0, 20.0)
"""Angles at which a lever may be built to read true; some are near 12°."""


@dataclass(frozen=True, slots=True)
class Lever:
    """Readings before and after the correction, in the unit they were typed in."""

    read: tuple[float, ...]
    factor: float
    """What each is multiplied by; 1 where no correction was chosen."""
    corrected: tuple[float, ...]

    def to_json(self) -> dict[str, object]:
        """The record as plain values."""
        return {
            "readings": list(self.read),
            "factor": round(self.factor, 6),
            "corrected": [round(value, 6) for value in self.corrected],
        }


def lever(
    readings: Sequence[float],
    contact_angle_deg: float,
    *,
    correct: bool = True,
    true_at_deg: float = 0.0,
) -> Lever:
    """The readings times cos(angle)/cos(angle at which the lever reads true).

    0 to 60 degrees, as in makers' tables (`lever_factor`); most levers read true at 0, some are
    built for near 12, and an involute tip needs no correction: that is the person's choice.
    BadInput outside the tables and without readings.

    >>> round(lever([0.2], 30).corrected[0], 3)
    0.173
    """
    if not readings:
        raise BadInput(N_("There is no reading to correct."), N_("Type what the dial shows."))
    if not BUILT_DEG[0] <= true_at_deg <= BUILT_DEG[1]:
        raise BadInput(
            N_("A lever that reads true at {angle}° is not known here."),
            N_("Look in its sheet; most read true at 0°."),
            angle=f"{true_at_deg:g}",
        )
    factor = lever_factor(contact_angle_deg) / lever_factor(true_at_deg)
    factor = factor if correct else 1.0
    return Lever(tuple(readings), factor, tuple(value * factor for value in readings))
