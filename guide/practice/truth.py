"""What is hidden in a simulated chuck: drawn from a seed, or set by a lesson.

The sizes are invented for study and practice (common practice, no source), save the indicator's
error and retrace, which follow JIS B 7503:2011 as transcribed: for a 0.01 mm dial half and a third
of a division. Lengths are in inches, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import sqrt
from random import Random
from typing import Literal

Play = Literal["gaussian", "two-sided"]
"""How play shows in a reading: spread about the middle, or resting at one end or the other."""
Held = Literal["bolts", "jaws"]
"""Adjusting screws shift a body under eased bolts, or each independent jaw shifts the work."""


@dataclass(frozen=True, slots=True)
class Truth:
    """Everything about one chuck, bar, spindle, indicator and hand that nobody is told."""

    screws: int = 4
    sense: Literal["toward", "away"] = "toward"
    centre: complex = 0j
    """The body's centre off the spindle axis at station 0, x toward screw 1, y a quarter on."""
    clearance: float = 0.010
    """Diametral clearance of body and register: the body shifts half of it each way."""
    register: complex = 0j
    """Where the middle of the body's travel is: off the axis where a chip or the plate puts it."""
    tilt: complex = 0j
    """How far the centre moves for each inch away from the chuck face."""
    bar: complex = 0j
    """How far the bar sits off the middle of the jaws; turned half round in them, the other way."""
    bent: complex = 0j
    """How much further for each inch away from the chuck face, where the bar is bent."""
    lobes: Mapping[int, complex] = field(default_factory=dict)
    """Amplitude and phase of the bar's form by its order."""
    play: float = 0.0
    """Bearing play, as a whole width."""
    play_shows: Play = "gaussian"
    seat_play: float = 0.0
    """What gives besides between nose and plate, felt at the plate and in front of it."""
    grip_play: float = 0.0
    """What gives besides between jaws and bar, felt at the bar."""
    retrace: float = 0.0
    """How much lower the dial reads rising than falling."""
    swing: float = 0.0
    """Half width of the indicator's error, once over a tenth of a turn of its pointer."""
    angle_error: float = 2.5
    """Standard deviation of a position set by eye."""
    drift: float = 0.0
    """Standard deviation of how far the zero creeps from one reading to the next."""
    knock: float = 0.0
    """How far the zero jumps when the indicator is knocked."""
    knocked_at: int = -1
    """The reading, counted from nought, before which the indicator is knocked; −1 for never."""
    stick: float = 0.00005
    """Jumps in which the body moves when a screw is turned, by friction."""
    lash: float = 0.03
    """The part of a move that goes back when the key comes out."""
    across: float = 0.0
    """Cross-talk: how far the body goes sideways for each length it is moved."""
    across_spread: float = 0.03
    """The part of it that differs from move to move."""
    shift: complex = 0j
    """What torquing the bolts does to the body every time."""
    shift_spread: float = 0.00015
    """What it does besides, differently each time, in each direction (standard deviation)."""
    returns: float = 0.5
    """The part of the last shift that goes back when the bolts are eased."""
    setting: float = 0.25
    """How well this hand sets the needle, as a part of a division (standard deviation)."""
    stuck: tuple[int, ...] = ()
    """Screws that do not turn."""
    held: Held = "bolts"
    """What holds the body while it is moved: bolts that are eased and torqued, or its own jaws."""


def drawn(
    rng: Random, graduation: float, *, bolts: Literal["snug", "loose"] = "snug", screws: int = 4
) -> Truth:
    """One chuck of the studied population, for a dial of this division.

    The centre lies anywhere in a disc of 0.0045 in; ground stock with second and third orders of
    0.00002 in; play up to 0.0003 in; bolts eased to snug shift the body by about 0.0002 in when
    they are torqued, slack ones by about 0.0005 in.
    """
    loose = bolts == "loose"
    size = 3.0 if loose else 1.0
    return Truth(
        screws=screws,
        sense=rng.choice(("toward", "away")),
        centre=0.0045 * sqrt(rng.random()) * _way(rng),
        lobes={order: rng.gauss(0, 0.00002) * _way(rng) for order in (2, 3)},
        play=rng.uniform(0.00005, 0.0003),
        retrace=graduation * rng.uniform(0, 0.33),
        swing=graduation * rng.uniform(0, 0.5),
        drift=rng.uniform(0, 0.00001),
        stick=rng.uniform(0.00002, 0.0001),
        lash=rng.uniform(0, 0.06),
        across=rng.gauss(0, 0.07),
        shift=complex(rng.gauss(0, 0.0001 * size), rng.gauss(0, 0.0001 * size)),
        shift_spread=0.00015 * size,
        returns=rng.random(),
    )


def _way(rng: Random) -> complex:
    """A direction, all equally likely."""
    from cmath import exp, pi

    return exp(2j * pi * rng.random())
