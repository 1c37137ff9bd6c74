"""What shifting a body on its plate does to its balance, against a grade that the person names."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, pi

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, remark
from guide.shop.weight import KG_PER_LB

UM_RPM = 60_000 / (2 * pi)
"""µm × rev/min in 1 mm/s: 9549.3, printed as 9549 (`iso-21940-11`)."""
GRADES = (0.16, 4000.0)
"""Least and greatest grade printed, mm/s (`unbalance-example`)."""
GMM_PER_OZIN = KG_PER_LB * 1000 / 16 * 25.4
"""g·mm in 1 oz·in, exact (`exact-units`)."""
N_PER_LBF = KG_PER_LB * 9.80665
"""Newtons in a pound-force, exact (`exact-units`)."""


@dataclass(frozen=True, slots=True)
class Balance:
    """A grade at a speed and what a shifted body amounts to: a comparison, no speed to run at."""

    grade: float
    """G, in mm/s: specific unbalance times angular speed."""
    rpm: float | None = None
    turning_kg: float | None = None
    """All that turns as one: body, plate and what else is counted."""
    permissible_um: float | None = None
    """Specific unbalance that the grade stands for at this speed, µm or g·mm/kg."""
    shift_um: float | None = None
    """How far the body's middle was moved."""
    specific_um: float | None = None
    """What that shift alone makes: body mass × shift / turning mass."""
    unbalance_gmm: float | None = None
    grade_reached: float | None = None
    """The grade that the shift alone amounts to at this speed."""
    rpm_at_grade: float | None = None
    """The speed at which the shift alone amounts to the grade."""
    force_n: float | None = None
    """The turning pull of that unbalance at this speed."""
    notes: tuple[Remark, ...] = ()

    @property
    def permissible_gmm(self) -> float | None:
        """The unbalance that the grade stands for, g·mm."""
        return _times(self.permissible_um, self.turning_kg)

    def to_json(self) -> dict[str, object]:
        """The record as plain values, both systems."""
        return {
            "grade": self.grade,
            "rpm": self.rpm,
            "turning_kg": _short(self.turning_kg, 3),
            "permissible_eccentricity_um": _short(self.permissible_um, 4),
            "permissible_unbalance_gmm": _short(self.permissible_gmm, 2),
            "permissible_unbalance_ozin": _short(_times(self.permissible_gmm, 1 / GMM_PER_OZIN), 4),
            "shift_um": _short(self.shift_um, 3),
            "specific_unbalance_um": _short(self.specific_um, 3),
            "unbalance_gmm": _short(self.unbalance_gmm, 2),
            "unbalance_ozin": _short(_times(self.unbalance_gmm, 1 / GMM_PER_OZIN), 4),
            "grade_reached": _short(self.grade_reached, 3),
            "rpm_at_grade": _short(self.rpm_at_grade, 1),
            "force_n": _short(self.force_n, 2),
            "force_lbf": _short(_times(self.force_n, 1 / N_PER_LBF), 2),
            "notes": [str(note) for note in self.notes],
        }


def permissible_um(grade: float, rpm: float) -> float:
    """e = 9549·G/n in µm, which is g·mm for each kg (`iso-21940-11`).

    >>> round(permissible_um(2.5, 3600), 3)
    6.631
    """
    return UM_RPM * grade / rpm


def centrifugal_n(unbalance_gmm: float, rpm: float) -> float:
    """F = U·ω² in N, U in g·mm (`newton`).

    >>> round(centrifugal_n(1000, 3000), 1)
    98.7
    """
    return unbalance_gmm * 1e-6 * (2 * pi * rpm / 60) ** 2


def balance(
    grade: float,
    *,
    rpm: float | None = None,
    body_kg: float | None = None,
    shift_um: float | None = None,
    turning_kg: float | None = None,
) -> Balance:
    """What a grade stands for at a speed, and what a shift of the body amounts to by itself.

    e = 9549·G/n and U = e·m (`iso-21940-11`); a body of mass m moved by s makes U = m·s, over all
    that turns as one (`turning_kg`, the body alone unless given) e = U/M. No standard seen names a
    grade for a chuck: `grade` is the person's or the maker's. Rigid, and in one plane; what was
    unbalanced before the shift is not known and is not in it.

    >>> moved = balance(6.3, rpm=1000, body_kg=20, shift_um=50)
    >>> round(moved.unbalance_gmm), round(moved.grade_reached, 1), round(moved.rpm_at_grade)
    (1000, 5.2, 1203)
    """
    _refuse(grade, rpm, body_kg, shift_um, turning_kg)
    turning = body_kg if turning_kg is None else turning_kg
    specific = _specific(body_kg, shift_um, turning_kg)
    unbalance = _times(shift_um, body_kg)
    return Balance(
        grade,
        rpm,
        turning,
        permissible_um=None if rpm is None else permissible_um(grade, rpm),
        shift_um=shift_um,
        specific_um=specific,
        unbalance_gmm=unbalance,
        grade_reached=None if not specific or rpm is None else specific * rpm / UM_RPM,
        rpm_at_grade=None if not specific else permissible_um(grade, specific),
        force_n=None if unbalance is None or rpm is None else centrifugal_n(unbalance, rpm),
        notes=_notes(shift_um, turning_kg),
    )


def _specific(body: float | None, shift: float | None, turning: float | None) -> float | None:
    """The shift shared out over all that turns; the whole shift where that is not known."""
    if shift is None or body is None or turning is None:
        return shift
    return shift * body / turning


def _notes(shift: float | None, turning: float | None) -> tuple[Remark, ...]:
    """What the figures do not know."""
    if shift is None:
        return ()
    before = remark(
        N_("What was out of balance before is not known: the shift may add to it or take from it.")
    )
    alone = remark(N_("Only the body is counted to turn; plate and spindle share the shift out."))
    return (before,) if turning is not None else (before, alone)


def _refuse(
    grade: float,
    rpm: float | None,
    body: float | None,
    shift: float | None,
    turning: float | None,
) -> None:
    """Refuse a grade that is not printed, and what cannot be."""
    if not GRADES[0] <= grade <= GRADES[1]:
        raise BadInput(
            N_("A grade of {grade} is outside {low} to {high}."),
            N_("Use the maker's figure; machine tools in general have G 6.3."),
            grade=f"{grade:g}",
            low=f"{GRADES[0]:g}",
            high=f"{GRADES[1]:g}",
        )
    given = [size for size in (rpm, body, turning) if size is not None]
    if not all(isfinite(size) and size > 0 for size in given):
        raise BadInput(N_("A speed and a mass are always above zero."), N_("Look again."))
    if shift is not None and not (isfinite(shift) and shift >= 0):
        raise BadInput(
            N_("A shift is never below zero."), N_("It is half of what the runout changed by.")
        )
    if turning is not None and (body is None or turning < body):
        raise BadInput(
            N_("All that turns cannot be lighter than the body."),
            N_("Give the mass of the body, and of body and plate together."),
        )
    if rpm is None and shift is None:
        raise BadInput(
            N_("There is nothing to compare the grade with."),
            N_("Give a speed, or how far the body was moved."),
        )


def _times(one: float | None, other: float | None) -> float | None:
    """The product, where both are known."""
    return None if one is None or other is None else one * other


def _short(size: float | None, places: int) -> float | None:
    """Rounded for the plain form."""
    return None if size is None else round(size, places)
