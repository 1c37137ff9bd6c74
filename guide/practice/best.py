"""The best that could have been done: somebody who knows everything, with the same hands."""

from __future__ import annotations

from cmath import exp
from collections.abc import Sequence
from dataclasses import dataclass
from math import radians
from random import Random

from guide.measure.angles import of_screw
from guide.practice.chuck import Chuck
from guide.practice.hands import Hands
from guide.practice.reach import reach
from guide.practice.truth import Truth

MOST_ROUNDS = 6
"""As many as the walk counts."""
TRIES = 12
"""Play-throughs with other chance, of which the shortest is taken."""
PROOF = 9
"""Readings of one turn at eight positions with the first one again: less proves nothing."""


@dataclass(frozen=True, slots=True)
class Best:
    """The shortest way that was found."""

    rounds: int
    moves: int
    readings: int
    """Those at the screws, and one turn at the end to prove it."""
    runout: float
    """The true runout it ends with, in inches."""
    trued: bool
    """Whether that is within the tolerance."""


def best(
    truth: Truth,
    seed: int | str,
    *,
    tolerance: float = 0.001,
    division: float = 0.0001,
    stations: Sequence[float] = (1.0,),
) -> Best:
    """The fewest rounds, moves and readings to a true runout within the tolerance, in inches.

    Where no screw can bring it within, nothing is moved and the proof alone is counted.
    """
    found = reach(truth, tolerance, stations)
    if found.right == "stop":
        return Best(0, 0, PROOF, _worst(Chuck(truth, Random(0)), stations), trued=False)
    tries = (
        _played(truth, found.centre, Random(f"{seed}/{each}"), tolerance, division, stations)
        for each in range(TRIES)
    )
    return min(tries, key=lambda one: (not one.trued, one.rounds, one.moves, one.runout))


def _played(
    truth: Truth,
    aim: complex,
    rng: Random,
    tolerance: float,
    division: float,
    stations: Sequence[float],
) -> Best:
    """One play-through: both directions moved at once, past the shift that torquing will bring."""
    chuck = Chuck(truth, rng, stations[0])
    hands = Hands(chuck, division)
    while (worst := _worst(chuck, stations)) > tolerance and hands.rounds < MOST_ROUNDS:
        chuck.ease()
        for screw, by in parts(aim - truth.shift - chuck.centre, truth.screws):
            if abs(by) > division / 4:
                hands.move(screw, by)
        hands.torque()
    return Best(hands.rounds, hands.moves, hands.readings + PROOF, worst, worst <= tolerance)


def _worst(chuck: Chuck, stations: Sequence[float]) -> float:
    """The true runout at the worst station."""
    return max(chuck.runout(each) for each in stations)


def parts(way: complex, screws: int) -> tuple[tuple[int, float], tuple[int, float]]:
    """A shift of the body as two moves, each along one screw and counted toward it."""
    pair = (1, 2)
    one, two = (exp(1j * radians(of_screw(screw, screws))) for screw in pair)
    crossed = (one.conjugate() * two).imag
    along = (two * way.conjugate()).imag / crossed
    across = (one.conjugate() * way).imag / crossed
    return (1, along), (2, across)
