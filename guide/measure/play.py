"""Play: how far the needle moves between push and pull, and which joint gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from guide.plain import N_, BadInput

Place = Literal["nose", "plate", "bar"]
Giver = Literal["spindle", "seat", "grip"]

GIVES: Mapping[Place, Giver] = {"nose": "spindle", "plate": "seat", "bar": "grip"}
"""What each place adds to the one before it, from the spindle outward."""

WHY = {
    "spindle": N_("The largest part is there at the bare nose: the spindle bearings give."),
    "seat": N_("The largest part comes between nose and plate: the seat gives."),
    "grip": N_("The largest part comes between plate and bar: bolts, jaws or bar give."),
    "none": N_("Nothing gives more than the dial can show."),
    "unknown": N_("Without the bare nose it cannot be said whether the spindle gives."),
}
"""One sentence for each answer (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Play:
    """The play at each place read, what each joint adds, and where to look first."""

    plays: Mapping[Place, Decimal]
    """Pulled less pushed, without sign, in the readings' unit."""
    added: Mapping[Giver, Decimal]
    """What spindle, seat and grip each add; a joint whose two sides were not read is left out."""
    looks_to: Literal["spindle", "seat", "grip", "none", "unknown"]
    """The joint that gives most."""

    @property
    def why(self) -> str:
        """The sentence for `looks_to`."""
        return WHY[self.looks_to]


def play(pushed: Decimal, pulled: Decimal) -> Decimal:
    """The play between two readings at one place, in their unit."""
    return abs(pulled - pushed)


def compare(plays: Mapping[Place, Decimal], noise: Decimal = Decimal(0)) -> Play:
    """Which joint gives: the bare nose first, then the plate, then the bar.

    A difference no larger than `noise` counts as nothing. Push and pull must be about as strong
    everywhere; the bar also magnifies by its reach, so a small grip figure is not a fault
    (`joints` counts with reach, repeats and the dial). Without the nose it names no joint.
    """
    if not plays:
        raise BadInput(
            N_("No play was given."), N_("Push and pull at the bare nose, and read both.")
        )
    added = _added(plays)
    giving = {giver: amount for giver, amount in added.items() if amount > noise}
    if "nose" not in plays:
        return Play(plays, added, "unknown")
    return Play(plays, added, _most(giving) if giving else "none")


def _most(giving: Mapping[Giver, Decimal]) -> Giver:
    """The joint that adds most; of equals the one nearest the spindle."""
    return max(giving, key=lambda giver: giving[giver])


def _added(plays: Mapping[Place, Decimal]) -> dict[Giver, Decimal]:
    """What each joint adds to the joint before it; less than nothing counts as nothing."""
    added: dict[Giver, Decimal] = {}
    inner: Place | None = None
    for place, giver in GIVES.items():
        before = Decimal(0) if place == "nose" else plays.get(inner) if inner else None
        if place in plays and before is not None:
            added[giver] = max(plays[place] - before, Decimal(0))
        inner = place
    return added
