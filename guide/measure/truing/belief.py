"""Where the centre and the dial's zero are believed to be: a plain linear-Gaussian filter.

The state is (a, b, m) of r = a·cos θ + b·sin θ + m. Each reading, move and torque changes what is
believed and how far it is trusted (Kalman 1960; the update is for one reading at a time).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin, sqrt

Matrix = tuple[tuple[float, float, float], ...]
FORGOTTEN = 1e4
"""A variance, in units of the square of the largest reading, that lets the next reading decide."""


@dataclass(frozen=True, slots=True)
class Belief:
    """Centre and zero in the readings' unit, with their covariance."""

    state: tuple[float, float, float]
    spread: Matrix

    @property
    def centre(self) -> complex:
        """The centre, x toward screw 1, y a quarter turn on."""
        return complex(self.state[0], self.state[1])

    @property
    def zero(self) -> float:
        """What the dial shows where the centre is on the axis."""
        return self.state[2]

    def along(self, angle_deg: float) -> float:
        """How far the centre is off toward an angle."""
        turn = radians(angle_deg)
        return self.state[0] * cos(turn) + self.state[1] * sin(turn)

    def at(self, angle_deg: float) -> float:
        """What the dial is expected to show."""
        return self.along(angle_deg) + self.state[2]

    def u_at(self, angle_deg: float) -> float:
        """How uncertain that is, as a standard uncertainty."""
        turn = radians(angle_deg)
        row = (cos(turn), sin(turn), 1.0)
        lines = (sum(p * h for p, h in zip(line, row, strict=True)) for line in self.spread)
        return sqrt(max(sum(h * each for h, each in zip(row, lines, strict=True)), 0.0))

    def read(self, angle_deg: float, value: float, u: float) -> Belief:
        """After one reading of standard uncertainty u."""
        turn = radians(angle_deg)
        row = (cos(turn), sin(turn), 1.0)
        gain = [sum(p * h for p, h in zip(line, row, strict=True)) for line in self.spread]
        total = sum(g * h for g, h in zip(gain, row, strict=True)) + u * u
        off = (value - self.at(angle_deg)) / total
        state = tuple(x + g * off for x, g in zip(self.state, gain, strict=True))
        spread = tuple(
            tuple(p - one * other / total for p, other in zip(line, gain, strict=True))
            for line, one in zip(self.spread, gain, strict=True)
        )
        return Belief((state[0], state[1], state[2]), spread)  # type: ignore[arg-type]

    def moved(self, by: complex, along: float = 0.0, sideways: float = 0.0) -> Belief:
        """After a move of the centre that is known to so much along it and across it (u)."""
        a, b, m = self.state
        way = by / abs(by) if by else 1.0 + 0j
        c, s, one, two = way.real, way.imag, along * along, sideways * sideways
        more = (
            (one * c * c + two * s * s, (one - two) * c * s, 0.0),
            ((one - two) * c * s, one * s * s + two * c * c, 0.0),
            (0.0, 0.0, 0.0),
        )
        return Belief((a + by.real, b + by.imag, m), _sum(self.spread, more))

    def drifted(self, by: float, spread: float) -> Belief:
        """After the zero crept by about so much, known to a standard deviation of `spread`."""
        more = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, spread * spread))
        return Belief((*self.state[:2], self.state[2] + by), _sum(self.spread, more))

    def zero_lost(self, size: float) -> Belief:
        """After the dial was set to another zero, by up to about so much."""
        more = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, FORGOTTEN * size * size))
        return Belief(self.state, _sum(self.spread, more))


def nothing_known(readings: Sequence[float]) -> Belief:
    """Before the first readings: anything as large as they are, many times over."""
    size = max(readings) - min(readings) + 1e-9
    wide = FORGOTTEN * size * size
    flat = ((wide, 0.0, 0.0), (0.0, wide, 0.0), (0.0, 0.0, wide))
    return Belief((0.0, 0.0, sum(readings) / len(readings)), flat)


def _sum(one: Matrix, other: Matrix) -> Matrix:
    """Two matrices added."""
    return tuple((p[0] + q[0], p[1] + q[1], p[2] + q[2]) for p, q in zip(one, other, strict=True))
