"""Student's factors for few degrees of freedom, from a public table.

NIST Technical Note 1297 (1994), table B.1: column 95.45 % for what is reported with k, and column
90 % for decisions, because what lies within ± of it 90 % of the time lies below it 95 %.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from types import MappingProxyType

from guide.plain import N_, BadInput

ONE_SIDED = 1.645
"""95 % on one side of a normal distribution (the table's last row: 90 % in the middle)."""

_ROWS = {
    1: (13.97, 6.31), 2: (4.53, 2.92), 3: (3.31, 2.35), 4: (2.87, 2.13), 5: (2.65, 2.02),
    6: (2.52, 1.94), 7: (2.43, 1.89), 8: (2.37, 1.86), 9: (2.32, 1.83), 10: (2.28, 1.81),
    11: (2.25, 1.80), 12: (2.23, 1.78), 13: (2.21, 1.77), 14: (2.20, 1.76), 15: (2.18, 1.75),
    16: (2.17, 1.75), 17: (2.16, 1.74), 18: (2.15, 1.73), 19: (2.14, 1.73), 20: (2.13, 1.72),
    25: (2.11, 1.71), 30: (2.09, 1.70), 35: (2.07, 1.70), 40: (2.06, 1.68), 45: (2.06, 1.68),
    50: (2.05, 1.68), 100: (2.025, 1.660), inf: (2.000, ONE_SIDED),
}  # fmt: skip

STUDENT: Mapping[float, float] = MappingProxyType({row: both[0] for row, both in _ROWS.items()})
"""k at 95.45 % for ν degrees of freedom."""

STUDENT_ONE_SIDED: Mapping[float, float] = MappingProxyType(
    {row: both[1] for row, both in _ROWS.items()}
)
"""The factor that 95 % lie below, for ν degrees of freedom."""


def student(freedom: float) -> float:
    """k at 95.45 % for the next lower degrees of freedom in the table; BadInput below one."""
    return _next_lower(STUDENT, freedom)


def one_sided(freedom: float) -> float:
    """The decision factor, 95 % on one side, for the next lower row; 1.645 for endless freedom.

    It assumes normal noise whose u was estimated with that freedom; BadInput below one.
    """
    return _next_lower(STUDENT_ONE_SIDED, freedom)


def _next_lower(table: Mapping[float, float], freedom: float) -> float:
    """The factor of the last row not above this freedom, which is never too small.

    A freedom that only rounding keeps from a row counts as that row.
    """
    reached = freedom * (1 + 1e-9)
    if not reached >= 1:
        raise BadInput(N_("Fewer than one degree of freedom gives no factor."))
    return table[max(row for row in table if row <= reached)]
