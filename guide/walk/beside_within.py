"""What the advisor wants after a turn that was judged within, said so that both are true.

Two questions, two uncertainties. The verdict is about one turn: its U is made of what is declared
for it (the dial's division, the indicator's error limit, play, angles set by eye), so that whoever
has the record can work it out again. The advice is about whether it would be found so once more: it
takes every reading since the bolts were torqued, how far readings of one place differed, and what
a coarse dial repeats unseen. Where the second asks for more than the first it says what for, and
never that the turn is undecided.
"""

from __future__ import annotations

from dataclasses import replace

from guide.measure.truing.asked import Asked, Read, Stop, Why
from guide.measure.truing.judging import wanders
from guide.measure.truing.noise import first_idea
from guide.measure.truing.plan import ANOTHER, COARSE
from guide.measure.truing.stopping import SETTLED, UNSEEN
from guide.measure.truing.story import Story
from guide.plain import N_

PLAINLY = 1.5
"""So many times what the dial lets expect, and readings of one place plainly differ."""

BY_ITSELF = N_("The latest turn by itself is within.")
DIFFER = N_(
    "Readings of one place differ by about {size} {unit}, more than its uncertainty reckons with."
)
EARLIER = N_(
    "The turns before it, since the bolts were last torqued, leave less room than it does."
)
HIDES = N_(
    "A dial of {graduation} {unit} can hide more than its uncertainty reckons with, however often "
    "it is read: nearer the middle, or with a finer dial, it is surer."
)
MAY_ADD = N_(
    "Hand, stand and a film of oil may add more than its uncertainty reckons with: "
    "more readings tell."
)
UNDECIDED_SENTENCES = (ANOTHER, SETTLED, UNSEEN)
"""What would say of a turn that was judged within that it is not decided or not proven."""


def beside_within(found: Asked, story: Story) -> Asked:
    """What is advised after a turn judged within, with a reason that lets that stand."""
    if isinstance(found, Stop) and found.verdict == "within":
        return found
    own = found.why.sentences
    if isinstance(found, (Read, Stop)) and not set(own) & set(UNDECIDED_SENTENCES):
        return replace(found, why=Why((BY_ITSELF,)).and_then(without_far(found.why)))
    return replace(found, why=Why((BY_ITSELF,)).and_then(_wanted(story)))


def without_far(why: Why) -> Why:
    """A reason without that it is still far off, which a turn judged within has shown untrue."""
    return Why(tuple(each for each in why.sentences if each != COARSE), why.values)


def _wanted(story: Story) -> Why:
    """Why the advisor is not content with the turn alone."""
    facts = story.facts
    if story.u > PLAINLY * first_idea(facts):
        return Why((DIFFER,), {"size": f"{story.u:.2g}", "unit": facts.unit})
    read = story.readings(story.station) if story.station is not None else []
    places = {round(angle, 6) for angle, _ in read}
    if len(read) > len(places) + 1:
        return Why((EARLIER,))
    if wanders(facts):
        return Why((MAY_ADD,))
    return Why((HIDES,), {"graduation": facts.graduation, "unit": facts.unit})
