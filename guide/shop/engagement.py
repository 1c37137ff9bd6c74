"""Length of engagement: how much thread must hold before a bolt's own strength means anything."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from guide.plain import N_, BadInput

LEAST: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "steel": (1.0, 0.0),
        "cast-iron": (1.5, 0.0),
        "aluminium": (2.0, 1.575),
    }
)
"""Female thread: diameters of engagement, and mm on top. Cast iron 1.5 D and aluminium under shock
2 D + 0.062 in are from `handbook-engagement` (aluminium 2 D in `tm-9-2320-303`); steel 1 D is
common practice, no source (`trade`)."""

HANDBOOK_STEEL = 1.5
"""Diameters that `handbook-engagement` asks for in ordinary steel; less is remarked on."""


def least_engagement(female: str, diameter_mm: float) -> float:
    """The shortest engagement, in mm of full thread, for which a torque is worked out.

    A rule by diameter, not a calculation of stripping: it knows neither the alloy nor the fit.

    >>> least_engagement("cast-iron", 10)
    15.0
    """
    if female not in LEAST:
        raise BadInput(
            N_("{female} is not a female-thread material known here."),
            N_("Use one of: {names}."),
            female=female,
            names=", ".join(LEAST),
        )
    diameters, more = LEAST[female]
    return diameters * diameter_mm + more
