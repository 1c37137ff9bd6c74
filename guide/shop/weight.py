"""The mass of a chuck or plate estimated from its size, as a band; a mark or scales beat it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, pi
from types import MappingProxyType

from guide.plain import N_, BadInput

KG_PER_LB = 0.45359237
"""Exact by definition (`exact-units`)."""

DENSITIES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"steel": (7750.0, 8050.0), "cast-iron": (6950.0, 7400.0)}
)
"""Lightest and heaviest, kg/m³ (`density-steel`, `density-cast-iron`)."""

SOLID = MappingProxyType({False: (0.90, 1.00), True: (0.80, 1.00)})
"""Share of the cylinder that is metal, without and with jaws (slots, pockets, holes). Judgement of
the trade: common practice, no source (`trade`)."""
PER_JAW = (0.03, 0.08)
"""What one jaw adds, as a share of the body. Common practice, no source (`trade`)."""

DIAMETERS_MM = (50.0, 1300.0)
LENGTHS_MM = (5.0, 600.0)
"""The sizes of chucks and plates that hang on a lathe's nose; outside them no estimate is made."""


@dataclass(frozen=True, slots=True)
class Weight:
    """Between what and what a part weighs, in whole kilograms and pounds, rounded outward.

    A lift is planned with the heavier end.
    """

    low_kg: int
    high_kg: int
    low_lb: int
    high_lb: int

    def __add__(self, other: Weight) -> Weight:
        """Both together, each rounded outward before, so that the band holds."""
        return Weight(
            self.low_kg + other.low_kg,
            self.high_kg + other.high_kg,
            self.low_lb + other.low_lb,
            self.high_lb + other.high_lb,
        )

    def to_json(self) -> dict[str, object]:
        """The record as plain values; `plan_with_*` repeats the heavier end."""
        return {
            "low_kg": self.low_kg,
            "high_kg": self.high_kg,
            "low_lb": self.low_lb,
            "high_lb": self.high_lb,
            "plan_with_kg": self.high_kg,
            "plan_with_lb": self.high_lb,
        }


def weight(
    diameter_mm: float, length_mm: float, bore_mm: float = 0.0, *, material: str, jaws: int = 3
) -> Weight:
    """The mass of a chuck body with its jaws, or of a plain plate with `jaws=0`, as a band.

    Cylinder less bore, times the share that is metal, times the density, plus the jaws; the band
    is from everything light to everything heavy. What is not in it: a plate still on the chuck, a
    bar, the board and the gear. Special chucks (power, deep hubs, top tooling) are not like this.

    >>> weight(203.2, 85, 55, material="steel")
    Weight(low_kg=17, high_kg=26, low_lb=38, high_lb=57)
    """
    _refuse(diameter_mm, length_mm, bore_mm, material, jaws)
    low, high = (
        cylinder_m3(diameter_mm, length_mm, bore_mm) * density * share * (1 + jaws * jaw)
        for density, share, jaw in zip(DENSITIES[material], SOLID[jaws > 0], PER_JAW, strict=True)
    )
    return Weight(floor(low), ceil(high), floor(low / KG_PER_LB), ceil(high / KG_PER_LB))


def cylinder_m3(diameter_mm: float, length_mm: float, bore_mm: float = 0.0) -> float:
    """The volume in m³ of a cylinder with a bore right through, π/4·(D² − d²)·L, sizes in mm.

    >>> round(cylinder_m3(1000, 1000), 6)
    0.785398
    """
    return pi / 4 * (diameter_mm**2 - bore_mm**2) * length_mm / 1e9


def _refuse(diameter_mm: float, length_mm: float, bore_mm: float, material: str, jaws: int) -> None:
    """Refuse what is not the size or shape of a chuck or plate."""
    if material not in DENSITIES:
        raise BadInput(
            N_("{material} is not a material known here."),
            N_("Use one of: {names}."),
            material=material,
            names=", ".join(DENSITIES),
        )
    _refuse_size(
        N_("The diameter {size} mm is outside {low} to {high} mm."), diameter_mm, DIAMETERS_MM
    )
    _refuse_size(N_("The length {size} mm is outside {low} to {high} mm."), length_mm, LENGTHS_MM)
    if not 0 <= bore_mm < diameter_mm:
        raise BadInput(
            N_("The bore must be smaller than the body and not below zero."),
            N_("Measure the hole right through; leave it out if there is none."),
        )
    if not 0 <= jaws <= 6:
        raise BadInput(
            N_("{jaws} jaws is outside 0 to 6."), N_("Use 0 for a plain plate."), jaws=jaws
        )


def _refuse_size(sentence: str, size: float, limits: tuple[float, float]) -> None:
    """Refuse a size outside the limits, and anything that is not a number."""
    low, high = limits
    if not low <= size <= high:
        raise BadInput(
            sentence,
            N_("Weigh it, or ask the maker."),
            size=f"{size:g}",
            low=f"{low:g}",
            high=f"{high:g}",
        )
