"""The height and vee of a cradle that holds a chuck with its axis at the spindle's height."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, isfinite, radians, sin, tan

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, joined, remark

VEES_DEG = (60.0, 120.0)
"""Included angles between which a chuck neither wedges in nor rolls out: common practice, no source
(`trade`)."""
POSSIBLE_DEG = (20.0, 160.0)
"""Outside these no answer is given."""
DIAMETERS_MM = (50.0, 1300.0)
EDGE_SHARE = 0.9
"""Contact at most this far up the flank: nearer its end it is on the edge (`trade`)."""


@dataclass(frozen=True, slots=True)
class Cradle:
    """Where the vee is when the axes meet; lengths in mm, heights from the surface it stands on."""

    root_mm: float
    """Height of the vee's root, where its two flanks meet (or would)."""
    contact_width_mm: float
    """Between the two lines of contact."""
    contact_height_mm: float
    contact_half_angle_deg: float
    """From straight down, at the chuck's axis, to a line of contact."""
    flank_mm: float
    """Along the flank, from the root to the contact."""
    under_chuck_mm: float
    """From the surface up to the lowest point of the chuck."""
    gap_mm: float
    """From the root up to the lowest point of the chuck."""
    rise_per_shim: float
    """How far the chuck rises for a shim of 1 under each flank; under the whole cradle it is 1."""
    one_flank: tuple[float, float]
    """How far up, and how far sideways, for a shim of 1 under one flank alone."""
    variation_mm: float | None = None
    """How far the axis moves up or down as the diameter varies."""
    why_not: tuple[Remark, ...] = ()
    """Why such a cradle does not go here; the figures stand for what was asked all the same."""
    notes: tuple[Remark, ...] = ()

    @property
    def goes(self) -> bool:
        """Whether the vee can be where the geometry puts it."""
        return not self.why_not

    def to_json(self) -> dict[str, object]:
        """The record as plain values, to a hundredth; no height where it does not go."""
        sizes = {
            "root_height_mm": self.root_mm,
            "contact_width_mm": self.contact_width_mm,
            "contact_height_mm": self.contact_height_mm,
            "contact_half_angle_deg": self.contact_half_angle_deg,
            "flank_to_contact_mm": self.flank_mm,
            "clearance_under_chuck_mm": self.under_chuck_mm,
            "gap_to_root_mm": self.gap_mm,
            "rise_per_shim_under_cradle": 1.0,
            "rise_per_shim_on_both_flanks": self.rise_per_shim,
            "rise_per_shim_on_one_flank": self.one_flank[0],
            "aside_per_shim_on_one_flank": self.one_flank[1],
        }
        return {
            "applicable": self.goes,
            **{name: round(size, 4) if self.goes else None for name, size in sizes.items()},
            "axis_moves_mm": None if self.variation_mm is None else round(self.variation_mm, 4),
            "why_not": joined(self.why_not),
            "notes": [str(note) for note in self.notes],
        }


def cradle(
    centre_mm: float,
    diameter_mm: float,
    included_deg: float = 90.0,
    *,
    opening_mm: float | None = None,
    least_root_mm: float = 0.0,
    varies_mm: float = 0.0,
) -> Cradle:
    """The vee that holds a round of this diameter with its middle `centre_mm` above the surface.

    A circle of radius r touches both flanks of a vee of half-angle β with its centre r/sin β above
    the root, r/tan β along each flank, 2r·cos β apart (`circle-in-vee`). A shim t on both flanks
    lifts it t/sin β. `opening_mm` is the vee's width at its top, `least_root_mm` the thinnest
    wood or metal wanted under the root, `varies_mm` largest less smallest diameter. It knows
    nothing of how the cradle stands, nor whether it is strong enough.

    >>> found = cradle(170, 200, 90)
    >>> round(found.root_mm, 2), round(found.contact_width_mm, 2), round(found.under_chuck_mm)
    (28.58, 141.42, 70)
    """
    _refuse(centre_mm, diameter_mm, included_deg, opening_mm, least_root_mm, varies_mm)
    r, half = diameter_mm / 2, radians(included_deg / 2)
    root = centre_mm - r / sin(half)
    return Cradle(
        root,
        contact_width_mm=2 * r * cos(half),
        contact_height_mm=centre_mm - r * sin(half),
        contact_half_angle_deg=90 - included_deg / 2,
        flank_mm=r / tan(half),
        under_chuck_mm=centre_mm - r,
        gap_mm=r / sin(half) - r,
        rise_per_shim=1 / sin(half),
        one_flank=one_flank(1.0, included_deg),
        variation_mm=varies_mm / (2 * sin(half)) if varies_mm else None,
        why_not=tuple(_why_not(root, centre_mm - r, 2 * r * cos(half), opening_mm, least_root_mm)),
        notes=tuple(_notes(included_deg, 2 * r * cos(half), opening_mm, varies_mm, half)),
    )


