"""The fit of a body's recess on its plate's register: how far the body can be shifted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import hypot, isfinite
from types import MappingProxyType

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, remark

EXPANSION: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"steel": (11.2e-6, 12.3e-6), "cast-iron": (10.0e-6, 10.8e-6)}
)
"""Least and most growth for each kelvin (`expansion-steel`, `expansion-cast-iron`)."""
REFERENCE_C = 20.0
"""The temperature that sizes are stated at (`iso-1`)."""
USUAL_MM = 0.254
"""An adjustable chuck's register has about 0.010 in of clearance (`trade`)."""
FAR_MM = 1.0
"""More than this is remarked on: judgement of the trade (`trade`)."""
DIAMETERS_MM = (10.0, 1000.0)


@dataclass(frozen=True, slots=True)
class Part:
    """One of the two diameters as it was measured."""

    diameter_mm: float
    uncertainty_mm: float
    """Expanded, k = 2: the ± that goes with the reading."""
    material: str = "steel"
    temperature_c: float | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """The clearance, what it lets the body do, and how sure that is; lengths in mm."""

    clearance_mm: float
    """Recess less register, of the diameters."""
    uncertainty_mm: float
    """Expanded, k = 2, of the clearance."""
    interference: str
    """`no`, `yes`, or `undecided` within the uncertainty."""
    wanted_mm: float | None = None
    """How far the body has to go: half of the runout to be taken out."""
    within_reach: str | None = None
    """`yes`, `no` or `undecided`; None without a wanted correction."""
    at_reference_mm: tuple[float, float] | None = None
    """Least and most clearance with both parts at 20 °C; None without both temperatures."""
    notes: tuple[Remark, ...] = ()

    @property
    def travel_mm(self) -> float:
        """How far the body can go each way from the middle; nothing with interference."""
        return max(self.clearance_mm, 0.0) / 2

    def to_json(self) -> dict[str, object]:
        """The record as plain values, to a tenth of a micrometre."""
        both = self.at_reference_mm
        return {
            "clearance_mm": _short(self.clearance_mm),
            "clearance_uncertainty_mm": _short(self.uncertainty_mm),
            "travel_each_way_mm": _short(self.travel_mm),
            "interference": self.interference,
            "wanted_mm": _short(self.wanted_mm),
            "within_reach": self.within_reach,
            "clearance_at_20c_mm": None if both is None else [_short(size) for size in both],
            "notes": [str(note) for note in self.notes],
        }


def fit(plate: Part, body: Part, *, runout_mm: float | None = None) -> Fit:
    """Diametral clearance of body on plate, travel c/2 each way, and whether a runout is in reach.

    `runout_mm` is the full runout (TIR) to be taken out, so the body has to go half of it. The
    uncertainty of the clearance is √(U₁² + U₂²) (`gum`). Where temperatures are given the clearance
    with both parts at 20 °C is a remark, worked out with published growth, and changes no answer.
    A register that is not round, burrs and dirt are not in it.

    >>> found = fit(Part(160.00, 0.01), Part(160.25, 0.02), runout_mm=0.10)
    >>> round(found.clearance_mm, 3), round(found.travel_mm, 3), found.within_reach
    (0.25, 0.125, 'yes')
    """
    _refuse(plate, body, runout_mm)
    clearance = body.diameter_mm - plate.diameter_mm
    spread = hypot(plate.uncertainty_mm, body.uncertainty_mm)
    wanted = None if runout_mm is None else runout_mm / 2
    warm = _at_reference(plate, body)
    return Fit(
        clearance,
        spread,
        interference=_decided(-clearance, spread),
        wanted_mm=wanted,
        within_reach=None
        if wanted is None
        else _decided(max(clearance, 0) / 2 - wanted, spread / 2),
        at_reference_mm=warm,
        notes=tuple(_notes(clearance, warm)),
    )


def _decided(above: float, spread: float) -> str:
    """Whether a figure is above zero, unless the uncertainty leaves both open."""
    if spread and abs(above) <= spread:
        return "undecided"
    return "yes" if above > 0 or (above == 0 and spread == 0) else "no"


def _at_reference(plate: Part, body: Part) -> tuple[float, float] | None:
    """Least and most clearance at 20 °C, over the published growth of both materials."""
    if plate.temperature_c is None or body.temperature_c is None:
        return None
    sizes = [
        _cold(body, growth) - _cold(plate, other)
        for growth in EXPANSION[body.material]
        for other in EXPANSION[plate.material]
    ]
    return min(sizes), max(sizes)


def _cold(part: Part, growth: float) -> float:
    """The diameter at 20 °C, d/(1 + α·(t − 20))."""
    warmer = (part.temperature_c or REFERENCE_C) - REFERENCE_C
    return part.diameter_mm / (1 + growth * warmer)


def _notes(clearance: float, warm: tuple[float, float] | None) -> Iterator[Remark]:
    """What to look out for."""
    if clearance > FAR_MM:
        yield remark(
            N_("{size} mm is far more than a register has, about {usual} mm: measure again."),
            size=f"{clearance:.2f}",
            usual=f"{USUAL_MM:.2f}",
        )
    if warm is not None:
        yield remark(
            N_("With both parts at 20 °C the clearance would be {low} to {high} mm."),
            low=f"{warm[0]:.4f}",
            high=f"{warm[1]:.4f}",
        )


def _refuse(plate: Part, body: Part, runout: float | None) -> None:
    """Refuse what is no register."""
    low, high = DIAMETERS_MM
    for part in (plate, body):
        if not low <= part.diameter_mm <= high:
            raise BadInput(
                N_("The diameter {size} mm is outside {low} to {high} mm."),
                N_("Measure it again."),
                size=f"{part.diameter_mm:g}",
                low=f"{low:g}",
                high=f"{high:g}",
            )
        if not 0 <= part.uncertainty_mm < part.diameter_mm / 10:
            raise BadInput(
                N_("A measurement uncertainty of {size} mm cannot be."),
                N_("Give the ± of the reading."),
                size=f"{part.uncertainty_mm:g}",
            )
        if part.material not in EXPANSION:
            raise BadInput(
                N_("{material} is not a material known here."),
                N_("Use one of: {names}."),
                material=part.material,
                names=", ".join(EXPANSION),
            )
        if part.temperature_c is not None and not 0 <= part.temperature_c <= 60:
            raise BadInput(
                N_("{size} °C is outside 0 to 60 °C, where the growth was looked up."),
                N_("Let the part come to the shop's temperature."),
                size=f"{part.temperature_c:g}",
            )
    if runout is not None and not (isfinite(runout) and runout >= 0):
        raise BadInput(N_("A runout is never below zero."), N_("Read the dial again."))


def _short(size: float | None) -> float | None:
    """A tenth of a micrometre."""
    return None if size is None else round(size, 4)
