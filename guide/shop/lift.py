"""The revised NIOSH lifting equation: what one person's two-handed lift counts for.

RWL = LC·HM·VM·DM·AM·FM·CM, lifting index = load / RWL. Source: `niosh`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import asdict, dataclass, field
from math import prod

from guide.plain import N_, BadInput
from guide.shop import lift_multipliers as multiplier
from guide.shop.lift_duration import Duration, duration
from guide.shop.lift_limits import hands_beyond, outside_for, refuse_impossible, task_beyond
from guide.shop.lift_multipliers import SYSTEMS, System
from guide.shop.remark import Remark, joined

KG_PER_LB = 0.45359237
"""Exact by definition (`exact-units`)."""
ROUNDING = 1
"""How far, in cm or in, a typed travel may differ from the two heights."""


@dataclass(frozen=True, slots=True)
class Hands:
    """Where the hands are at one end of a lift, in cm or in, and the turn of the body, degrees."""

    h: float
    """Forward from the middle between the ankles to the middle of the grip."""
    v: float
    """Up from the floor to the hands."""
    a: float = 0.0
    """Away from straight ahead, to either side."""


@dataclass(frozen=True, slots=True)
class Multipliers:
    """The six multipliers at one end of a lift; None where the equation is not for it."""

    HM: float | None = None
    VM: float | None = None
    DM: float | None = None
    AM: float | None = None
    FM: float | None = None
    CM: float | None = None

    def product(self) -> float:
        """What is left of the load constant; 0 outside the equation."""
        return prod(size or 0.0 for size in asdict(self).values())


@dataclass(frozen=True, slots=True)
class End:
    """What one end of the lift gives by itself."""

    rwl_lb: float
    rwl_kg: float
    lifting_index: float | None
    multipliers: Multipliers

    def to_json(self) -> dict[str, object]:
        """The record as plain values."""
        return {
            "rwl_lb": _short(self.rwl_lb),
            "rwl_kg": _short(self.rwl_kg),
            "lifting_index": _short(self.lifting_index),
            "multipliers": _plain(self.multipliers),
        }


@dataclass(frozen=True, slots=True)
class Lift:
    """The recommended weight limit and lifting index, or why there is none; never a permission."""

    applicable: bool
    why_not: tuple[Remark, ...] = ()
    rwl_lb: float | None = None
    rwl_kg: float | None = None
    lifting_index: float | None = None
    """Load over RWL; None without a load."""
    multipliers: Multipliers = Multipliers()
    governs: str | None = None
    """`origin` or `destination`: the end with the lower limit, whose multipliers stand here."""
    ends: Mapping[str, End] = field(default_factory=dict)
    """Each end by itself; the destination only where the load is set down with care."""
    duration: Duration | None = None
    """The class of the lifting time, and the recovery it asks for."""

    def to_json(self) -> dict[str, object]:
        """The record as plain values, figures to four decimals, far finer than the equation."""
        return {
            "applicable": self.applicable,
            "why_not": joined(self.why_not),
            "rwl_lb": _short(self.rwl_lb),
            "rwl_kg": _short(self.rwl_kg),
            "lifting_index": _short(self.lifting_index),
            "multipliers": _plain(self.multipliers),
            "governs": self.governs,
            "ends": {name: end.to_json() for name, end in self.ends.items()},
            "duration": None if self.duration is None else self.duration.to_json(),
        }


def lift(
    origin: Hands,
    travel: float | None = None,
    *,
    unit: str,
    coupling: str,
    per_minute: float = 0.2,
    hours: float = 1.0,
    load: float | None = None,
    destination: Hands | None = None,
    outside: Collection[str] = (),
) -> Lift:
    """The recommended weight limit and index of one person's lift with two hands, standing.

    `unit` is "metric" (cm, kg) or "us" (in, lb) for every figure. `travel` is D, how far the hands
    go up or down; left out, it is the difference of the two heights. With `destination` (the load
    is set down with care, as a chuck is) the lower of the two limits holds (pp. 21, 26). Outside
    the equation (`outside` names a reason, or a multiplier is 0) there is no figure. `hours` is the
    lifting that counts as one stretch (`lift_duration`). It assumes a sound floor, mild air and
    the recovery told; two people or a hoist are not in it.

    >>> box = lift(Hands(30, 75, 30), 50, unit="metric", coupling="fair", per_minute=3, load=15)
    >>> round(box.rwl_kg, 2), round(box.lifting_index, 2)
    (13.88, 1.08)
    """
    system = _system(unit)
    ends = {"origin": origin} | ({"destination": destination} if destination else {})
    d = _travel(origin, travel, destination, system)
    refuse_impossible(
        [d, *(size for hands in ends.values() for size in (hands.v, hands.a))],
        [per_minute, hours, *(hands.h for hands in ends.values()), 1 if load is None else load],
    )
    if why := outside_for(outside):
        return Lift(False, why)
    fm = multiplier.frequency(per_minute, hours, origin.v, system)
    each = {end: _multipliers(hands, d, fm, coupling, system) for end, hands in ends.items()}
    governs = min(each, key=lambda end: each[end].product())
    if why := _beyond(ends, d, hours, fm, system):
        return Lift(False, why, multipliers=each[governs], governs=governs)
    told = {end: _end(sizes, load, system) for end, sizes in each.items()}
    lower = told[governs]
    return Lift(
        True,
        rwl_lb=lower.rwl_lb,
        rwl_kg=lower.rwl_kg,
        lifting_index=lower.lifting_index,
        multipliers=lower.multipliers,
        governs=governs,
        ends=told,
        duration=duration(hours),
    )


def _end(sizes: Multipliers, load: float | None, system: System) -> End:
    """The limit and index of one end."""
    limit = system.load_constant * sizes.product()
    return End(
        rwl_lb=limit if system.mass == "lb" else limit / KG_PER_LB,
        rwl_kg=limit if system.mass == "kg" else limit * KG_PER_LB,
        lifting_index=None if load is None else load / limit,
        multipliers=sizes,
    )


def _multipliers(hands: Hands, d: float, fm: float, coupling: str, system: System) -> Multipliers:
    """The six multipliers at one end of the lift."""
    return Multipliers(
        HM=multiplier.horizontal(hands.h, system),
        VM=multiplier.vertical(hands.v, system),
        DM=multiplier.distance(d, system),
        AM=multiplier.asymmetry(hands.a),
        FM=fm,
        CM=multiplier.coupling(coupling, hands.v, system),
    )


def _beyond(
    ends: dict[str, Hands], d: float, hours: float, fm: float, system: System
) -> tuple[Remark, ...]:
    """Every limit of the equation that this lift passes."""
    places = (
        each
        for end, hands in ends.items()
        for each in hands_beyond(hands.h, hands.v, hands.a, end, system)
    )
    return (*places, *task_beyond(d, hours, fm, system))


def _system(unit: str) -> System:
    """The constants of the system named."""
    if unit not in SYSTEMS:
        raise BadInput(
            N_("{unit} is not a system of units here."), N_("Use metric or us."), unit=unit
        )
    return SYSTEMS[unit]


def _travel(origin: Hands, travel: float | None, end: Hands | None, system: System) -> float:
    """D as given, or from the two heights; refused where the two do not agree."""
    if end is not None:
        between = abs(end.v - origin.v)
        if travel is None or abs(travel - between) <= ROUNDING:
            return between if travel is None else travel
        raise BadInput(
            N_("A travel of {travel} {length} does not lead from {start} to {stop} {length}."),
            N_("Leave the travel out, or measure the heights again."),
            travel=f"{travel:g}",
            length=system.length,
            start=f"{origin.v:g}",
            stop=f"{end.v:g}",
        )
    if travel is None:
        raise BadInput(
            N_("How far the load goes up or down is missing."),
            N_("Give the travel D, or where the lift ends."),
        )
    return travel


def _plain(sizes: Multipliers) -> dict[str, float | None]:
    """The multipliers by name, shortened."""
    return {name: _short(size) for name, size in asdict(sizes).items()}


def _short(size: float | None) -> float | None:
    """Four decimals."""
    return None if size is None else round(size, 4)
