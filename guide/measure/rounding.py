"""Answers without the noise of binary arithmetic."""

from __future__ import annotations

from math import floor, log10

DIGITS = 12
"""Significant digits of an answer: fewer than a float holds, more than any dial shows."""


def tidy(number: float, size: float | None = None) -> float:
    """A number without the noise of rounding: twelve digits of `size`, by default of itself."""
    scale = abs(number) if size is None else max(size, abs(number))
    if scale == 0:
        return 0.0
    return round(number, DIGITS - 1 - floor(log10(scale))) + 0.0
