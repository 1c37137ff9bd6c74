"""Why a lift is outside the revised NIOSH lifting equation, one sentence a reason.

Source: `niosh`, p. 6 for the kinds of lift, the multipliers' own limits for the figures.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from math import isfinite
from types import MappingProxyType

from guide.plain import N_, BadInput
from guide.shop.lift_multipliers import LONGEST_HOURS, MOST_ASYMMETRY, System
from guide.shop.remark import Remark, remark

OUTSIDE: Mapping[str, str] = MappingProxyType(
    {
        "one-handed": N_("The equation is not for lifts with one hand."),
        "seated": N_("The equation is not for lifts made sitting."),
        "kneeling": N_("The equation is not for lifts made kneeling."),
        "restricted-space": N_(
            "The equation is not for places where the person cannot stand freely."
        ),
        "unstable-load": N_("The equation is not for loads that shift or hang loose."),
        "carrying": N_("The equation is not for carrying a load."),
        "pushing": N_("The equation is not for pushing or pulling a load."),
        "team": N_("The equation is for one person; a lift by two or more is outside it."),
        "hoist": N_("The equation is not for loads that a hoist or another device takes."),
    }
)
"""What puts a lift outside the equation whatever its figures, and the sentence that says so."""


def outside_for(names: Collection[str]) -> tuple[Remark, ...]:
    """The sentences for the conditions named; BadInput for a name not in `OUTSIDE`."""
    for name in sorted(set(names) - OUTSIDE.keys()):
        raise BadInput(
            N_("{name} is not a condition known here."),
            N_("Use any of: {names}."),
            name=name,
            names=", ".join(OUTSIDE),
        )
    return tuple(remark(sentence) for name, sentence in OUTSIDE.items() if name in names)


def hands_beyond(h: float, v: float, a: float, end: str, system: System) -> Iterator[Remark]:
    """A sentence for each limit that the hands pass at one end of the lift."""
    if h > system.reach_limit:
        yield remark(
            N_("The reach at the {end}, {size} {length}, is beyond {limit} {length}."),
            end=end,
            size=f"{h:g}",
            length=system.length,
            limit=system.reach_limit,
        )
    if v > system.height_limit:
        yield remark(
            N_("The hands at the {end} are {size} {length} up, above {limit} {length}."),
            end=end,
            size=f"{v:g}",
            length=system.length,
            limit=system.height_limit,
        )
    if a > MOST_ASYMMETRY:
        yield remark(
            N_("The body turns {size}° at the {end}, more than {limit}°."),
            end=end,
            size=f"{a:g}",
            limit=MOST_ASYMMETRY,
        )


def task_beyond(d: float, hours: float, fm: float, system: System) -> Iterator[Remark]:
    """A sentence for each limit that the lift as a whole passes; `fm` 0 means too often."""
    if d > system.height_limit:
        yield remark(
            N_("The travel of {size} {length} is more than {limit} {length}."),
            size=f"{d:g}",
            length=system.length,
            limit=system.height_limit,
        )
    if hours > LONGEST_HOURS:
        yield remark(
            N_("{hours} hours is longer than the {limit} hours that the table covers."),
            hours=f"{hours:g}",
            limit=LONGEST_HOURS,
        )
    elif fm == 0:
        yield remark(
            N_("So many lifts a minute are more than the table allows for this time and height.")
        )


def refuse_impossible(not_negative: Collection[float], above_zero: Collection[float]) -> None:
    """BadInput for figures that no lift can have."""
    if not all(isfinite(size) and size >= 0 for size in not_negative):
        raise BadInput(
            N_("A height, a travel or a turn of the body is never below zero."),
            N_("Measure it again; a turn counts the same to either side."),
        )
    if not all(isfinite(size) and size > 0 for size in above_zero):
        raise BadInput(
            N_("The reach, the load, the lifts a minute and the hours are always above zero."),
            N_("Measure it again."),
        )
