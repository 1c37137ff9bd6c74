"""Everything heard, folded into the story."""

from __future__ import annotations

from collections.abc import Iterable

from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead
from guide.measure.truing.learning import TOLD, Learned, shift_spread, usual_shift
from guide.measure.truing.moved import was_moved
from guide.measure.truing.noise import learned
from guide.measure.truing.reads import was_read
from guide.measure.truing.story import NOWHERE, Story


def told(facts: Facts, heard: Iterable[Heard]) -> Story:
    """Everything heard, in order."""
    story = Story(facts, Learned(facts.sense, TOLD), learned(facts, ()))
    for each in heard:
        if isinstance(each, WasRead):
            was_read(story, each)
        elif isinstance(each, WasMoved):
            was_moved(story, each)
        else:
            was_torqued(story)
    return story


def was_torqued(story: Story) -> None:
    """The bolts are at their torque: a round is over, what was read before it is history.

    One without a move is no round; a second one like it is, or torquing alone would have no end.
    """
    story.rounds += story.moving or story.idle
    story.idle = not story.moving
    if story.belief is not None:
        known = story.moving and all(move.done for move in story.moves)
        story.before_torque = story.belief.centre - story.lean() if known else None
        spread = shift_spread(story.known, story.facts)
        usual = usual_shift(story.known) + NOWHERE
        story.belief = story.belief.moved(usual, spread, spread)
    story.scatters.extend(story.scatter.values())
    story.taken, story.scatter, story.moves, story.last = {}, {}, [], {}
    story.seen_twice, story.unlearned, story.unlike, story.doubted = set(), set(), 0, 0
    story.seen_since_easing, story.eased, story.contradiction = set(), False, None
