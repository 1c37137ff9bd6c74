"""Which way the screws move the body, learned from one small move."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from guide.measure.reading import sign_of

Sense = Literal["toward", "away", "unknown"]
"""Toward: a screw that is tightened brings the body toward itself; away: it pushes it off."""

SENSES: tuple[Sense, ...] = ("unknown", "toward", "away")


def learn(
    before: Decimal,
    after: Decimal,
    noise: Decimal,
    *,
    tightened_across: bool = False,
    surface: str = "outside",
) -> Sense:
    """The sense, from the needle before and after one screw was tightened by a hair.

    The screw under the plunger was tightened, or the one across from it. A needle that moved no
    more than `noise` (play, half a graduation) teaches nothing. Lengths in one unit.
    """
    moved = (after - before) * sign_of(surface) * (-1 if tightened_across else 1)
    if abs(moved) <= abs(noise):
        return "unknown"
    return "toward" if moved > 0 else "away"
