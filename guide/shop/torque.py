"""A calculated bolt torque, to compare the maker's figure with; it is never the figure to use."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite

from guide.plain import N_, BadInput
from guide.shop.bolt_class import bolt_class
from guide.shop.engagement import HANDBOOK_STEEL, least_engagement
from guide.shop.remark import Remark, joined, remark
from guide.shop.threads import Thread, stress_area
from guide.shop.torque_basis import Basis

NM_PER_LBF_FT = 1.3558179483314004
"""Pound × standard gravity × 0.3048 m, exact (`exact-units`)."""
HAIR_MM = 1e-6
"""Less than this is the arithmetic of inches, not a shorter thread."""


@dataclass(frozen=True, slots=True)
class Torque:
    """What a bolt's tables lead to, on a named basis; preload and torque None with a reason."""

    thread: str
    stress_area_mm2: float
    """By formula."""
    table_area_mm2: float
    """As printed."""
    basis: Remark | None = None
    preload_n: float | None = None
    torque_nm: float | None = None
    why_not: tuple[Remark, ...] = ()
    notes: tuple[Remark, ...] = ()

    @property
    def torque_ftlb(self) -> float | None:
        """The torque in lbf·ft."""
        return None if self.torque_nm is None else self.torque_nm / NM_PER_LBF_FT

    def to_json(self) -> dict[str, object]:
        """The record as plain values; areas to 0.01 mm², preload to 1 N, torque to 0.1."""
        return {
            "thread": self.thread,
            "stress_area_mm2": round(self.stress_area_mm2, 2),
            "table_area_mm2": round(self.table_area_mm2, 2),
            "preload_n": None if self.preload_n is None else round(self.preload_n),
            "torque_nm": None if self.torque_nm is None else round(self.torque_nm, 1),
            "torque_ftlb": None if self.torque_ftlb is None else round(self.torque_ftlb, 1),
            "basis": None if self.basis is None else str(self.basis),
            "why_not": joined(self.why_not),
            "notes": [str(note) for note in self.notes],
        }


def torque(
    thread: Thread,
    grade: str | None = None,
    *,
    female: str | None = None,
    engagement_mm: float | None = None,
    basis: Basis | None = None,
) -> Torque:
    """The torque that the named basis gives for this bolt, for comparison only.

    There is a figure only when the bolt's class, the female thread (`steel`, `cast-iron`,
    `aluminium`), the length of full thread engaged and the basis are all known, and the engagement
    is long enough (`least_engagement`). It knows no plating, damage or gasket, nor whether the
    plate or the bolt's seat is strong enough.

    >>> from guide.shop.threads import parse_thread
    >>> from guide.shop.torque_basis import NutFactor
    >>> bolt = torque(parse_thread("3/8-16"), "8", female="steel", engagement_mm=16,
    ...               basis=NutFactor(0.20))
    >>> round(bolt.torque_ftlb)
    44
    """
    bare = Torque(
        thread.name,
        stress_area(thread),
        thread.table_area_mm2,
        None if basis is None else basis.sentence(thread),
    )
    known = None if grade is None else bolt_class(grade, thread)
    why = (*_missing(grade, female, engagement_mm, basis), *_short(thread, female, engagement_mm))
    if why or known is None or basis is None or female is None or engagement_mm is None:
        return replace(bare, why_not=why)
    preload = basis.preload_n(thread, known)
    return replace(
        bare,
        preload_n=preload,
        torque_nm=basis.torque_nm(thread, preload),
        notes=_notes(thread, female, engagement_mm),
    )


def _missing(
    grade: str | None, female: str | None, engagement_mm: float | None, basis: Basis | None
) -> tuple[Remark, ...]:
    """A sentence for each thing that must be known first."""
    needed = (
        (grade, N_("The bolt's class is not known.")),
        (female, N_("The material of the female thread is not known.")),
        (engagement_mm, N_("The length of thread engaged is not known.")),
        (basis, N_("No basis is chosen: a nut factor K, or friction coefficients.")),
    )
    return tuple(remark(sentence) for given, sentence in needed if given is None)


def _short(thread: Thread, female: str | None, engagement_mm: float | None) -> tuple[Remark, ...]:
    """A sentence when the thread may strip before the bolt is at its preload."""
    if engagement_mm is not None and not (isfinite(engagement_mm) and engagement_mm > 0):
        raise BadInput(
            N_("The length of thread engaged must be above zero."), N_("Measure it again.")
        )
    least = 0.0 if female is None else least_engagement(female, thread.diameter_mm)
    if engagement_mm is None or engagement_mm >= least - HAIR_MM:
        return ()
    return (
        remark(
            N_(
                "{given} mm of thread engaged is less than the {least} mm asked for {thread} in"
                " {female}: the thread may strip first."
            ),
            given=f"{engagement_mm:.1f}",
            least=f"{least:.1f}",
            thread=thread.name,
            female=female,
        ),
    )


def _notes(thread: Thread, female: str, engagement_mm: float) -> tuple[Remark, ...]:
    """What to look out for with this female thread."""
    if female == "aluminium":
        return (remark(N_("In aluminium the torque may have to be 30 % less, or lower still.")),)
    if female == "steel" and engagement_mm < HANDBOOK_STEEL * thread.diameter_mm:
        return (remark(N_("A handbook asks for 1.5 diameters of engagement in ordinary steel.")),)
    return ()
