"""A handling bar that carries a chuck: how hard it is bent and how far it sags there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite, pi

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, joined, remark
from guide.shop.weight import DENSITIES, cylinder_m3

GRAVITY = 9.80665
"""m/s², standard (`exact-units`)."""
STEEL_MPA = 200_000.0
"""Elastic modulus of steel, 200 GPa (`steel-modulus`)."""
SLENDER = 5.0
"""Length over diameter from which bending is all that counts: common practice (`trade`)."""
SMALL_SAG = 0.1
"""Sag over length above which the formulas do not hold: common practice (`trade`)."""
WAYS = ("both-ends", "one-end")
"""Resting on both ends, or held at one end and free at the other."""


@dataclass(frozen=True, slots=True)
class Bar:
    """Bending of a round steel bar under a load and its own weight; never that it is enough."""

    second_moment_mm4: float
    moment_nmm: float | None = None
    """The largest bending moment."""
    stress_mpa: float | None = None
    """The largest bending stress, at the skin."""
    sag_mm: float | None = None
    """At the load."""
    own_kg: float | None = None
    """The bar itself."""
    yield_ratio: float | None = None
    """The yield strength given over that stress; None without one."""
    why_not: tuple[Remark, ...] = ()
    notes: tuple[Remark, ...] = ()

    def to_json(self) -> dict[str, object]:
        """The record as plain values."""
        return {
            "second_moment_mm4": round(self.second_moment_mm4, 1),
            "bar_kg": _short(self.own_kg, 2),
            "bending_moment_nm": None
            if self.moment_nmm is None
            else round(self.moment_nmm / 1000, 2),
            "bending_stress_mpa": _short(self.stress_mpa, 2),
            "sag_mm": _short(self.sag_mm, 4),
            "yield_over_stress": _short(self.yield_ratio, 2),
            "why_not": joined(self.why_not),
            "notes": [str(note) for note in self.notes],
        }


def second_moment(diameter_mm: float, bore_mm: float = 0.0) -> float:
    """I = π/64·(D⁴ − d⁴) in mm⁴, of a round bar or tube (`beam-tables`).

    >>> round(second_moment(50))
    306796
    """
    return pi / 64 * (diameter_mm**4 - bore_mm**4)


def bar(
    load_kg: float,
    diameter_mm: float,
    length_mm: float,
    at_mm: float | None = None,
    *,
    way: str,
    bore_mm: float = 0.0,
    yield_mpa: float | None = None,
    own_weight: bool = True,
    modulus_mpa: float = STEEL_MPA,
) -> Bar:
    """Bending stress and sag of a steel bar that carries a load `at_mm` from the (held) end.

    Both ends resting: M = P·a·b/L and sag P·a²·b²/(3·E·I·L) at the load; held at one end: M = P·a
    and P·a³/(3·E·I); stress M·(D/2)/I (`beam-tables`). Its own weight is added, at the heavier
    density of steel. Without `at_mm` the load is in the middle, or at the free end. A knock, a
    notch, a thread, and how the bar is gripped are not in it; nor is the load's own length.

    >>> found = bar(25, 40, 600, 300, way="both-ends", own_weight=False)
    >>> round(found.stress_mpa, 1), round(found.sag_mm, 3)
    (5.9, 0.044)
    """
    at = at_mm if at_mm is not None else length_mm / 2 if way == "both-ends" else length_mm
    _refuse(load_kg, (diameter_mm, bore_mm), (length_mm, at), way, yield_mpa)
    force = load_kg * GRAVITY
    own = cylinder_m3(diameter_mm, length_mm, bore_mm) * DENSITIES["steel"][1]
    spread = own * GRAVITY / length_mm if own_weight else 0.0
    i = second_moment(diameter_mm, bore_mm)
    moment, sag = (_resting if way == "both-ends" else _held)(force, spread, length_mm, at)
    stress = moment * diameter_mm / 2 / i
    sag = sag / (modulus_mpa * i)
    if sag > SMALL_SAG * length_mm:
        return Bar(i, why_not=(_sags(),))
    ratio = None if yield_mpa is None else yield_mpa / stress
    return Bar(
        i,
        moment,
        stress,
        sag,
        own,
        ratio,
        notes=tuple(_notes(length_mm / diameter_mm, ratio)),
    )


def _resting(force: float, spread: float, length: float, at: float) -> tuple[float, float]:
    """Largest moment, and sag at the load times E·I, of a bar on both its ends."""
    b = length - at
    left = force * b / length + spread * length / 2

    def moment(x: float) -> float:
        """At a place along the bar."""
        return left * x - spread * x**2 / 2 - force * max(x - at, 0)

    peaks = [at]
    if spread:
        peaks += [x for x in (left / spread, (left - force) / spread) if 0 < x < length]
    sag = force * at**2 * b**2 / (3 * length)
    sag += spread * at * (length**3 - 2 * length * at**2 + at**3) / 24
    return max(moment(x) for x in peaks), sag


def _held(force: float, spread: float, length: float, at: float) -> tuple[float, float]:
    """The same of a bar held at one end and free at the other."""
    sag = force * at**3 / 3 + spread * at**2 * (6 * length**2 - 4 * length * at + at**2) / 24
    return force * at + spread * length**2 / 2, sag


def _sags() -> Remark:
    """Why there is no figure."""
    return remark(
        N_("The bar would sag by more than a tenth of its length: it is too thin for this.")
    )


def _notes(slender: float, ratio: float | None) -> Iterator[Remark]:
    """What to look out for."""
    if slender < SLENDER:
        yield remark(
            N_(
                "The bar is short for its thickness: shear and its supports count as much as"
                " bending."
            )
        )
    if ratio is None:
        yield remark(N_("Without the bar's yield strength there is nothing to compare with."))
    elif ratio <= 1:
        yield remark(N_("The stress reaches the yield strength: the bar stays bent, or lets go."))
    else:
        yield remark(
            N_(
                "A knock or a jerk multiplies the stress; lifting gear is made to carry several"
                " times over."
            )
        )


def _refuse(
    load: float,
    across: tuple[float, float],
    along: tuple[float, float],
    way: str,
    strength: float | None,
) -> None:
    """Refuse what no bar can be."""
    (diameter, bore), (length, at) = across, along
    if way not in WAYS:
        raise BadInput(
            N_("{way} is not a way of holding a bar known here."),
            N_("Use one of: {names}."),
            way=way,
            names=", ".join(WAYS),
        )
    above = (load, diameter, length, *(() if strength is None else (strength,)))
    if not all(isfinite(size) and size > 0 for size in above):
        raise BadInput(
            N_("A load, a size and a strength are always above zero."), N_("Measure it again.")
        )
    if not 0 <= bore < diameter:
        raise BadInput(
            N_("The bore must be smaller than the bar and not below zero."),
            N_("Leave it out for a solid bar."),
        )
    inside = 0 < at < length if way == "both-ends" else 0 < at <= length
    if not inside:
        raise BadInput(
            N_("The load at {at} mm does not hang on a bar of {length} mm."),
            N_("Measure from the end that rests or is held."),
            at=f"{at:g}",
            length=f"{length:g}",
        )


def _short(size: float | None, places: int) -> float | None:
    """Rounded for the plain form."""
    return None if size is None else round(size, places)
