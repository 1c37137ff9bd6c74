"""The one advisor: what to do next at dial, screws and bolts, from everything heard so far.

It assumes that a turn read from one dial zero shows the first harmonic of the centre, that screws
move the body along their own line, and that torquing the bolts moves it about as much each time.
Where the zero moves it asks again; where three lobes could hide it reads more positions before it
says within; where nothing more would help it stops and says so. It never says that it is safe.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guide.measure.truing import moves, plan
from guide.measure.truing.asked import Asked, Move, Read, Torque
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard
from guide.measure.truing.hearing import told
from guide.measure.truing.helping import helps_most
from guide.measure.truing.judging import Judgement, judge
from guide.measure.truing.stopping import stop
from guide.measure.truing.story import Story

MANY_ROUNDS = 3
"""Rounds from which on a correction comes with what would help most."""


def advise(facts: Facts, heard: Sequence[Heard]) -> Asked:
    """What to do next: read, move, torque or stop; the same answer for the same story."""
    story = told(facts, heard)
    if story.moving:
        return moves.onward(story)
    unread = _unread(story)
    if unread is not None:
        return unread
    seen = _seen(story)
    return stop(story, seen) or correct(story)


def correct(story: Story) -> Move | Torque | Read:
    """The first move of another round, however small; the torque where nothing can be moved.

    After some rounds it comes with what would help most, since the process is then the limit.
    """
    move = moves.first(story) or moves.first(story, at_least=float(story.facts.graduation) / 2)
    if move is None:
        return moves.torque(story)
    if story.rounds < MANY_ROUNDS:
        return move
    return replace(move, why=move.why.and_then(helps_most(story)))


def _unread(story: Story) -> Read | None:
    """The next station that was not read since the bolts were torqued."""
    for station in story.facts.stations:
        if story.found(station) is None:
            return plan.turn(story, station)
    return None


def _seen(story: Story) -> list[Judgement]:
    """Every station judged."""
    return [one for each in story.facts.stations if (one := judge(story, each)) is not None]
