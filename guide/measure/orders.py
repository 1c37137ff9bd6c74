"""Harmonics by their order: off centre, oval, three-lobed, where the positions tell them apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, sqrt

from guide.measure.axis import STANDS_OUT
from guide.measure.harmonic import shape
from guide.measure.rounding import tidy
from guide.measure.uncertainty import COVERAGE
from guide.plain import N_

HIGHEST = 3
"""The highest order that is looked for."""

CALLED = {1: N_("off centre"), 2: N_("oval"), 3: N_("three-lobed")}
"""What a machinist calls each order (common practice, no source)."""

UNTOLD = N_(
    "At these positions higher orders cannot be told apart: what is listed may hold some of them."
)
"""The warning where orders 2 and 3 were not both told."""


@dataclass(frozen=True, slots=True)
class Order:
    """One harmonic A·cos k(θ − φ); lengths in the readings' unit."""

    order: int
    amplitude: float
    """Half of its peak-to-valley."""
    high_at_deg: float
    """Its first high spot from screw 1, 0 ≤ angle < 360/k; 0 without amplitude."""
    expanded_uncertainty: float | None
    """Two standard uncertainties of the amplitude, or None without an uncertainty."""
    stands_out: bool | None
    """Whether it is more than noise, which passes for it one time in twenty; None unknown."""

    def to_json(self) -> dict[str, object]:
        """The order as `calc runout --orders` answers it."""
        u = self.expanded_uncertainty
        return {
            "order": self.order,
            "amplitude": tidy(self.amplitude),
            "high_at_deg": self.high_at_deg,
            "expanded_uncertainty": None if u is None else tidy(u),
            "stands_out": self.stands_out,
        }


def orders(
    angles: Sequence[float], values: Sequence[float], u: float | None = None
) -> tuple[Order, ...]:
    """Orders 1 to 3, as many as these positions tell apart, fitted together by least squares.

    `u` is the standard uncertainty of one reading. With n even positions the amplitude is
    2·abs(X_k)/n of the discrete Fourier transform and its standard uncertainty u·√(2/n). It
    assumes that orders above those listed are not there: at n even positions order n − k looks
    like order k, so at eight five lobes pass for three and at five three pass for oval. Where
    2 or 3 is not listed, `UNTOLD` is to be said. The amplitude of noise alone reads high, about
    1.25·u(amplitude), so only what `stands_out` is more than noise.
    """
    told, solution = shape(angles, values)
    size = max(abs(value) for value in values) or 1.0
    found = []
    for index, k in enumerate(told):
        i = 1 + 2 * index
        a, b = (tidy(c, size) for c in solution.coefficients[i : i + 2])
        block = [row[i : i + 2] for row in solution.covariance[i : i + 2]]
        found.append(_order(k, a, b, block, u))
    return tuple(found)


def all_told(found: Sequence[Order]) -> bool:
    """Whether orders 1 to 3 were all told apart."""
    return len(found) == HIGHEST


def _order(k: int, a: float, b: float, block: Sequence[Sequence[float]], u: float | None) -> Order:
    """One order from its cosine and sine parts and their covariance."""
    amplitude = hypot(a, b)
    high = (degrees(atan2(b, a)) / k) % (360.0 / k)
    high = 0.0 if round(high, 9) >= round(360.0 / k, 9) else round(high, 9)
    if u is None:
        return Order(k, amplitude, high, None, None)
    (aa, ab), (_, bb) = block
    widest = u * sqrt((aa + bb) / 2 + hypot((aa - bb) / 2, ab))
    c, s = (a / amplitude, b / amplitude) if amplitude > 0 else (0.0, 0.0)
    along = u * sqrt(c * c * aa + 2 * c * s * ab + s * s * bb) if amplitude > 0 else widest
    return Order(k, amplitude, high, COVERAGE * along, amplitude > STANDS_OUT * widest)
