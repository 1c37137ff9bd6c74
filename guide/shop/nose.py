"""Which spindle nose it is by what was measured at it, as far as a table here can vouch for one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import atan, degrees, isfinite
from typing import Literal

from guide.plain import N_, BadInput
from guide.shop.published import rows
from guide.shop.remark import Remark, remark

KINDS = ("camlock", "long", "bolted", "threaded")
"""The kinds of spindle nose; only the first has a table here."""
LONG_IN_PER_FT = 3.5
"""Taper of a long taper nose on the diameter, L00 to L3 alike (`long-taper`)."""
UNDER_MM = 1.5
"""A micrometer meets the cone some way in front of its face, where it is smaller (`trade`)."""
OVER_MM = 0.5
"""Paint, a burr or a reading from the very corner makes it larger by no more (`trade`)."""
CIRCLE_MM = 1.0
"""How well a circle is measured from the edges of its holes, at best (`trade`)."""
MEASURE = {
    "bolted": N_(
        "Measure the taper close to the face, count the holes through the flange, and measure their"
        " circle, the drive button and the thickness of the flange. No table here vouches for a"
        " bolted nose: the maker's manual says what they should be."
    ),
    "threaded": N_(
        "Measure the thread over its crests, its pitch with a gauge, its hand, the plain register,"
        " and how far thread and register reach to the shoulder. No table here vouches for a"
        " threaded nose: the maker's manual says what they should be."
    ),
    "long": N_(
        "Sizes L00 to L3 are told by the stamp or the maker's manual: their diameters and the"
        " threads of their nuts are known here from memory only, and no such figure is given."
    ),
}
"""What is said instead of a size, of each kind that has no table."""
DIAMETERS_MM = (10.0, 1000.0)
MOST_PINS = 24

Told = Literal["one", "undecided", "none", "no-table"]


@dataclass(frozen=True, slots=True)
class Size:
    """One row of the chart, in mm."""

    name: str
    taper_mm: float
    pins: int
    pin_mm: float
    circle_mm: float


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured at the nose, each with its ± at k = 2; None where it was not."""

    taper_mm: float
    taper_u_mm: float = 0.0
    pins: int | None = None
    circle_mm: float | None = None
    circle_u_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Nose:
    """What can be said of a nose, and what cannot."""

    kind: str
    told: Told
    """`one` size, `undecided`, `none` of the chart, or `no-table` for this kind."""
    sizes: tuple[Size, ...] = ()
    """The one, or those that it lies between."""
    or_none: bool = False
    """Whether it may be a nose that the chart does not have, too."""
    against: tuple[str, ...] = ()
    """`pins`, `circle`: what contradicts the taper."""
    notes: tuple[Remark, ...] = ()

    @property
    def size(self) -> Size | None:
        """The size, where it is one for certain."""
        return self.sizes[0] if self.told == "one" else None

    @property
    def between(self) -> tuple[str, ...]:
        """The names that it lies between, where it is undecided."""
        if self.told != "undecided":
            return ()
        return (*(each.name for each in self.sizes), *(("none of these",) if self.or_none else ()))

    def to_json(self) -> dict[str, object]:
        """The record as plain values."""
        plate = self.size
        long = self.kind == "long"
        return {
            "kind": self.kind,
            "answer": self.told,
            "size": plate.name if plate else None,
            "between": list(self.between),
            "contradicts": list(self.against),
            "taper_mm": plate.taper_mm if plate else None,
            "pins": plate.pins if plate else None,
            "pin_mm": plate.pin_mm if plate else None,
            "pin_circle_mm": plate.circle_mm if plate else None,
            "taper_in_per_ft": LONG_IN_PER_FT if long else None,
            "included_angle_deg": round(included_angle_deg(), 3) if long else None,
            "notes": [str(note) for note in self.notes],
        }


@cache
def chart() -> tuple[Size, ...]:
    """The sizes that can be vouched for, the smallest first (`camlock-charts`)."""
    return tuple(
        Size(
            row["size"],
            float(row["taper_mm"]),
            int(row["pins"]),
            float(row["pin_mm"]),
            float(row["circle_mm"]),
        )
        for row in rows("camlock_noses")
    )


def included_angle_deg(in_per_ft: float = LONG_IN_PER_FT) -> float:
    """The whole angle of a cone by its taper on the diameter: 2·atan(t/24), t in inches per foot.

    >>> round(included_angle_deg(), 3)
    16.594
    """
    return 2 * degrees(atan(in_per_ft / 24))


