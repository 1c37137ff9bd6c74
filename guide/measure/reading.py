"""What was read: one dial value at one angle, and a series of them with one dial zero."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from guide.measure.quantity import Length
from guide.plain import N_, BadInput

Surface = Literal["outside", "inside"]


@dataclass(frozen=True, slots=True)
class Reading:
    """One dial value at one angle; positive is plunger pushed in."""

    angle_deg: float
    """Degrees the spindle has been turned since screw 1 was under the plunger."""
    value: Decimal
    """As the dial showed it, in the series' unit."""
    screw: int | None = None
    """The screw under the plunger, where there was one."""


@dataclass(frozen=True, slots=True)
class Sweep:
    """The lowest and the highest value seen while the spindle was watched over a whole turn."""

    low: Decimal
    """The lowest value, in the series' unit."""
    high: Decimal
    """The highest value, in the series' unit."""

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise BadInput(
                N_("The lowest value {low} of the watched sweep is above the highest {high}."),
                N_("Give the lowest first."),
                low=self.low,
                high=self.high,
            )

    @property
    def width(self) -> Decimal:
        """Highest less lowest."""
        return self.high - self.low


@dataclass(frozen=True, slots=True)
class Series:
    """Readings at one station with one dial zero, in the order in which they were taken."""

    readings: tuple[Reading, ...]
    unit: str
    """Unit of every value: in, mm, thou, tenth or um."""
    station: Length | None = None
    """Distance of the indicator from the front face of the chuck body."""
    surface: Surface = "outside"
    """Inside a bore the plunger is pushed in where the surface comes in, so signs turn round."""
    closure: Decimal | None = None
    """The first position read again after a whole turn, or None where it was not."""
    watched: Sweep | None = None
    """The watched sweep, or None where nobody watched."""

    def __post_init__(self) -> None:
        Length.factor(self.unit)
        sign_of(self.surface)

    @property
    def angles(self) -> tuple[float, ...]:
        """The angle of each reading in degrees."""
        return tuple(reading.angle_deg for reading in self.readings)

    @property
    def values(self) -> tuple[Decimal, ...]:
        """The value of each reading as the dial showed it."""
        return tuple(reading.value for reading in self.readings)


def sign_of(surface: str) -> int:
    """+1 where a dial that rises means body toward the indicator (outside), −1 inside a bore."""
    signs = {"outside": 1, "inside": -1}
    if surface not in signs:
        raise BadInput(
            N_("The surface {surface} is not known here."),
            N_("Say outside or inside."),
            surface=surface,
        )
    return signs[surface]
