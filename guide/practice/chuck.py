"""The simulated chuck itself: it is turned, read, eased, moved and torqued, and tells the truth."""

from __future__ import annotations

from cmath import exp, phase
from collections.abc import Sequence
from decimal import Decimal
from math import cos, degrees, pi, radians, sin
from random import Random
from typing import Literal

from guide.measure.angles import of_screw
from guide.practice.truth import Truth

SMALLEST_TURN = 0.0001
"""How far the body goes for one small turn of a screw, in inches."""
DROP = 0.0005
"""How far a body drops when its bolts go slack, at the least (common practice, no source)."""
SLACK = 3.0
"""How many times as far torquing shifts a body from slack as from snug, as in `truth.drawn`."""
NIP = 0.1
"""The part of a torque's spread that nipping the screws evenly does (invented)."""
Where = Literal["nose", "plate", "bar"]
"""Where somebody pushes and pulls."""


class Chuck:
    """A chuck on a spindle with an indicator against the bar; lengths in inches."""

    def __init__(self, truth: Truth, rng: Random, station: float = 0.0) -> None:
        self.truth, self.rng = truth, rng
        self.station = station
        self.centre = truth.centre
        self.zero = 0.0
        self.angle = 0.0
        self.tight = truth.held == "bolts"
        self.slack = False
        """Whether the bolts were eased further than snug."""
        self.half_round = False
        """Whether the bar was turned half round in the jaws."""
        self.readings = 0
        self.last_shift = truth.shift * 0

    def at(self, angle_deg: float, station: float | None = None) -> float:
        """The surface at a place of the turn, exactly: centre off, tilt and form."""
        turn = radians(angle_deg)
        centre = self.centre_at(self.station if station is None else station)
        on_bar = turn - pi if self.half_round else turn
        form = sum(
            abs(lobe) * cos(order * on_bar - phase(lobe))
            for order, lobe in self.truth.lobes.items()
        )
        return centre.real * cos(turn) + centre.imag * sin(turn) + form

    def centre_at(self, station: float) -> complex:
        """Where the bar's centre is at a station."""
        off = self.truth.bar + self.truth.bent * station
        return self.chuck_at(station) + (-off if self.half_round else off)

    def chuck_at(self, station: float) -> complex:
        """Where the middle of the jaws is at a station, whatever the bar in them is like."""
        return self.centre + self.truth.tilt * station

    def runout(self, station: float | None = None) -> float:
        """The true full runout at a station: highest less lowest round the turn."""
        if not self.truth.lobes:
            return 2 * abs(self.centre_at(self.station if station is None else station))
        seen = [self.at(angle, station) for angle in range(0, 360, 3)]
        return max(seen) - min(seen)

    def needle(self, angle_deg: float | None = None) -> float:
        """What the dial shows now, between its divisions: zero, retrace and swing counted in."""
        angle = self.angle if angle_deg is None else angle_deg
        here = self.at(angle)
        slope = self.at(angle + 1) - self.at(angle - 1)
        back = -0.5 * self.truth.retrace * _sign(slope)
        shown = self.zero + here + back
        return shown + self.truth.swing * sin(2 * pi * shown / 0.01)

    def read(self, angle_deg: float, graduation: float) -> Decimal:
        """One reading by eye: the position nearly right, the needle to the nearest division."""
        self._between_readings()
        angle = angle_deg + self.rng.gauss(0, self.truth.angle_error)
        self.angle = angle_deg % 360
        return self.to_division(self.needle(angle) + self._given_way(), graduation)

    def to_division(self, shown: float, graduation: float) -> Decimal:
        """The nearest division, exactly."""
        division = Decimal(str(graduation))
        return round(shown / graduation) * division

    def gives(self, where: Where = "bar") -> float:
        """How much it gives to a push and a pull, as a whole width, at the nose or further out."""
        play = self.truth.play
        play += self.truth.seat_play if where != "nose" else 0.0
        return play + (self.truth.grip_play if where == "bar" else 0.0)

    def turn_bar(self) -> None:
        """The bar is turned half round in the jaws."""
        self.half_round = not self.half_round

    def ease(self) -> None:
        """The bolts come from their torque to snug; the body gives back a part of its shift."""
        if self.tight:
            self.tight = False
            self._shift(-self.truth.returns * self.last_shift)

    def slacken(self) -> None:
        """The bolts are eased further than snug: the body drops in its clearance."""
        if self.truth.held == "jaws" or self.slack:
            return
        self.ease()
        self.slack = True
        drop = abs(self.rng.gauss(0, DROP)) + DROP
        self._shift(drop * exp(1j * self.rng.uniform(-pi, pi)))

    def torque(self) -> None:
        """The bolts come to their torque; the body shifts, partly as it did before.

        From slack it shifts several times as far as from snug.
        """
        if self.tight or self.truth.held == "jaws":
            return
        self.tight = True
        spread = self.truth.shift_spread * (SLACK if self.slack else 1)
        self.slack = False
        self.last_shift = self.truth.shift + complex(
            self.rng.gauss(0, spread), self.rng.gauss(0, spread)
        )
        self._shift(self.last_shift)

    def push(self, toward_deg: float, by: float) -> float:
        """Move the body by a screw: sideways too, a little back, and no further than it can go.

        Returns how far it went in the direction asked for.
        """
        before = self.centre
        way = exp(1j * radians(toward_deg))
        sideways = self.truth.across + self.rng.gauss(0, self.truth.across_spread)
        self._shift(by * (1 - self.truth.lash) * way * (1 + 1j * sideways))
        return ((self.centre - before) * way.conjugate()).real

    def turn_screw(self, screw: int, by: float) -> bool:
        """Tighten a screw (by > 0) or ease it, the one across the other way; False if stuck."""
        if screw in self.truth.stuck:
            return False
        way = by if self.truth.sense == "toward" else -by
        went = self.push(of_screw(screw, self.truth.screws), way)
        return abs(went) > 0.05 * abs(by)

    @property
    def high_deg(self) -> float:
        """The true high spot at the station."""
        return degrees(phase(self.centre_at(self.station))) % 360

    def nip(self) -> None:
        """Screws or jaws are pulled up evenly, the last thing done: the body stirs a little."""
        spread = self.truth.shift_spread * NIP
        self._shift(complex(self.rng.gauss(0, spread), self.rng.gauss(0, spread)))

    def slide(self, by: complex) -> complex:
        """Move the body by so much; returns how far it could go."""
        before = self.centre
        self._shift(by)
        return self.centre - before

    def between_readings(self) -> None:
        """What happens to the zero between two readings: drift, and perhaps a knock."""
        self._between_readings()

    def given_way(self) -> float:
        """What play adds where the spindle comes to rest."""
        return self._given_way()

    def _shift(self, by: complex) -> None:
        """The body moves, within its register."""
        reach = self.truth.clearance / 2
        off = self.centre + by - self.truth.register
        self.centre = self.truth.register + (off if abs(off) <= reach else off / abs(off) * reach)

    def _between_readings(self) -> None:
        """Drift, and a knock when its time has come."""
        self.zero += self.rng.gauss(0, self.truth.drift)
        if self.readings == self.truth.knocked_at:
            self.zero += self.truth.knock
        self.readings += 1

    def _given_way(self) -> float:
        """What play adds to one reading."""
        if self.truth.play_shows == "two-sided":
            return self.truth.play / 2 * self.rng.choice((-1, 1))
        return self.rng.gauss(0, self.truth.play / 6)


def _sign(number: float) -> int:
    """−1, 0 or 1."""
    return (number > 0) - (number < 0)


def even_angles(count: int) -> Sequence[float]:
    """Positions evenly round the turn."""
    return tuple(k * 360 / count for k in range(count))
