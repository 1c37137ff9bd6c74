"""Angles of the spindle: degrees turned since screw 1 was under the plunger."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from guide.plain import N_, BadInput

SAME = 1e-6
"""Degrees within which two angles are the same position."""


def turned(angle: float) -> float:
    """The angle within one turn, 0 ≤ angle < 360."""
    within = round(angle % 360.0, 9)
    return 0.0 if within >= 360.0 else within


def even(count: int) -> tuple[float, ...]:
    """`count` even positions, starting at screw 1."""
    return tuple(k * 360.0 / count for k in range(count))


def of_screw(screw: int, screws: int) -> float:
    """Where screw k of n is: (k − 1)·360/n degrees, numbered in the order in which they arrive."""
    return (screw - 1) * 360.0 / screws


def apart(one: float, other: float) -> float:
    """The smaller angle between two positions, 0 to 180 degrees."""
    return abs((one - other + 180.0) % 360.0 - 180.0)


def across(screw: int, screws: int) -> int | None:
    """The screw half a turn from this one, or None where an odd count has none."""
    return None if screws % 2 else (screw - 1 + screws // 2) % screws + 1


def nearest_screw(angle: float, screws: int) -> int:
    """The screw nearest to an angle; midway, the one with the lower number."""
    return min(range(1, screws + 1), key=lambda k: (round(apart(angle, of_screw(k, screws)), 6), k))


def distinct(angles: Iterable[float]) -> tuple[float, ...]:
    """The different positions among the angles, each within one turn, in order."""
    found: list[float] = []
    for angle in angles:
        if all(apart(angle, other) > SAME for other in found):
            found.append(turned(angle))
    return tuple(sorted(found))


def refuse_equal(angles: Sequence[float]) -> None:
    """BadInput where two of the angles are one position; 0 and 360 are one."""
    if len(distinct(angles)) != len(angles):
        raise BadInput(
            N_("Two of the angles are the same position."),
            N_("Give each position once; 0 and 360 are one position."),
        )
