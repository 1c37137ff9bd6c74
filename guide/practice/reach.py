"""How true a hidden chuck can be made at all, and what is the right thing to say of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from guide.practice.chuck import Chuck
from guide.practice.truth import Truth

PLAY_LEFT = 0.8
"""The part of a tolerance that play may take before nobody can prove what is within (invented)."""


@dataclass(frozen=True, slots=True)
class Reach:
    """The least runout that screws can reach, in inches, and why it is not less."""

    runout: float
    centre: complex
    """Where the body has to be for it."""
    right: str
    """accept or stop: what a person who knew everything would end with."""
    flag: str = ""
    """Why it is a stop, from the closed list of flags; blank where it can be accepted."""


def reach(truth: Truth, tolerance: float, stations: Sequence[float] = (1.0,)) -> Reach:
    """What can be reached at the worst of the stations, for a tolerance in inches."""
    centre = _within_travel(truth, _best_centre(truth, stations))
    runout = at_worst(truth, centre, stations)
    if truth.bar or truth.bent:
        return Reach(runout, centre, "stop", "cannot-prove")
    if truth.play > PLAY_LEFT * tolerance:
        return Reach(runout, centre, "stop", "spindle-limit")
    if runout <= tolerance:
        return Reach(runout, centre, "accept")
    return Reach(runout, centre, "stop", _why(truth, tolerance, stations))


def at_worst(truth: Truth, centre: complex, stations: Sequence[float]) -> float:
    """The true full runout at the worst station with the body at a place."""
    chuck = Chuck(replace(truth, centre=centre), Random(0))
    return max(chuck.runout(each) for each in stations)


def _best_centre(truth: Truth, stations: Sequence[float]) -> complex:
    """Where the body would have to be, midway between what the outer stations ask for."""
    chuck = Chuck(replace(truth, centre=0j), Random(0))
    wanted = [-chuck.centre_at(each) for each in (min(stations), max(stations))]
    return sum(wanted) / 2


def _within_travel(truth: Truth, centre: complex) -> complex:
    """The nearest place that the body can go to."""
    if truth.stuck:
        return truth.centre
    off, travel = centre - truth.register, truth.clearance / 2
    return centre if abs(off) <= travel else truth.register + off / abs(off) * travel


def _why(truth: Truth, tolerance: float, stations: Sequence[float]) -> str:
    """What stands in the way: the first of these that would do it alone."""
    free = replace(truth, clearance=1e3, stuck=())
    round_bar = replace(free, lobes={})
    if at_worst(free, _best_centre(free, stations[:1]), stations[:1]) > tolerance:
        return "form"
    if at_worst(round_bar, _best_centre(free, stations), stations) > tolerance:
        return "tilt"
    return "process-limited" if truth.stuck else "beyond-travel"
