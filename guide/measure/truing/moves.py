"""The next move of a round: the larger direction first, the second one re-read, then the torque."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from guide.measure.angles import across, of_screw
from guide.measure.directions import split
from guide.measure.truing import plan
from guide.measure.truing.asked import Move, Read, Torque, Why
from guide.measure.truing.learning import hand, usual_shift
from guide.measure.truing.lines import aim, given_up, lines, way_of
from guide.measure.truing.story import Story
from guide.measure.truing.turns import to_watch, turns
from guide.plain import N_

TRIES = 3
"""Moves in one direction in one round, before it is left as it is."""
SMALL = 5
"""Divisions of a first move whose direction is not known yet."""

LARGER = N_("This direction is the further out: ease the bolts one stage, never slack, then bring "
            "the dial to the value, a little at a time.")  # fmt: skip
SECOND = N_("This screw was just read: bring the dial to the value, a little at a time.")
REMAINDER = N_("The dial is not at its value here yet: bring it on to the value.")
UNKNOWN = N_(
    "Which way these screws move the body is not known yet: "
    "back both a hair, then watch the needle."
)
TURNED_ROUND = {
    "toward": N_(
        "The needle went the other way: the screws work in the other sense, or the screw across "
        "was turned. From here on a tightened screw is taken to pull the body toward itself: watch "
        "the needle at the next move."
    ),
    "away": N_(
        "The needle went the other way: the screws work in the other sense, or the screw across "
        "was turned. From here on a tightened screw is taken to push the body away: watch the "
        "needle at the next move."
    ),
}
"""What is said once the sense is taken to be another one than before."""
DOUBTED = N_(
    "That screw is at its end: perhaps these screws work in the other sense. "
    "A hair this way, and watch the needle."
)
OTHER_END = N_("That screw would not go: back off the one across from it further, then try here.")
BEYOND = N_(
    "By what was read here, the body would be further off than its register lets it go: something "
    "was misread, or the dial was moved. Turn no screw; read a whole turn first."
)
UNKNOWN_YET = N_(
    "Which way these screws move the body is not known yet: ease the bolts one stage, never slack, "
    "then back both screws a hair and watch the needle."
)
ONE_SET = N_("One direction was all there was to set: bolts to their torque in order, screws "
             "nipped evenly, then read and touch nothing.")  # fmt: skip
REFUSED = N_("A screw would not go, and nothing else is to be set now: bolts to their torque in "
             "order, screws nipped evenly, then read and touch nothing.")  # fmt: skip
NONE_SET = N_("Nothing is left that a screw could set: bolts to their torque in order, screws "
              "nipped evenly, then read and touch nothing.")  # fmt: skip
TORQUE = N_("Both directions are set: bolts to their torque in order, screws nipped evenly, "
            "then read and touch nothing.")  # fmt: skip


def first(story: Story, *, at_least: float | None = None) -> Move | None:
    """The first move of a round, or None where nothing is left that this hand can set."""
    wanted = lines(story)
    least = _least(story) if at_least is None else at_least
    worth = {k: by for k, by in wanted.items() if abs(by) > least}
    if not worth:
        return None
    screw = max(worth, key=lambda k: (round(abs(worth[k]), 9), -k))
    why = UNKNOWN_YET if story.known.sense == "unknown" else LARGER
    return _move(story, screw, worth[screw], why)


def torque(story: Story) -> Torque:
    """The torque, with what was set before it: both directions, one, none, or not all that went."""
    refused = {(each.screw, each.raising) for each in story.blocked}
    went = [each for each in story.moves if each.done and (each.screw, each.by > 0) not in refused]
    pairs = {frozenset((k.screw, across(k.screw, story.facts.screws))) for k in went}
    if len(went) < len(story.moves) and len(pairs) < 2:
        return Torque(Why((REFUSED,)))
    return Torque(Why(((NONE_SET, ONE_SET, TORQUE)[min(len(pairs), 2)],)))


def at_screw(story: Story, screw: int) -> Move | None:
    """The move at a screw that was just read, whichever end of its direction it is; else None."""
    if story.belief is None:
        return None
    off = aim(story) - story.belief.centre - usual_shift(story.known)
    wanted = {
        k: by for k, by in split(off.real, off.imag, story.facts.screws).items() if k == screw
    }
    other = across(screw, story.facts.screws)
    opposite = split(off.real, off.imag, story.facts.screws).get(other or 0)
    if opposite is not None:
        wanted[screw] = -opposite
    by = wanted.get(screw, (off * way_of(story, screw).conjugate()).real)
    if abs(by) <= _least(story):
        return None
    why = UNKNOWN if story.known.sense == "unknown" else SECOND
    move, said = _move(story, screw, by, why, watched=True), turned(story)
    return replace(move, why=said.and_then(move.why)) if said else move


def turned(story: Story) -> Why | None:
    """That the sense is taken to be another one since the last move; None where it is as it was."""
    told = TURNED_ROUND.get(story.known.sense)
    return Why((told,)) if told and story.turned_round else None


def onward(story: Story) -> Move | Read | Torque:
    """After a move of this round: the rest of it, the second direction, or the torque."""
    last = story.moves[-1]
    left = lines(story)
    here = _on_line(story, left, last.screw)
    if here is not None and _tries(story, last.screw) < TRIES and abs(left[here]) > _short(story):
        by = left[here] if here == last.screw else -left[here]
        return _move(story, last.screw, by, _reason(story), watched=True)
    others = {k: by for k, by in left.items() if not _tries(story, k) and abs(by) > _least(story)}
    if not others or story.belief is None:
        return torque(story)
    screw = max(others, key=lambda k: abs(others[k]))
    watched, _ = _watched(story, screw, others[screw])
    if watched not in story.seen_since_easing:
        return plan.screw(story, watched)
    return _move(story, screw, others[screw], SECOND)


def _move(story: Story, screw: int, by: float, why: str, *, watched: bool = False) -> Move:
    """The move, at the screw of its pair that is to be watched unless one is already."""
    facts, sense = story.facts, story.known.sense
    if not watched:
        screw, by = _watched(story, screw, by)
    if sense == "unknown" or (facts.sense != sense and not story.known.sure):
        small = max(SMALL * float(facts.graduation), float(facts.tolerance) / 2)
        by = max(-small, min(small, by))
    step = _tenth(facts.graduation)
    change = round(Decimal(repr(by)) / step) * step
    shows = story.last.get(screw)
    if shows is None and story.belief is not None:
        place = of_screw(screw, facts.screws)
        shows = story.belief.at(place) + story.form_at(place)
    reads = round(Decimal(repr(shows or 0.0)) / step) * step
    tighten, ease = turns(screw, by, facts, sense)
    return Move(
        screw,
        across(screw, facts.screws),
        reads,
        change,
        reads + change,
        tighten,
        ease,
        Why((why,)),
    )


def _watched(story: Story, screw: int, by: float) -> tuple[int, float]:
    """The screw to watch for a move, and the change there: of an unknown sense one that rises.

    Of an odd count, where none is across, it is the screw that the body is to come to most.
    """
    unknown = story.known.sense == "unknown"
    if not unknown or by > 0 or not story.facts.screws % 2 or story.belief is None:
        return to_watch(screw, by, story.facts, story.known.sense)
    off = aim(story) - story.belief.centre - usual_shift(story.known)
    parts = {k: (off * way_of(story, k).conjugate()).real for k in range(1, story.facts.screws + 1)}
    parts = {k: each for k, each in parts.items() if each > 0 and not given_up(story, k, each)}
    most = max(parts, key=lambda k: parts[k], default=screw)
    return most, parts.get(most, by)


def _tenth(graduation: Decimal) -> Decimal:
    """A tenth of a division: finer than anybody sets."""
    return graduation / 10


def _reason(story: Story) -> str:
    """Why the same screw again."""
    last = story.moves[-1]
    if story.turned_round:
        return TURNED_ROUND[story.known.sense] if last.done else DOUBTED
    if not last.done:
        return OTHER_END
    return REMAINDER


def _least(story: Story) -> float:
    """The smallest change that this hand has shown it can set; a hair more, so no tie is by lot."""
    return hand(story.known, story.facts) * 1.001


def _short(story: Story) -> float:
    """How far short a move may fall before the same screw is asked for again."""
    return max(2 * _least(story), 0.2 * float(story.facts.tolerance))


def _tries(story: Story, screw: int) -> int:
    """How often a screw, or the one across, was asked to move in this round."""
    pair = {screw, across(screw, story.facts.screws)}
    return sum(move.screw in pair for move in story.moves)


def _on_line(story: Story, left: dict[int, float], screw: int) -> int | None:
    """The entry of a direction, by either of its screws."""
    pair = (screw, across(screw, story.facts.screws))
    return next((k for k in left if k in pair), None)
