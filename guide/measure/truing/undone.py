"""Rounds whose turn shows that what was to be done was not: something holds the body off."""

from __future__ import annotations

from math import sqrt

from guide.measure.truing.asked import Why
from guide.measure.truing.learning import BY_BOLTS, SHIFT, shift_spread
from guide.measure.truing.story import Outcome, Story
from guide.plain import N_

DONE = 0.5
"""A round did what it was to do if it went at least this part of the way."""
PLAIN = 2.0
"""So many standard deviations of a round are plain."""
AGAIN = 2
"""So many rounds one after the other that did nothing are no slip of the hand."""

UNDONE = N_(
    "{rounds} rounds one after the other did not do what they were to do, and it is still out: "
    "find what holds the body off, or which screw was not turned, before any force is used."
)


def toward(wanted: complex, went: complex) -> float:
    """How far it went in the direction wanted."""
    return (went * wanted.conjugate()).real / abs(wanted)


def reckon(story: Story, went: complex) -> None:
    """After the first turn of a round: whether its moves did what they were to do.

    Moves that the needle showed to be done, and torquing took back, are the bolts' doing. A round
    that went plainly the other way moved something: then the sense is what is wrong.
    """
    wanted = abs(story.asked)
    along = toward(story.asked, went) if wanted else 0.0
    moved = along >= DONE * wanted or along < -PLAIN * _spread(story)
    story.undone = () if moved else (*story.undone, Outcome(wanted, along))
    story.asked = 0j


def held_back(story: Story) -> bool:
    """Whether round after round plainly did less than half of what it was to do."""
    off = abs(story.belief.centre) if story.belief else 0.0
    if len(story.undone) < AGAIN or off <= BY_BOLTS * story.facts.inches(SHIFT):
        return False
    size = sum(each.asked**2 for each in story.undone)
    share = sum(each.asked * each.went for each in story.undone) / size
    return share + PLAIN * _spread(story) / sqrt(size) < DONE


def undone(story: Story) -> Why:
    """What is to be said of it."""
    return Why((UNDONE,), {"rounds": len(story.undone)})


def _spread(story: Story) -> float:
    """How differently two turns on either side of a round end along one direction."""
    return sqrt(2) * shift_spread(story.known, story.facts)
