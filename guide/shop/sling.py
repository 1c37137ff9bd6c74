"""What each leg of a sling carries: it grows as the legs lean, and a rigid load hangs on two."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import cos, isfinite, radians, sin

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, joined, remark
from guide.shop.weight import KG_PER_LB

FLATTEST_DEG = 30.0
"""From the horizontal; below it a sling is rigged again (`asme-b30-9`)."""
BETTER_DEG = 45.0
"""Keep above it: a naval rigging manual (`navy-rigging`)."""
CARRYING = 2
"""Legs counted to carry of three or four on a rigid load (`navy-rigging`)."""
MOST_LEGS = 4


@dataclass(frozen=True, slots=True)
class Sling:
    """The pull in one leg, or why there is no figure; never what the sling is good for."""

    legs: int
    carrying: int
    """How many legs are counted to carry."""
    angle_deg: float
    """From the horizontal."""
    load: float
    unit: str
    """`kg` or `lb`, for load and pull alike."""
    factor: float | None = None
    """The pull over the pull of a leg hanging straight: 1/sin(angle)."""
    leg: float | None = None
    """The pull in one leg, along it."""
    sideways: float | None = None
    """What one leg pulls inward on its eye or lug."""
    why_not: tuple[Remark, ...] = ()
    notes: tuple[Remark, ...] = ()

    def to_json(self) -> dict[str, object]:
        """The record as plain values; pulls to 0.1, in the load's unit and in both."""
        each = {"kg": 1.0, "lb": KG_PER_LB}[self.unit]
        kg = None if self.leg is None else self.leg * each
        return {
            "legs": self.legs,
            "legs_counted": self.carrying,
            "angle_from_horizontal_deg": self.angle_deg,
            "included_angle_deg": 2 * (90 - self.angle_deg),
            "unit": self.unit,
            "factor": _short(self.factor, 4),
            "leg_tension": _short(self.leg),
            "leg_tension_kg": _short(kg),
            "leg_tension_lb": None if kg is None else _short(kg / KG_PER_LB),
            "sideways": _short(self.sideways),
            "why_not": joined(self.why_not),
            "notes": [str(note) for note in self.notes],
        }


def sling(load: float, legs: int, angle_deg: float | None = None, *, unit: str = "kg") -> Sling:
    """The pull in each leg, load / legs counted / sin(angle from the horizontal).

    Source `sling-angle`. Of three or four legs two are counted (`navy-rigging`), and below 30°
    there is no figure (`asme-b30-9`). Legs of one length at one angle, the hook over the
    middle of the load, a steady lift: a jerk, a choke hitch and an edge are not in it. BadInput for
    what cannot be.

    >>> round(sling(1000, 2, 45, unit="lb").leg)
    707
    """
    _refuse(load, legs, angle_deg, unit)
    angle = 90.0 if angle_deg is None else angle_deg
    bare = Sling(legs, min(legs, CARRYING), angle, load, unit)
    if angle < FLATTEST_DEG:
        return replace(bare, why_not=(_too_flat(angle),))
    leg = load / bare.carrying / sin(radians(angle))
    return replace(
        bare,
        factor=1 / sin(radians(angle)),
        leg=leg,
        sideways=leg * cos(radians(angle)),
        notes=_notes(legs, angle),
    )


def from_included(included_deg: float) -> float:
    """The angle from the horizontal for the angle between two opposite legs, as UK tables count.

    >>> from_included(90)
    45.0
    """
    if not 0 <= included_deg < 180:
        raise BadInput(
            N_("An angle of {angle}° between the legs cannot be."),
            N_("Measure between two opposite legs, at the hook."),
            angle=f"{included_deg:g}",
        )
    return 90 - included_deg / 2


def _too_flat(angle: float) -> Remark:
    """Why there is no figure."""
    return remark(
        N_(
            "At {angle}° from the horizontal, under {least}°, the legs pull more on each other than"
            " on the load: rig again with longer legs or a spreader."
        ),
        angle=f"{angle:g}",
        least=f"{FLATTEST_DEG:g}",
    )


def _notes(legs: int, angle: float) -> tuple[Remark, ...]:
    """What to look out for."""
    notes = []
    if legs > CARRYING:
        notes.append(
            remark(
                N_(
                    "Only {some} of {all} legs are counted: on a rigid load the others may be"
                    " slack."
                ),
                some=CARRYING,
                all=legs,
            )
        )
    if angle < BETTER_DEG:
        notes.append(
            remark(
                N_("Under {angle}° the pull grows fast: longer legs are better."),
                angle=f"{BETTER_DEG:g}",
            )
        )
    return tuple(notes)


def _refuse(load: float, legs: int, angle: float | None, unit: str) -> None:
    """Refuse what no sling can have."""
    if unit not in ("kg", "lb"):
        raise BadInput(N_("The unit {unit} is not known here."), N_("Use kg or lb."), unit=unit)
    if not (isfinite(load) and load > 0):
        raise BadInput(
            N_("The load must be above zero."), N_("Use the heavier end of an estimate.")
        )
    if not 1 <= legs <= MOST_LEGS:
        raise BadInput(
            N_("{legs} legs is outside 1 to {most}."), N_("Count the legs."), legs=legs, most=4
        )
    if legs > 1 and angle is None:
        raise BadInput(
            N_("How far the legs lean is missing."),
            N_("Give the angle from the horizontal, or the angle between the legs."),
        )
    if angle is not None and not 0 < angle <= 90:
        raise BadInput(
            N_("An angle of {angle}° from the horizontal cannot be."),
            N_("Measure from level up to the leg: 90° hangs straight."),
            angle=f"{angle:g}",
        )
    if legs == 1 and angle not in (None, 90):
        raise BadInput(
            N_("One leg hangs straight, not at {angle}°."),
            N_("Leave the angle out, or count the legs again."),
            angle=f"{angle:g}",
        )


def _short(size: float | None, places: int = 1) -> float | None:
    """Rounded for the plain form."""
    return None if size is None else round(size, places)
