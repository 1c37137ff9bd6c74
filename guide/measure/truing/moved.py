"""What a move changes: where the needle went, what that teaches, what would not go."""

from __future__ import annotations

from cmath import exp
from dataclasses import replace
from math import hypot, radians, sqrt

from guide.measure.angles import across, of_screw
from guide.measure.reading import sign_of
from guide.measure.sense import Sense
from guide.measure.truing.heard import WasMoved
from guide.measure.truing.learning import BY_BOLTS, SHIFT, across_of, hand, shift_spread
from guide.measure.truing.story import Blocked, Story

HARDLY = 0.25
"""A move that goes less than this part of its way was held by something."""
ANY_MOVE, SIDEWAYS = 0.3, 0.1
"""How far a move may differ along itself where nobody reads it, and how far it goes sideways."""


def was_moved(story: Story, move: WasMoved) -> None:
    """One move: it is learned from, believed, noted, and remembered where it was held.

    An end that the body cannot have come to was misread, or the dial was knocked: it is as a move
    that nobody read, and what the dial shows is found again.
    """
    if (lost := _cannot_be(story, move)) and story.belief is not None:
        story.belief, move = story.belief.zero_lost(lost), replace(move, reads=None)
    story.moves.append(move)
    sense = story.known.sense
    story.ease()
    story.creep(move.reads is not None)
    before = story.last.get(move.screw)
    reads = None if move.reads is None else float(move.reads)
    went = None if reads is None or before is None else reads - before
    if went is not None and move.why != "stuck":
        _learn(story, move, went)
    _believe(story, move, went)
    _ask(story, move)
    _note(story, move)
    why = _held(story, move, went) if move.done else move.why
    again = any(each.screw == move.screw and each.why == "bottomed" for each in story.blocked)
    hardly = abs(went or 0.0) < HARDLY * abs(float(move.by))
    if why == "bottomed" and again and hardly and not story.known.sure:
        story.known = story.known.doubted()
    elif why == "stuck" or (why and not _wrong(move, went)):
        story.blocked.append(Blocked(move.screw, move.by > 0, why))
    story.turned_round = sense not in (story.known.sense, "unknown")


def _cannot_be(story: Story, move: WasMoved) -> float:
    """How far a needle went that no move of the body can take so far; nought where it may have."""
    before = story.last.get(move.screw)
    if move.reads is None or before is None:
        return 0.0
    went = abs(float(move.reads) - before)
    return went if story.facts.beyond(went) else 0.0


def _believe(story: Story, move: WasMoved, went: float | None) -> None:
    """Where the centre is now: as asked, or as the needle says, a little sideways too."""
    if story.belief is None:
        return
    wanted = float(move.by)
    by = wanted if move.done else 0.0
    if went is not None and _wrong(move, went):
        by = went
    place = of_screw(move.screw, story.facts.screws)
    way = exp(1j * radians(place)) * complex(1, across_of(story.known, story.facts))
    loose = ANY_MOVE * abs(wanted) if move.reads is not None or not move.done else 0.0
    along = hypot(loose, hand(story.known, story.facts))
    story.belief = story.belief.moved(by * way, along, SIDEWAYS * abs(by))
    if move.reads is not None:
        seen = float(move.reads) - story.form_at(place)
        story.belief = story.belief.read(place, seen, story.u)
    elif move.done:
        story.unseen += by * way


def _note(story: Story, move: WasMoved) -> None:
    """What the screw reads now; what the one across read is history."""
    story.seen_since_easing.add(move.screw)
    for screw in (move.screw, across(move.screw, story.facts.screws) or 0):
        story.last.pop(screw, None)
    if move.reads is not None:
        story.last[move.screw] = float(move.reads)


def _ask(story: Story, move: WasMoved) -> None:
    """What it was to do joins the round's, once for each direction, unless the needle showed it.

    A stuck screw says so itself, and is not waited for.
    """
    pair = {move.screw, across(move.screw, story.facts.screws)}
    first = sum(each.screw in pair for each in story.moves) == 1
    if first and move.why != "stuck" and not _shown(story, move):
        story.asked += float(move.by) * exp(1j * radians(of_screw(move.screw, story.facts.screws)))


def _shown(story: Story, move: WasMoved) -> bool:
    """Whether the needle came half of the way, or as near its value as easing leaves in doubt."""
    if move.reads is None or move.bring_to is None:
        return False
    allowed = max(abs(float(move.by)) / 2, BY_BOLTS * story.facts.inches(SHIFT))
    return abs(float(move.bring_to - move.reads)) <= allowed


def _held(story: Story, move: WasMoved, went: float | None) -> str:
    """Bottomed, where a move that was called done hardly moved the needle; else nothing."""
    wanted = abs(float(move.by))
    plain = wanted > 6 * max(story.u, float(story.facts.graduation))
    return "bottomed" if went is not None and plain and abs(went) < HARDLY * wanted else ""


def _wrong(move: WasMoved, went: float | None) -> bool:
    """Whether the needle went the other way than it was asked to."""
    return went is not None and went * float(move.by) < 0


def _learn(story: Story, move: WasMoved, went: float) -> None:
    """The sense, and how well the hand sets a screw."""
    noise = sqrt(2) * max(story.u, float(story.facts.graduation) / 2)
    first = len(story.moves) == 1
    if first:
        noise = hypot(noise, shift_spread(story.known, story.facts))
    if move.tightened is not None and abs(went) > noise:
        other = move.tightened != move.screw
        raised = (went * sign_of(story.facts.surface) > 0) != other
        sense: Sense = "toward" if raised else "away"
        story.known = story.known.tightened(sense, named=move.named and story.claimed)
    else:
        named = move.named and story.claimed
        story.known = story.known.moved(float(move.by), went, noise, named=named)
    miss = _miss(story, len(story.moves) - 1)
    if miss is not None:
        last = len(story.known.misses) - (_tried_before(story) is not None)
        story.known = replace(story.known, misses=(*story.known.misses[:last], miss))


def _tried_before(story: Story) -> float | None:
    """What the move just before missed by, where this one only brings it on: it is no end."""
    here = story.moves[-1].screw
    pair = {here, across(here, story.facts.screws)}
    two = len(story.moves) > 1 and story.moves[-2].screw in pair
    return _miss(story, len(story.moves) - 2) if two else None


def _miss(story: Story, number: int) -> float | None:
    """How far a move of this round ended from its value; nothing where that says little.

    The first is asked for before the bolts are eased, which moves the dial too; one that ended
    far off was held.
    """
    move = story.moves[number]
    if not number or not move.done or move.bring_to is None or move.reads is None:
        return None
    miss = float(move.reads - move.bring_to)
    near = abs(miss) < 0.5 * abs(float(move.by)) or abs(miss) < 4 * story.u
    return miss if near else None
