"""What would help most, where the process and not the arithmetic is the limit."""

from __future__ import annotations

from guide.measure.truing.asked import Why
from guide.measure.truing.learning import hand, shift_spread
from guide.measure.truing.story import Story
from guide.measure.uncertainty import of_graduation, rectangular
from guide.plain import N_

BOLTS = N_(
    "What would help most is the bolts: they shift it about {size} {unit} each time. Ease them one "
    "stage only, tighten in small even stages in order, screws nipped evenly before the reading."
)
HAND = N_(
    "What would help most is the setting: screws end about {size} {unit} off their value. "
    "Clean and oil them, move in small steps, and take the key out before the dial is read."
)
DIAL = N_(
    "What would help most is a finer dial: its division alone leaves about {size} {unit} in doubt."
)
PLAY = N_(
    "What would help most is the spindle: its play alone leaves about {size} {unit} in doubt. "
    "Have the bearings looked at by the maker's manual."
)
READING = N_(
    "What would help most is the reading: repeats differ by about {size} {unit}. "
    "Shorten and tighten the indicator's stand, clean bar and plunger, turn always one way."
)


def helps_most(story: Story) -> Why:
    """The largest of what bolts, hand, dial, play and reading leave, and what to do about it."""
    facts = story.facts
    found = {
        BOLTS: shift_spread(story.known, facts),
        HAND: hand(story.known, facts),
        DIAL: of_graduation(float(facts.graduation)),
        PLAY: rectangular(float(facts.play or 0) / 2),
        READING: story.u,
    }
    largest = max(found, key=lambda sentence: found[sentence])
    return Why((largest,), {"size": f"{found[largest]:.2g}", "unit": facts.unit})
