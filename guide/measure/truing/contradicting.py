"""A reading at one screw that contradicts what the turns and moves before it say of that place."""

from __future__ import annotations

from decimal import Decimal
from math import cos, hypot, radians, sin

from guide.measure.angles import of_screw
from guide.measure.truing.asked import Move, Why
from guide.measure.truing.learning import BY_BOLTS, SHIFT, shift_spread
from guide.measure.truing.noise import with_angle
from guide.measure.truing.story import Story
from guide.plain import N_

PLAIN = 4.0
"""So many combined standard uncertainties are no chance: one reading in sixteen thousand, and what
easing and moves leave in doubt is itself no more than an idea."""
DIVISIONS = 2
"""Divisions on top of that: the turn and this reading are each rounded, and a needle may stick."""

CONTRADICTS = N_(
    "Screw {screw} reads {reads} {unit}, where by the turn and the moves since it should read "
    "about {about} {unit}. Look at the dial again; if it is right, say it once more."
)
FAR_OFF = N_(
    "From {reads} it was to come to {to} {unit}: {came} is far from that. Look at the dial again; "
    "if it is right, say it once more."
)
STANDS = N_(
    "Screw {screw} reads {reads} {unit}, where by the turn and the moves since it should read "
    "about {about} {unit}: if it was misread, so is this move."
)


def contradicted(story: Story, screw: int, value: Decimal) -> Decimal | None:
    """What the screw should about read, where the value plainly contradicts that; else None.

    Nothing contradicts before a turn was read, or with another zero.
    """
    if story.belief is None:
        return None
    place = of_screw(screw, story.facts.screws)
    expected = story.belief.at(place) + story.form_at(place)
    eased = 0.0 if story.eased else shift_spread(story.known, story.facts)
    turn = radians(place)
    slope = story.belief.state[1] * cos(turn) - story.belief.state[0] * sin(turn)
    u = hypot(story.belief.u_at(place), eased, with_angle(story.u, slope))
    if abs(float(value) - expected) <= PLAIN * u + DIVISIONS * float(story.facts.graduation):
        return None
    return round(Decimal(repr(expected)) / story.facts.graduation) * story.facts.graduation


def far_off(story: Story, move: Move, came: Decimal) -> Why | None:
    """What is said before the end of a move is taken that the move hardly has; else None.

    Short of its value is what stiff screws do. Beyond it by more than half of the way, or plainly
    the other way, is a sign forgotten or a point slipped, unless nobody knows which way it goes.
    """
    by, went = float(move.by), float(came - move.reads)
    ahead = went if by > 0 else -went
    slack = story.facts.inches(BY_BOLTS * SHIFT) + DIVISIONS * float(story.facts.graduation)
    back = 1.5 * abs(by) if story.known.sense == "unknown" else 0.0
    if -back - slack <= ahead <= 1.5 * abs(by) + slack:
        return None
    told = {"reads": move.reads, "to": move.bring_to, "came": came, "unit": story.facts.unit}
    return Why((FAR_OFF,), told)


def said_of(sentence: str, story: Story, screw: int, value: Decimal, about: Decimal) -> Why:
    """One of the sentences about it."""
    told = {"screw": screw, "reads": value, "about": about, "unit": story.facts.unit}
    return Why((sentence,), told)
