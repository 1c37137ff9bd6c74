"""The first harmonic of readings round a turn: r = m + a·cos θ + b·sin θ + residual."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin, sqrt

from guide.measure.angles import distinct, turned
from guide.measure.least_squares import Solution, solve
from guide.plain import N_, BadInput

LARGEST_SPREAD = 2.0
"""A coefficient whose variance factor is above this is not really told apart (even: 2/n)."""


@dataclass(frozen=True, slots=True)
class Fit:
    """The fitted first harmonic; lengths in the readings' unit, angles in degrees."""

    angles: tuple[float, ...]
    values: tuple[float, ...]
    mean: float
    a: float
    b: float
    residuals: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    """(XᵀX)⁻¹ for m, a, b: times u² of one reading this is their covariance."""

    @property
    def eccentricity(self) -> float:
        """How far the centre is off: √(a² + b²)."""
        return hypot(self.a, self.b)

    @property
    def high_deg(self) -> float:
        """The angle of the high spot, 0 ≤ angle < 360; 0 where there is no eccentricity."""
        return turned(degrees(atan2(self.b, self.a)))

    @property
    def fitted_tir(self) -> float:
        """Twice the eccentricity."""
        return 2 * self.eccentricity

    @property
    def observed_tir(self) -> float:
        """The range of the readings: at worst .71, .87, .92, .97 of 2e at 4, 6, 8, 12 places."""
        return max(self.values) - min(self.values)

    @property
    def positions(self) -> int:
        """How many different positions were read."""
        return len(distinct(self.angles))

    @property
    def form(self) -> float | None:
        """Peak-to-valley of the residual, or None at three positions, which leave none."""
        return None if self.positions == 3 else max(self.residuals) - min(self.residuals)

    @property
    def squares(self) -> float:
        """The sum of the squared residuals."""
        return sum(r * r for r in self.residuals)

    @property
    def spare(self) -> int:
        """Degrees of freedom left over: readings less three."""
        return len(self.values) - 3

    def at(self, angle: float) -> float:
        """The fitted value at an angle."""
        turn = radians(angle)
        return self.mean + self.a * cos(turn) + self.b * sin(turn)

    def spread(self) -> float:
        """u(e)/u of one reading, along the high spot; where there is none, in the worst direction.

        With n even positions it is √(2/n).
        """
        if self.eccentricity <= 0:
            return self.widest()
        aa, ab, bb = self.covariance[1][1], self.covariance[1][2], self.covariance[2][2]
        c, s = self.a / self.eccentricity, self.b / self.eccentricity
        return sqrt(c * c * aa + 2 * c * s * ab + s * s * bb)

    def widest(self) -> float:
        """u(e)/u of one reading in the direction that these positions tell worst."""
        aa, ab, bb = self.covariance[1][1], self.covariance[1][2], self.covariance[2][2]
        return sqrt((aa + bb) / 2 + hypot((aa - bb) / 2, ab))


def fit(angles: Sequence[float], values: Sequence[float]) -> Fit:
    """Least squares over three or more different angles; BadInput where they cannot fix a centre.

    An angle may be read more than once. With even positions e is 2·abs(X₁)/n of the DFT. It
    assumes that e is small against the bar's radius, so that a centre off by e reads as a cosine,
    and that no lobes alias onto it (`can_hide_lobes`): where they do, they read as eccentricity.
    Places close together leave the centre to the noise, which `spread` tells; where they cannot
    fix it at all, it refuses.
    """
    _refuse_few(angles, values)
    size = max(abs(value) for value in values) or 1.0
    solution = solve(columns(angles, (1,)), values)
    if solution is None:
        raise BadInput(
            N_("The angles are too close together to fix a centre."),
            N_("Read at positions spread round the whole turn."),
        )
    mean, a, b = (_clean(c, size) for c in solution.coefficients)
    residuals = tuple(_clean(r, size) for r in solution.residuals)
    return Fit(tuple(angles), tuple(values), mean, a, b, residuals, solution.covariance)


def columns(angles: Sequence[float], orders: Sequence[int]) -> list[list[float]]:
    """The columns 1, cos kθ, sin kθ for each order k."""
    rows = [[1.0] * len(angles)]
    for k in orders:
        rows.append([cos(k * radians(angle)) for angle in angles])
        rows.append([sin(k * radians(angle)) for angle in angles])
    return rows


def shape(angles: Sequence[float], values: Sequence[float]) -> tuple[tuple[int, ...], Solution]:
    """The most orders (1; 1, 2; 1, 2, 3) that these positions tell apart, fitted together."""
    for orders in ((1, 2, 3), (1, 2)):
        solution = solve(columns(angles, orders), values)
        if solution is not None and _told_apart(solution):
            return orders, solution
    found = solve(columns(angles, (1,)), values)
    if found is None:
        raise BadInput(N_("The angles are too close together to fix a centre."))
    return (1,), found


def can_hide_lobes(angles: Sequence[float]) -> bool:
    """Whether a three-lobed bar can be missed, or taken for eccentricity, at these positions.

    True at 3, 4 and 6 even positions; false at 5, 7, 8 and more, if they go round the turn.
    """
    solution = solve(columns(angles, (1, 3)), [0.0] * len(angles))
    return solution is None or not _told_apart(solution)


def _told_apart(solution: Solution) -> bool:
    """Whether no coefficient is left to the noise."""
    return all(row[i] <= LARGEST_SPREAD for i, row in enumerate(solution.covariance))


def _clean(number: float, size: float) -> float:
    """Zero for what is only rounding of numbers of this size."""
    return 0.0 if abs(number) < 1e-13 * size else number


def _refuse_few(angles: Sequence[float], values: Sequence[float]) -> None:
    """Refuse uneven lists and fewer than three different positions."""
    if len(angles) != len(values):
        raise BadInput(
            N_("There are {readings} readings and {angles} angles."),
            N_("Give one angle for each reading."),
            readings=len(values),
            angles=len(angles),
        )
    if len(distinct(angles)) < 3:
        raise BadInput(
            N_("Fewer than three different positions cannot fix a centre."),
            N_("Read at three positions or more, best eight or twelve."),
        )
