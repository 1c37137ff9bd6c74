"""In what order and in what stages a ring of bolts is tightened to the torque that a person gives.

By analogy with pressure flanges (`pcc-1`) and an agency's torque limits (`tb-9-2320-279`); the
maker's manual always wins.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from guide.plain import N_, BadInput

FEWEST, MOST = 2, 24
"""Bolts on a chuck or plate."""

CROSS = (30, 70, 100)
"""Percent of the torque at each pass across: `pcc-1` 20-30, 50-70, 100; `tb-9-2320-279` 70, 100."""
ROUND = (25, 50, 75, 100)
"""Percent of the torque at each pass round; small steps, as there is no bolt opposite to hold
against. Common practice, no source (`trade`)."""

WITHOUT_A_TORQUE_WRENCH = N_(
    "Without a torque wrench: use the ordinary key with no pipe on it, keep the order and stages"
    " by feel, make every bolt as tight as the others, and record it as by feel, torque not known;"
    " borrow a torque wrench before the chuck runs at speed."
)
"""What then. Common practice, no source (`trade`)."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One pass over all bolts."""

    kind: str
    """`cross`, `star` (an odd number), `round`, or `check`: round again until none moves."""
    percent: int
    torque: Decimal | None
    """That share of the torque given, exact, in its unit; None when no torque was given."""
    order: tuple[int, ...]


def order(bolts: int) -> tuple[int, ...]:
    """The order in which bolts 1…n, numbered round the ring, are tightened.

    Even n from 4: a bolt, the one opposite, then such a pair well away from the last (the sequences
    of `pcc-1` for 4, 8, 12 and 16 bolts, from memory). Odd n from 5: a star. Two and three: round.
    Outside 2 to 24 it is refused.

    >>> order(4), order(6)
    ((1, 3, 2, 4), (1, 4, 2, 5, 3, 6))
    """
    if not FEWEST <= bolts <= MOST:
        raise BadInput(
            N_("{bolts} bolts is outside {fewest} to {most}."),
            N_("Count the mounting bolts again."),
            bolts=bolts,
            fewest=FEWEST,
            most=MOST,
        )
    if bolts <= 3:
        return tuple(range(1, bolts + 1))
    if bolts % 2:
        return tuple(turn * (bolts // 2) % bolts + 1 for turn in range(bolts))
    half = bolts // 2
    return tuple(bolt for first in order(half) for bolt in (first, first + half))


def stages(bolts: int, torque: Decimal | None = None) -> tuple[Stage, ...]:
    """The passes that bring a ring of bolts to `torque` evenly, the last one a check.

    `torque` is the person's own figure (the maker's), in whatever unit; never a calculated one.

    >>> [(stage.percent, str(stage.torque)) for stage in stages(4, Decimal(60))]
    [(30, '18'), (70, '42'), (100, '60'), (100, '60')]
    """
    if torque is not None and not (torque.is_finite() and torque > 0):
        raise BadInput(N_("A torque must be above zero."), N_("Type the maker's figure."))
    kind = "round" if bolts <= 3 else "star" if bolts % 2 else "cross"
    passes = ROUND if kind == "round" else CROSS
    around = tuple(range(1, bolts + 1))
    return (
        *(Stage(kind, percent, _share(torque, percent), order(bolts)) for percent in passes),
        Stage("check", 100, torque, around),
    )


def _share(torque: Decimal | None, percent: int) -> Decimal | None:
    """The percentage of the torque, exact."""
    return torque if torque is None or percent == 100 else torque * percent / 100
