"""What to bring the dial to at each screw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from guide.measure.angles import SAME, across, apart, of_screw
from guide.measure.harmonic import Fit
from guide.measure.rounding import tidy


@dataclass(frozen=True, slots=True)
class Target:
    """What to bring the dial to at one screw, in the readings' unit."""

    screw: int
    across: int | None
    """The opposite screw, or None where an odd count has none."""
    reads: float | None
    """What was read there, or None where it was not."""
    bring_to: float
    """The mean of its own pair where both were read, else the fitted mean."""

    def to_json(self) -> dict[str, object]:
        """The target as the contract names it."""
        return {
            "screw": self.screw,
            "across": self.across,
            "reads": self.reads,
            "bring_to": self.bring_to,
        }


def targets(found: Fit, values: Sequence[Decimal], screws: int) -> tuple[Target, ...]:
    """What to bring the dial to at each screw."""
    read = {k: _read_at(of_screw(k, screws), found, values) for k in range(1, screws + 1)}
    mean = tidy(found.mean, max(abs(value) for value in found.values))
    made = []
    for k, here in read.items():
        other = across(k, screws)
        there = None if other is None else read[other]
        own = None if here is None or there is None else tidy(float((here + there) / 2))
        made.append(
            Target(k, other, None if here is None else float(here), mean if own is None else own)
        )
    return tuple(made)


def _read_at(place: float, found: Fit, values: Sequence[Decimal]) -> Decimal | None:
    """The value read at an angle, or None."""
    pairs = zip(found.angles, values, strict=True)
    return next((value for angle, value in pairs if apart(angle, place) < SAME), None)
