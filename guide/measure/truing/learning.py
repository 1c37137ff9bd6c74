"""What the moves taught: which way the screws work, how well they are set, what torquing shifts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cbrt, erf, exp, sqrt

from guide.measure.sense import Sense
from guide.measure.truing.facts import Facts

SHIFT = 0.0002
"""Inches that torquing snug bolts moves a body, until it was seen (common practice, no source)."""
BY_BOLTS = 3
"""Further off than so many times that, it is not the bolts alone."""
SHIFT_WORTH = 3
"""How many rounds that idea is worth."""
FARTHEST = 0.005
"""Inches beyond which no torque shifts a body or a grip: something was misread, or the dial or the
bar was knocked (common practice, no source)."""
HAND = 0.00005
"""Inches within which a hand sets a screw, until it was seen (common practice, no source)."""


USUAL_TO_VARYING = 0.5
"""How large the usual shift is beside what shifts vary by (common practice, no source)."""
ANY_ACROSS = 0.1
"""The cross-talk reckoned with before any was seen (standard deviation)."""
SAYS_MOST, TOLD, SURE = 9.0, 3.0, 4.0
"""The most that one move says of the sense, what being told it is worth, and what is enough."""
PRESUMED = 2.0
"""What a sense is worth at first that only a move the wrong way speaks for, against one that was
told or borne out: the screw across may have been turned instead, so it is less than enough, and the
next move is a small one."""


@dataclass(frozen=True, slots=True)
class Learned:
    """What is known of screws, hand and bolts; lengths in the facts' unit."""

    sense: Sense
    evidence: float = 0.0
    """What speaks for the sense: the moves that bore it out, less those that did not."""
    wrong_way: bool = False
    """Whether the needle once went the other way than the screws named should take it."""
    misses: tuple[float, ...] = ()
    """How far each move ended from what was asked, as its last reading showed."""
    shifts: tuple[complex, ...] = ()
    """What each torquing did to the centre."""
    sideways: tuple[tuple[float, float], ...] = ()
    """How far a screw read after a move was off what was expected, and how far the move would
    shift it there for each length of cross-talk."""

    @property
    def sure(self) -> bool:
        """Whether moves have borne the sense out."""
        return self.evidence >= SURE

    def moved(self, wanted: float, went: float, noise: float, *, named: bool) -> Learned:
        """After a move of the dial that was to be `wanted` and was `went`.

        A move speaks for the sense by wanted·went/noise², so a hair in the noise says little;
        until a screw was named, one that went as wanted is presumed to have been tightened.
        """
        weight = max(-SAYS_MOST, min(wanted * went / (noise * noise), SAYS_MOST))
        if self.sense == "unknown":
            if abs(weight) < 1:
                return self
            return replace(self, sense="toward" if weight > 0 else "away", evidence=0.0)
        evidence = min(self.evidence + weight, SAYS_MOST + TOLD)
        if evidence >= 0:
            return replace(self, evidence=evidence)
        other: Sense = "toward" if self.sense == "away" else "away"
        wrong = self.wrong_way or named
        worth = min(-evidence, PRESUMED) if self.evidence > 0 else -evidence
        return replace(self, sense=other, evidence=worth, wrong_way=wrong)

    def doubted(self) -> Learned:
        """After a screw at its end, before any move bore the sense out: perhaps it is the other.

        A body held at its end one way goes the other way, which the next small move shows.
        """
        other: Sense = "away" if self.sense == "toward" else "toward"
        return replace(self, sense=other, evidence=0.0)

    def tightened(self, sense: Sense, *, named: bool) -> Learned:
        """After a move of which somebody said what was tightened."""
        wrong = self.wrong_way or (named and self.sense not in (sense, "unknown"))
        return replace(self, sense=sense, evidence=SAYS_MOST, wrong_way=wrong)


def hand(known: Learned, facts: Facts) -> float:
    """How well a screw is set (standard deviation): a quarter division until moves tell more."""
    first = max(float(facts.graduation) / 4, facts.inches(HAND))
    squares = sum(miss * miss for miss in known.misses)
    return sqrt((4 * first * first + squares) / (4 + len(known.misses)))


def shift_spread(known: Learned, facts: Facts) -> float:
    """How differently torquing shifts the body, as a standard deviation in each direction."""
    first = facts.inches(SHIFT)
    mean = _mean(known.shifts)
    squares = sum(abs(each - mean) ** 2 / 2 for each in known.shifts)
    freedom = max(len(known.shifts) - 1, 0)
    return sqrt((SHIFT_WORTH * first * first + squares) / (SHIFT_WORTH + freedom))


def usual_shift(known: Learned) -> complex:
    """The shift to reckon with: the mean of those seen, drawn toward nothing where they are few.

    The share is that of a normal prior with so large a usual shift beside what shifts vary by.
    """
    count = len(known.shifts)
    if not count:
        return 0j
    return _mean(known.shifts) * count / (count + USUAL_TO_VARYING**-2)


def across_of(known: Learned, facts: Facts) -> float:
    """Cross-talk: how far the body goes sideways for each length it is moved; nought until seen.

    Least squares through nought, drawn toward nothing by a normal prior, so that a small move
    among the shifts of the bolts teaches next to nothing.
    """
    noise = facts.inches(SHIFT) / ANY_ACROSS
    weight = sum(x * x for _, x in known.sideways) + noise * noise
    return sum(off * x for off, x in known.sideways) / weight


def chance(room: float, spread: float) -> float:
    """The chance that a centre spread so much in each direction lies within `room` of the axis."""
    return 0.0 if room <= 0 else 1 - exp(-room * room / (2 * spread * spread))


def chance_from(off: float, room: float, spread: float) -> float:
    """The same for a centre that is believed to be off by so much.

    Non-central χ² of two degrees of freedom, as a central one of the same mean and variance
    (Patnaik 1949, from memory) and by Wilson and Hilferty's cube root: within 0.03.
    """
    if not off:
        return chance(room, spread)
    away = (off / spread) ** 2
    more = (2 + away) / (2 + 2 * away)
    freedom, nine = (2 + away) * more, 2 / (9 * (2 + away) * more)
    at = (room / spread) ** 2 * more / freedom
    return (1 + erf((cbrt(at) - 1 + nine) / sqrt(2 * nine))) / 2


def _mean(shifts: Sequence[complex]) -> complex:
    """The mean, nothing where there are none."""
    return sum(shifts, 0j) / len(shifts) if shifts else 0j
