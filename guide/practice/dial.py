"""The dial on the bench: inches come in, and what stands on its face goes out, in its own unit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from guide.measure.quantity import Length

Numbering = Literal["balanced", "continuous"]


@dataclass(frozen=True, slots=True)
class Dial:
    """One indicator; lengths in `unit`."""

    unit: str
    graduation: Decimal
    """One division."""
    per_turn: Decimal
    """What the needle counts in one turn."""
    numbering: Numbering = "balanced"
    """Numbered both ways from zero, or on all the way round."""
    digital: bool = False
    """Whether it shows a number, which it can type."""

    def of_inches(self, inches: float) -> float:
        """A length in the dial's own unit."""
        return inches * float(Length.factor("in") / Length.factor(self.unit))

    def to_inches(self, size: float) -> float:
        """A length of the dial's unit in inches."""
        return size * float(Length.factor(self.unit) / Length.factor("in"))

    @property
    def division(self) -> float:
        """One division in inches."""
        return self.to_inches(float(self.graduation))

    @property
    def divisions(self) -> int:
        """Divisions round the face."""
        return int(self.per_turn / self.graduation)

    def exactly(self, inches: float) -> float:
        """Where the needle stands, between the divisions; a face that counts on begins anew."""
        size = self.of_inches(inches)
        return size % float(self.per_turn) if self.numbering == "continuous" else size

    def nearest(self, inches: float) -> Decimal:
        """The nearest division, as it is read off the face."""
        steps = round(self.of_inches(inches) / float(self.graduation))
        return (steps % self.divisions if self.numbering == "continuous" else steps) * (
            self.graduation
        )

    def pointer(self, inches: float) -> float:
        """How far the needle stands round from zero, in degrees clockwise."""
        return self.of_inches(inches) / float(self.per_turn) * 360

    def turns(self, inches: float) -> int:
        """Whole turns of the needle, as the small hand counts them."""
        return int(self.of_inches(inches) // float(self.per_turn))

    def mark(self, step: int) -> str:
        """The number at a division, as it is printed; a balanced face has no sign but a side."""
        place = step % self.divisions
        if self.numbering == "balanced" and place * 2 > self.divisions:
            place = self.divisions - place
        return str(place)

    def off(self, typed: Decimal, inches: float) -> float:
        """How far a typed value is from where the needle stood, in divisions, by the shorter way.

        On a face that counts on, a value and the same less one turn stand at one place.
        """
        wrong = float(typed) - self.of_inches(inches)
        if self.numbering == "continuous":
            turn = float(self.per_turn)
            wrong = (wrong + turn / 2) % turn - turn / 2
        return wrong / float(self.graduation)


def _dial(unit: str, graduation: str, per_turn: str) -> Dial:
    """A dial from text."""
    return Dial(unit, Decimal(graduation), Decimal(per_turn))


COARSE = {"in": _dial("in", "0.0005", "0.0500"), "mm": _dial("mm", "0.01", "1.00")}
FINE = {"in": _dial("in", "0.0001", "0.0100"), "mm": _dial("mm", "0.002", "0.200")}
"""The dials of the lessons by the unit they are read in; the sizes are invented."""
