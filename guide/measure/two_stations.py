"""What the radial screws can and cannot do for a bar that is off and leans."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, degrees, hypot

from guide.measure.angles import turned
from guide.measure.axis import STANDS_OUT, Axis, Place
from guide.measure.limits import Limits
from guide.measure.rounding import tidy
from guide.measure.uncertainty import expanded
from guide.measure.verdict import Decision, Verdict, decide
from guide.plain import N_, BadInput

TILT_ALONE = {
    "outside": N_("The tilt alone is more than the tolerance allows: no radial screw cures it."),
    "undecided": N_("The tilt alone is too near the tolerance to say whether screws can meet it."),
    "within": N_("The tilt alone leaves room: the screws can meet the tolerance over this range."),
}
"""What the best shift leaves of the tolerance over a range, one sentence for each verdict."""


@dataclass(frozen=True, slots=True)
class Compromise:
    """The best sideways shift for a working distance or range, and what then remains.

    Lengths in the readings' unit, distances in the stations'.
    """

    working: tuple[float, float]
    """From and to; the same twice for one distance."""
    off: Place
    """The centre midway as it is now, before any shift."""
    slope_uncertainty: float | None
    """Two standard uncertainties of the slope, or None without an uncertainty."""
    shift: float
    """How far the whole body has to go, the same at every station."""
    toward_deg: float
    """The angle from screw 1 to which it has to go."""
    remains: tuple[Place, ...]
    """What is left at each station read and at the ends of the range, in order."""
    largest: Place
    """The end of the range where most is left."""
    within_for: float | None
    """How far either side of midway the tilt alone stays within tolerance; None unless it leans."""
    tilt_alone: Decision | None
    """Whether even the best shift can meet the tolerance over the range; None for one distance."""
    decision: Decision | None
    """The verdict on what is left at most, shift made exactly; None without a tolerance or u."""
    flags: frozenset[str]
    """`tilt` where no shift can meet the tolerance, `beyond-travel` where the screws end first."""

    def to_json(self) -> dict[str, object]:
        """The compromise as `calc tilt --working` answers it."""
        return {
            "from": self.working[0],
            "to": self.working[1],
            "offset": self.off.to_json(),
            "slope_expanded_uncertainty": _tidied(self.slope_uncertainty),
            "shift": tidy(self.shift),
            "toward_deg": self.toward_deg,
            "remains": [place.to_json() for place in self.remains],
            "largest": tidy(self.largest.fitted_tir),
            "expanded_uncertainty": _tidied(self.largest.expanded_uncertainty),
            "tilt_within_for": _tidied(self.within_for),
            "tilt_alone": None if self.tilt_alone is None else self.tilt_alone.verdict,
            "verdict": None if self.decision is None else self.decision.verdict,
            "rule": None if self.decision is None else self.decision.rule,
            "factor": None if self.decision is None else self.decision.factor,
        }


def compromise(line: Axis, near: float, far: float, limits: Limits) -> Compromise:
    """The shift that makes the largest runout from `near` to `far` least; one distance: both same.

    The screws move the whole body sideways, so every centre moves alike and the slope stays. The
    centres over the range are a straight stretch; the circle round it that is smallest is about
    its middle, so the middle goes to the axis and ±slope·length/2 is left at the ends: a full
    runout of slope·length there, and 2·slope·distance from the middle anywhere. It assumes a
    straight bar and a shift that tilts nothing; the uncertainty left at a station is that of the
    centre as worked out there, the shift itself taken as exact. Where next to nothing is left, the
    true runout is below 1.22·U 95 times in 100, not U (Rayleigh), and the verdict counts with
    that. It stops holding beyond the stations read where the bar is bent, which two stations
    cannot show, and for a bar that is not round. BadInput where `far` is nearer than `near`.
    """
    if far < near:
        raise BadInput(
            N_("The working range from {near} to {far} ends before it begins."),
            N_("Give the distance nearer to the chuck face first."),
            near=near,
            far=far,
        )
    middle = (near + far) / 2
    a, b = line.centre(middle)
    places = sorted({*line.stations, near, far})
    left = tuple(line.at(z, moved=(-a, -b)) for z in places)
    largest = max((p for p in left if p.station in (near, far)), key=_size)
    alone = _tilt_alone(line, far - near, limits)
    return Compromise(
        working=(near, far),
        off=line.at(middle),
        slope_uncertainty=None if line.u_slope is None else expanded(line.u_slope),
        shift=hypot(a, b),
        toward_deg=turned(degrees(atan2(-b, -a))),
        remains=left,
        largest=largest,
        within_for=_within_for(line, limits),
        tilt_alone=alone,
        decision=_decided(largest.fitted_tir, line.u_at(largest.station), limits),
        flags=_flags(alone, hypot(a, b), limits),
    )


def _size(place: Place) -> tuple[float, float]:
    """What is left, at twelve digits, then how uncertain it is."""
    return tidy(place.fitted_tir), place.expanded_uncertainty or 0.0


def _tilt_alone(line: Axis, length: float, limits: Limits) -> Decision | None:
    """The verdict on slope·length, which the best shift leaves; None for a single distance."""
    if length == 0 or line.u_slope is None or limits.tolerance is None:
        return None
    u = line.u_slope * length
    return decide(line.slope * length, u, float(limits.tolerance), limits.rule)


def _decided(largest: float, u: float | None, limits: Limits) -> Decision | None:
    """The verdict on what is left; `u` is that of the centre, half that of the full runout.

    What the shift misses by is a vector, since the same readings set the shift: guarded, `within`
    asks for the 95 % length of a plane vector, 2.448·u, which holds for any runout left.
    """
    if u is None or limits.tolerance is None:
        return None
    tolerance = float(limits.tolerance)
    made = decide(tidy(largest), 2 * u, tolerance, limits.rule)
    if made.rule == "simple" or made.verdict == "outside":
        return made
    guard = STANDS_OUT * 2 * u
    enough = largest + guard <= tolerance * (1 + 1e-12)
    verdict: Verdict = "within" if enough else "undecided"
    return replace(made, verdict=verdict, factor=STANDS_OUT, guard=guard)


def _within_for(line: Axis, limits: Limits) -> float | None:
    """Tolerance over twice the slope."""
    if limits.tolerance is None or tidy(line.slope, 1.0) == 0:
        return None
    return float(limits.tolerance) / (2 * line.slope)


def _flags(alone: Decision | None, shift: float, limits: Limits) -> frozenset[str]:
    """What no screw cures, and what these screws cannot reach."""
    travel = None if limits.clearance is None else float(limits.clearance) / 2
    found = {"tilt"} if alone is not None and alone.verdict == "outside" else set()
    found |= {"beyond-travel"} if travel is not None and shift > travel * (1 + 1e-12) else set()
    return frozenset(found)


def _tidied(number: float | None) -> float | None:
    """A number without the noise of rounding, or None."""
    return None if number is None else tidy(number)