def nose(kind: str, measured: Measured | None = None) -> Nose:
    """The size of a cam-lock nose by its short taper, its pins and their circle; of others, none.

    A size is taken for one where the taper with its ± lies within 1.5 mm under and 0.5 mm over the
    chart's (`camlock-charts`; how far is judgement, `trade`), and pin count and circle, where
    given, say the same. Otherwise it is undecided between those that it may be, or none of them. It
    assumes clean metal, and a taper measured close to the face. Outside the chart it names nothing:
    long, bolted and threaded noses have no table here, and their sizes stand in the maker's manual.

    >>> nose("camlock", Measured(106.3, 0.05, pins=6, circle_mm=133.2, circle_u_mm=0.3)).size.name
    'D1-6'
    >>> nose("camlock", Measured(106.3, 0.05, pins=3)).between
    ('D1-3', 'D1-4', 'D1-6', 'none of these')
    """
    if kind not in KINDS:
        raise BadInput(
            N_("{kind} is not a kind of nose known here."),
            N_("Use one of: {names}."),
            kind=kind,
            names=", ".join(KINDS),
        )
    if kind != "camlock":
        return Nose(kind, "no-table", notes=tuple(_without_table(kind, measured)))
    if measured is None:
        raise BadInput(
            N_("A cam-lock nose is told by its short taper, and that was not measured."),
            N_("Give its diameter close to the face, with its unit."),
        )
    _refuse(measured)
    return _in_chart(measured)


def _in_chart(measured: Measured) -> Nose:
    """One size of the chart, several that it may be, or none."""
    by = _by_each(measured)
    notes = tuple(_notes(measured))
    if not by["taper"]:
        return Nose("camlock", "none", notes=notes)
    agreed = [each for each in by["taper"] if all(each in found for found in by.values())]
    if not agreed:
        union = tuple(each for each in chart() if any(each in found for found in by.values()))
        against = tuple(name for name in by if name != "taper" and not by["taper"] & by[name])
        both = tuple(name for name in by if name != "taper")
        return Nose("camlock", "undecided", union, True, against or both, notes)
    ordered = tuple(each for each in chart() if each in agreed)
    certain = len(ordered) == 1 and _certain(ordered[0], measured)
    if certain:
        return Nose("camlock", "one", ordered, notes=notes)
    return Nose("camlock", "undecided", ordered, or_none=True, notes=notes)


def _by_each(measured: Measured) -> dict[str, frozenset[Size]]:
    """The sizes that each thing measured may belong to."""
    found = {"taper": frozenset(each for each in chart() if _may_be(each, measured))}
    if measured.pins is not None:
        found["pins"] = frozenset(each for each in chart() if each.pins == measured.pins)
    if measured.circle_mm is not None:
        size, room = measured.circle_mm, CIRCLE_MM + measured.circle_u_mm
        found["circle"] = frozenset(s for s in chart() if abs(size - s.circle_mm) <= room)
    return found


def _may_be(size: Size, measured: Measured) -> bool:
    """Whether the taper, with its ±, can be that of a size."""
    under = size.taper_mm - measured.taper_mm
    return -OVER_MM - measured.taper_u_mm <= under <= UNDER_MM + measured.taper_u_mm


def _certain(size: Size, measured: Measured) -> bool:
    """Whether taper and circle, over the whole of their ±, are those of a size."""
    under, u = size.taper_mm - measured.taper_mm, measured.taper_u_mm
    if not (-OVER_MM + u <= under <= UNDER_MM - u):
        return False
    if measured.circle_mm is None:
        return True
    return abs(measured.circle_mm - size.circle_mm) + measured.circle_u_mm <= CIRCLE_MM


def _notes(measured: Measured) -> Iterator[Remark]:
    """What was not measured and would have told more."""
    if measured.taper_u_mm == 0:
        yield remark(N_("How sure the measure of the taper is was not given; it counts as exact."))
    if measured.pins is None:
        yield remark(
            N_(
                "The pins were not counted. A cone alone does not tell a cam-lock from a bolted"
                " nose: look for the sockets of the cams, and count them."
            )
        )


def _without_table(kind: str, measured: Measured | None) -> Iterator[Remark]:
    """What to measure, and that a figure of such a nose was compared with nothing."""
    yield remark(MEASURE[kind])
    if measured is not None:
        yield remark(N_("What was measured is compared with nothing: no table stands here."))


def _refuse(measured: Measured) -> None:
    """Refuse what is no nose, and a ± that cannot be."""
    for size in (measured.taper_mm, measured.circle_mm):
        if size is not None and not DIAMETERS_MM[0] <= size <= DIAMETERS_MM[1]:
            raise BadInput(
                N_("The diameter {size} mm is outside {low} to {high} mm."),
                N_("Measure it again."),
                size=f"{size:g}",
                low=f"{DIAMETERS_MM[0]:g}",
                high=f"{DIAMETERS_MM[1]:g}",
            )
    pairs = ((measured.taper_mm, measured.taper_u_mm), (measured.circle_mm, measured.circle_u_mm))
    for size, u in pairs:
        if not isfinite(u) or u < 0 or (size is not None and u >= size / 5):
            raise BadInput(
                N_("A measurement uncertainty of {size} mm cannot be."),
                N_("Give the ± of the reading."),
                size=f"{u:g}",
            )
    if measured.pins is not None and not 1 <= measured.pins <= MOST_PINS:
        raise BadInput(
            N_("A nose does not have {count} holes for pins."),
            N_("Count them again."),
            count=measured.pins,
        )
