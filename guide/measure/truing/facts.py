"""What the advisor is told before it begins."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from guide.measure.directions import refuse_screws
from guide.measure.limits import Limits
from guide.measure.quantity import Length
from guide.measure.reading import Surface, sign_of
from guide.measure.sense import SENSES, Sense
from guide.plain import N_, BadInput

MOST_STATIONS = 6


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of chuck, dial and aim; lengths in `unit`, None where unknown."""

    unit: str
    tolerance: Decimal
    """The largest full runout allowed at each station."""
    graduation: Decimal
    """One division of the dial."""
    screws: int = 4
    clearance: Decimal | None = None
    """Diametral clearance of body and register: the body shifts half of it each way."""
    sense: Sense = "unknown"
    stations: tuple[Decimal, ...] = (Decimal(1),)
    """Distances of the indicator from the front face of the chuck body."""
    rule: str = "guarded"
    play: Decimal | None = None
    """Play at the bare nose, as a whole width."""
    surface: Surface = "outside"
    error_limit: Decimal | None = None
    """The largest error that the indicator may have, either way; the JSON lines do not ask it."""

    def __post_init__(self) -> None:
        Length.factor(self.unit)
        sign_of(self.surface)
        refuse_screws(self.screws)
        Limits(self.tolerance, self.graduation, None, self.rule, self.clearance, self.play)
        if self.sense not in SENSES:
            raise BadInput(
                N_("The sense {sense} is not known."),
                N_("Say toward, away or unknown."),
                sense=self.sense,
            )
        self._refuse_stations()

    def _refuse_stations(self) -> None:
        """Refuse no station, one named twice, or more than anybody reads."""
        apart = len(set(self.stations)) == len(self.stations)
        known = all(station.is_finite() for station in self.stations)
        if not (apart and known and 1 <= len(self.stations) <= MOST_STATIONS):
            raise BadInput(
                N_("These stations cannot be read."),
                N_("Give one to {most} different distances from the chuck face."),
                most=MOST_STATIONS,
            )

    def beyond(self, way: float) -> bool:
        """Whether the body cannot go so far: its register lets it, end to end, by its clearance.

        Two divisions more are the dial's. Of an unknown clearance nothing is beyond it.
        """
        room = self.clearance
        return room is not None and abs(way) > float(room) + 2 * float(self.graduation)

    def inches(self, size: float) -> float:
        """A length in inches, in this unit."""
        return size * float(Length.factor("in") / Length.factor(self.unit))
