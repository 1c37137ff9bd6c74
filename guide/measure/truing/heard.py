"""What the advisor hears: one set of readings, one move, the bolts at their torque."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class WasRead:
    """Readings in the order in which they were taken, in the facts' unit."""

    angles: tuple[float, ...]
    """Degrees turned since screw 1 was under the plunger; they may repeat, or be 360."""
    values: tuple[Decimal, ...]
    station: Decimal
    rezeroed: bool = False
    """Whether the dial was set to another zero before these."""
    stands: bool = False
    """Whether whoever read it was asked already where it contradicts what was read before."""


@dataclass(frozen=True, slots=True)
class WasMoved:
    """One move as it was asked, and how it ended."""

    screw: int
    by: Decimal
    """The change of the dial that was asked for at the screw under the plunger."""
    reads: Decimal | None = None
    """What the dial shows there afterwards, or None where nobody said."""
    done: bool = True
    why: str = ""
    """bottomed or stuck, where it could not be done."""
    bring_to: Decimal | None = None
    """What the dial was asked to come to."""
    named: bool = True
    """Whether the screws to turn were named, or left to the needle."""
    tightened: int | None = None
    """The screw that was tightened, where somebody said."""


@dataclass(frozen=True, slots=True)
class WasTorqued:
    """Every bolt at its torque, every screw nipped."""


Heard = WasRead | WasMoved | WasTorqued
