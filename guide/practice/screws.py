"""The screws round the body: which of them bear, and how far the body may go before another does.

A screw's gap is how far its end stands off what it bears on. A body that moves opens the gaps on
one side and closes those on the other; a closed gap stops it. Lengths are in inches.
"""

from __future__ import annotations

from cmath import exp
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import cos, radians

from guide.measure.angles import of_screw

BEARS = 1e-7
"""A gap below which a screw bears."""


@dataclass
class Screws:
    """The screws of one chuck and the gap at each."""

    count: int
    sense: str
    """toward or away: where the body goes from a screw that is driven in."""
    gaps: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Every screw bears until it is eased."""
        self.gaps = {k: self.gaps.get(k, 0.0) for k in range(1, self.count + 1)}

    def way(self, screw: int) -> complex:
        """Where the body goes when a screw is driven in, as a direction."""
        toward = exp(1j * radians(of_screw(screw, self.count)))
        return toward if self.sense == "toward" else -toward

    def against(self, screw: int) -> tuple[int, ...]:
        """The screws that a screw drives the body onto, the one most across first."""
        parts = {k: self._part(k, screw) for k in self.gaps if k != screw}
        facing = [k for k, part in parts.items() if part < -0.01]
        return tuple(sorted(facing, key=lambda k: (round(parts[k], 6), k)))

    def room(self, screw: int) -> float:
        """How far a screw can drive the body before another bears."""
        return min(self.gaps[k] / -self._part(k, screw) for k in self.against(screw))

    def bearing(self, screw: int) -> int | None:
        """The screw that stands in the way of this one now, or None where there is room."""
        return next((k for k in self.against(screw) if self.gaps[k] <= BEARS), None)

    def turned(self, screw: int, by: float) -> float:
        """A screw driven in by so much; what is left once its own gap is closed."""
        left = by - self.gaps[screw]
        self.gaps[screw] = max(-left, 0.0)
        return max(left, 0.0)

    def followed(self, body: complex, driving: int | None) -> None:
        """The body went so far: gaps open and close, but that of the screw which drove it."""
        for k in self.gaps:
            if k != driving:
                opened = (body * self.way(k).conjugate()).real
                self.gaps[k] = max(self.gaps[k] + opened, 0.0)

    def touch(self) -> None:
        """Every screw is brought to where it just bears."""
        self.gaps = dict.fromkeys(self.gaps, 0.0)

    def _part(self, screw: int, driven: int) -> float:
        """How much of the body's way from one screw lies along another's."""
        apart = of_screw(screw, self.count) - of_screw(driven, self.count)
        return cos(radians(apart))


def gaps_text(gaps: Mapping[int, float]) -> list[str]:
    """The gaps in the order of the screws, as text."""
    return [repr(gaps[k]) for k in sorted(gaps)]


def gaps_of(told: object) -> dict[int, float]:
    """The gaps from their text."""
    listed = told if isinstance(told, (list, tuple)) else ()
    return {k: float(text) for k, text in enumerate(listed, start=1)}
