"""Speed limits by the marks, the speed of a cut, and the speed of the body's rim."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isfinite, pi
from types import MappingProxyType

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, joined, remark

M_PER_FT = 0.3048
"""Exact by definition (`exact-units`)."""
UNREADABLE = ("missing", "damaged")
"""What may be said of a mark in place of a figure."""

MARKED: Mapping[str, str] = MappingProxyType(
    {
        "chuck": N_("The chuck's marked maximum is {state}: find the maker's figure first."),
        "lathe": N_("The lathe's highest speed is {state}: find the maker's figure first."),
        "work": N_("What the workpiece may turn at is {state}: settle it before it turns."),
    }
)
"""Where a limit is marked, and what to do when the mark cannot be read."""

GRIP = N_(
    "Jaws lose grip as they speed up, by how much is the chuck maker's to say: it is not in here."
)
"""What no figure here knows. Common practice, no source (`trade`)."""

Mark = float | str
"""A figure in rev/min, or one of `UNREADABLE`."""


@dataclass(frozen=True, slots=True)
class Speed:
    """The lowest of the marks and the arithmetic of a cut; nothing that says a speed is right."""

    lowest_rpm: float | None = None
    """The lowest of the marks; None where one cannot be read or none was given."""
    set_by: str | None = None
    """`chuck`, `lathe` or `work`."""
    rpm_for_cut: float | None = None
    """Where the cutting speed given is reached at the diameter given."""
    rim_at_rpm: float | None = None
    """The speed at which the rim was worked out."""
    rim_m_min: float | None = None
    """Surface speed of the body's rim there."""
    why_not: tuple[Remark, ...] = ()
    notes: tuple[Remark, ...] = ()

    def to_json(self) -> dict[str, object]:
        """The record as plain values."""
        rim = self.rim_m_min
        return {
            "lowest_rpm": _short(self.lowest_rpm),
            "set_by": self.set_by,
            "rpm_for_cut": _short(self.rpm_for_cut),
            "rim_at_rpm": _short(self.rim_at_rpm),
            "rim_m_min": _short(rim),
            "rim_m_s": None if rim is None else round(rim / 60, 2),
            "rim_ft_min": None if rim is None else _short(rim / M_PER_FT),
            "why_not": joined(self.why_not),
            "notes": [str(note) for note in self.notes],
        }


def rpm_for(cutting_m_min: float, diameter_mm: float) -> float:
    """n = 1000·v/(π·d), v in m/min and d in mm; in inches 12·V/(π·D) (`cutting-speed`).

    >>> round(rpm_for(60 * 0.3048, 5 * 25.4))
    46
    """
    return 1000 * cutting_m_min / (pi * diameter_mm)


def surface_m_min(rpm: float, diameter_mm: float) -> float:
    """v = π·d·n/1000 in m/min (`cutting-speed`)."""
    return pi * diameter_mm * rpm / 1000


def speed(
    *,
    chuck: Mark | None = None,
    lathe: Mark | None = None,
    work: Mark | None = None,
    cutting_m_min: float | None = None,
    cut_mm: float | None = None,
    body_mm: float | None = None,
) -> Speed:
    """The lowest of the marks, the speed of a cut at a diameter, and the rim's surface speed there.

    A mark is a figure in rev/min, or `missing` or `damaged`: then there is no figure at all, only
    what to find first. `work` is what the workpiece or the bar sticking out may turn at, which is
    not worked out here. Sources `cutting-speed`, `trade`. Loss of grip, balance and whip are not
    in it.

    >>> found = speed(chuck=2000, lathe=1800, cutting_m_min=30, cut_mm=50)
    >>> found.lowest_rpm, found.set_by, round(found.rpm_for_cut)
    (1800.0, 'lathe', 191)
    """
    said = {"chuck": chuck, "lathe": lathe, "work": work}
    marks = {name: mark for name, mark in said.items() if mark is not None}
    _refuse(marks, cutting_m_min, cut_mm, body_mm)
    if why := tuple(_unreadable(marks)):
        return Speed(why_not=why, notes=(remark(GRIP),))
    limits = {name: float(mark) for name, mark in marks.items()}
    set_by = min(limits, key=lambda name: limits[name]) if limits else None
    lowest = None if set_by is None else limits[set_by]
    cut = None if cutting_m_min is None or cut_mm is None else rpm_for(cutting_m_min, cut_mm)
    at = lowest if cut is None else cut if lowest is None else min(cut, lowest)
    return Speed(
        lowest,
        set_by,
        cut,
        rim_at_rpm=None if body_mm is None else at,
        rim_m_min=None if body_mm is None or at is None else surface_m_min(at, body_mm),
        notes=tuple(_notes(limits, cut, lowest)),
    )


def _unreadable(marks: Mapping[str, Mark]) -> Iterator[Remark]:
    """A sentence for each mark that cannot be read."""
    for name, mark in marks.items():
        if mark in UNREADABLE:
            yield remark(MARKED[name], state=mark)


def _notes(
    limits: Mapping[str, float], cut: float | None, lowest: float | None
) -> Iterator[Remark]:
    """What to look out for."""
    if cut is not None and lowest is not None and cut > lowest:
        yield remark(
            N_("The cut asks for more than the lowest mark: {lowest} rev/min is the end of it."),
            lowest=f"{lowest:g}",
        )
    if "chuck" not in limits:
        yield remark(N_("The chuck's marked maximum was not given: look for it on the body."))
    if "lathe" not in limits:
        yield remark(N_("The lathe's highest speed was not given: look for it on the lathe."))
    yield remark(GRIP)


def _refuse(
    marks: Mapping[str, Mark], cutting: float | None, cut: float | None, body: float | None
) -> None:
    """Refuse what no speed or size can be."""
    for mark in marks.values():
        if isinstance(mark, str) and mark not in UNREADABLE:
            raise BadInput(
                N_("{mark} is not a speed."),
                N_("Give the figure in rev/min, or missing, or damaged."),
                mark=mark[:24],
            )
    sizes = [mark for mark in (*marks.values(), cutting, cut, body) if not isinstance(mark, str)]
    if not all(size is None or (isfinite(size) and size > 0) for size in sizes):
        raise BadInput(
            N_("A speed and a diameter are always above zero."), N_("Read the mark again.")
        )
    if (cutting is None) != (cut is None):
        raise BadInput(
            N_("The speed of a cut needs the cutting speed and the diameter it is cut at."),
            N_("Give both, or neither."),
        )
    if not marks and cutting is None:
        raise BadInput(
            N_("There is no speed to compare."),
            N_("Give the chuck's and the lathe's marked maximum, or a cut."),
        )


def _short(size: float | None) -> float | None:
    """One decimal."""
    return None if size is None else round(size, 1)
