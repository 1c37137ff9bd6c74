"""The indicator: what its dial shows, where it rolls over, and what a lever's angle does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import pairwise
from math import cos, radians
from typing import Literal

from guide.measure.quantity import Length
from guide.plain import N_, BadInput

STEEPEST_DEG = 60.0
"""The last angle of the makers' correction tables; beyond it the lever is set wrong."""


@dataclass(frozen=True, slots=True)
class Indicator:
    """One instrument, as the record names it."""

    kind: Literal["plunger", "lever"]
    graduation: Length
    """The value of one division of the dial."""
    numbering: Literal["balanced", "continuous"] = "balanced"
    """Balanced dials count both ways from zero; continuous ones count on and roll over."""
    per_turn: Length | None = None
    """What the pointer counts in one turn, where it can roll over."""
    contact_angle_deg: float | None = None
    """Angle of a lever to the surface, where the person chose to correct for it."""
    calibration_due: date | None = None
    """The day on which calibration runs out, or None where nobody keeps one."""
    name: str = ""
    """What the shop calls it: a number or a mark."""

    @property
    def factor(self) -> float:
        """What readings are multiplied by: 1 unless a lever's angle was given."""
        if self.kind != "lever" or self.contact_angle_deg is None:
            return 1.0
        return lever_factor(self.contact_angle_deg)

    def out_of_date(self, today: date) -> bool:
        """Whether calibration has run out by that day."""
        return self.calibration_due is not None and today > self.calibration_due


def lever_factor(contact_angle_deg: float) -> float:
    """The cosine of a lever's angle to the surface, by which its reading is multiplied.

    From 0 to 60 degrees, as in makers' tables. Some levers are built to read true near 12
    degrees or have an involute tip, so the correction is the person's choice.
    """
    if not 0 <= contact_angle_deg <= STEEPEST_DEG:
        raise BadInput(
            N_("A contact angle of {angle} degrees cannot be corrected."),
            N_("Set the lever nearer to the surface, at {most} degrees or less."),
            angle=contact_angle_deg,
            most=STEEPEST_DEG,
        )
    return cos(radians(contact_angle_deg))


def may_roll_over(readings: Sequence[Decimal], per_turn: Decimal) -> bool:
    """Whether a continuous dial may have passed its zero: a step of more than half a turn.

    A dial that rolls over shows values from 0 up to one turn only. The person is asked before
    anything is unwrapped.
    """
    _refuse_no_turn(per_turn)
    on_dial = all(0 <= value <= per_turn for value in readings)
    return on_dial and any(
        abs(after - before) * 2 > per_turn for before, after in pairwise(readings)
    )


def unwrap(readings: Sequence[Decimal], per_turn: Decimal) -> tuple[Decimal, ...]:
    """The readings with whole turns taken out, so that each step is at most half a turn.

    With 100 to a turn 0, 96, 93, 97 become 0, −4, −7, −3. Holds only where the surface moves
    less than half a turn of the pointer from one position to the next.
    """
    _refuse_no_turn(per_turn)
    found: list[Decimal] = []
    for value in readings:
        before = found[-1] if found else value
        turns = ((before - value) / per_turn).to_integral_value()
        found.append(value + turns * per_turn)
    return tuple(found)


def _refuse_no_turn(per_turn: Decimal) -> None:
    """Refuse a turn that counts nothing."""
    if per_turn <= 0:
        raise BadInput(
            N_("One turn of the pointer must count more than nothing."),
            N_("Look at the dial for what one turn counts."),
        )