def one_flank(shim_mm: float, included_deg: float) -> tuple[float, float]:
    """How far up, and how far sideways, a shim on one flank alone moves the middle, in mm.

    t/(2·sin β) up and t/(2·cos β) toward the other flank (`circle-in-vee`).
    """
    half = radians(included_deg / 2)
    return shim_mm / (2 * sin(half)), shim_mm / (2 * cos(half))


def _why_not(
    root: float, under: float, width: float, opening: float | None, least: float
) -> Iterator[Remark]:
    """What stands in the way of such a cradle."""
    if under <= 0:
        yield remark(N_("The chuck is larger than the room under the spindle's axis."))
    if root < least:
        yield remark(
            N_(
                "The vee's root would lie at {root} mm, lower than {least} mm: use a flatter vee,"
                " or one that is cut off at the bottom."
            ),
            root=f"{root:.1f}",
            least=f"{least:g}",
        )
    if opening is not None and width >= opening:
        yield remark(
            N_(
                "The vee is too narrow: its flanks end before they touch, {opening} mm across"
                " against {width} mm, and the chuck would sit on the edges."
            ),
            opening=f"{opening:g}",
            width=f"{width:.1f}",
        )


def _notes(
    included: float, width: float, opening: float | None, varies: float, half: float
) -> Iterator[Remark]:
    """What to look out for."""
    if included > VEES_DEG[1]:
        yield remark(N_("So flat a vee lets the chuck roll out: make it steeper, or add stops."))
    if included < VEES_DEG[0]:
        yield remark(N_("So steep a vee wedges the chuck in: make it flatter."))
    if opening is not None and EDGE_SHARE * opening < width < opening:
        yield remark(N_("The contact is close to the vee's edges: make the vee wider."))
    if varies:
        yield remark(
            N_(
                "The diameter varies: the axis goes up and down by {moves} mm as the chuck turns in"
                " the vee, so set the height where it will be mounted."
            ),
            moves=f"{varies / (2 * sin(half)):.2f}",
        )


def _refuse(
    centre: float,
    diameter: float,
    included: float,
    opening: float | None,
    least: float,
    varies: float,
) -> None:
    """Refuse what no cradle can have."""
    low, high = DIAMETERS_MM
    if not low <= diameter <= high:
        raise BadInput(
            N_("The diameter {size} mm is outside {low} to {high} mm."),
            N_("Measure it again."),
            size=f"{diameter:g}",
            low=f"{low:g}",
            high=f"{high:g}",
        )
    if not POSSIBLE_DEG[0] <= included <= POSSIBLE_DEG[1]:
        raise BadInput(
            N_("A vee of {angle}° is outside {low}° to {high}°."),
            N_("Give the angle between its two flanks; 90° is usual."),
            angle=f"{included:g}",
            low=f"{POSSIBLE_DEG[0]:g}",
            high=f"{POSSIBLE_DEG[1]:g}",
        )
    above = (centre, *(() if opening is None else (opening,)))
    if not all(isfinite(size) and size > 0 for size in above):
        raise BadInput(
            N_("A height and a width are always above zero."),
            N_("Measure from the surface that the cradle stands on."),
        )
    if not (isfinite(least) and least >= 0 and 0 <= varies < diameter / 10):
        raise BadInput(
            N_("What is left under the root, and what the diameter varies by, cannot be that."),
            N_("Measure again; leave them out if they are nothing."),
        )
