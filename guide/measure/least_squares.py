"""Linear least squares over a few columns, by modified Gram-Schmidt in plain Python."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

NEARLY_NOTHING = 1e-9
"""A column of which less than this part is its own cannot be told from the ones before it."""

Columns = Sequence[Sequence[float]]


@dataclass(frozen=True, slots=True)
class Solution:
    """The coefficients, one per column, with what is left over and how errors spread."""

    coefficients: tuple[float, ...]
    """In units of y per unit of the column."""
    residuals: tuple[float, ...]
    """y less what the columns explain, one per row."""
    covariance: tuple[tuple[float, ...], ...]
    """(XᵀX)⁻¹: times u² of one y this is the coefficients' covariance."""

    @property
    def spare(self) -> int:
        """Degrees of freedom left: rows less columns."""
        return len(self.residuals) - len(self.coefficients)

    @property
    def squares(self) -> float:
        """The sum of the squared residuals."""
        return fsum(r * r for r in self.residuals)


def solve(columns: Columns, y: Sequence[float]) -> Solution | None:
    """The least-squares solution of y ≈ Σ cᵢ·columnᵢ, or None where the columns are not separate.

    Source of the method: any text on numerical linear algebra; checked against NIST StRD Norris.
    """
    split = orthogonal(columns)
    if split is None:
        return None
    basis, upper = split
    rest, projected = list(y), []
    for q in basis:
        along = dot(q, rest)
        projected.append(along)
        rest = [r - along * p for r, p in zip(rest, q, strict=True)]
    inverse = back_substituted(upper)
    coefficients = tuple(dot(row, projected) for row in inverse)
    covariance = tuple(tuple(dot(one, other) for other in inverse) for one in inverse)
    return Solution(coefficients, tuple(rest), covariance)


def orthogonal(columns: Columns) -> tuple[list[list[float]], list[list[float]]] | None:
    """The columns as unit vectors Q at right angles, and R with columns = Q·R; None if dependent.

    Each vector is cleared of the ones before it twice, which keeps them at right angles.
    """
    basis: list[list[float]] = []
    upper = [[0.0] * len(columns) for _ in columns]
    for j, column in enumerate(columns):
        rest = list(column)
        for i, q in [*enumerate(basis), *enumerate(basis)]:
            along = dot(q, rest)
            upper[i][j] += along
            rest = [r - along * p for r, p in zip(rest, q, strict=True)]
        size = sqrt(dot(rest, rest))
        if size <= NEARLY_NOTHING * sqrt(dot(column, column)):
            return None
        upper[j][j] = size
        basis.append([r / size for r in rest])
    return basis, upper


def back_substituted(upper: list[list[float]]) -> list[list[float]]:
    """The inverse of an upper triangular matrix."""
    n = len(upper)
    inverse = [[0.0] * n for _ in range(n)]
    for j in range(n):
        inverse[j][j] = 1 / upper[j][j]
        for i in range(j - 1, -1, -1):
            inner = fsum(upper[i][k] * inverse[k][j] for k in range(i + 1, j + 1))
            inverse[i][j] = -inner / upper[i][i]
    return inverse


def dot(one: Sequence[float], other: Sequence[float]) -> float:
    """The inner product, summed exactly before rounding."""
    return fsum(a * b for a, b in zip(one, other, strict=True))
