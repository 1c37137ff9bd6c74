"""How an offset is shared among the screws that still go."""

from __future__ import annotations

from cmath import exp
from itertools import combinations
from math import radians

from guide.measure.angles import across, of_screw
from guide.measure.directions import split
from guide.measure.truing.learning import usual_shift
from guide.measure.truing.story import Story


def lines(story: Story) -> dict[int, float]:
    """The moves that together centre the body, by screw, as changes of the dial.

    A screw that would not go is left out.
    """
    if story.belief is None:
        return {}
    return _shared(story, aim(story) - story.belief.centre - usual_shift(story.known))


def held(story: Story) -> float:
    """How far the centre stays off whatever the screws that still go may do; 0 where all go."""
    if story.belief is None or not story.blocked:
        return 0.0
    off = aim(story) - story.belief.centre
    moved = sum(by * way_of(story, k) for k, by in _shared(story, off).items())
    return abs(off - moved)


def aim(story: Story) -> complex:
    """Where the centre at the present station should be: the least that the worst station can be.

    With two stations it is the middle of their centres, for both; a tilt cannot be moved away.
    """
    leans = [story.leans.get(each, 0j) for each in story.facts.stations]
    if len(leans) < 2 or story.station is None:
        return 0j
    ends = max(((p, q) for p in leans for q in leans), key=lambda pair: abs(pair[0] - pair[1]))
    return story.leans.get(story.station, 0j) - (ends[0] + ends[1]) / 2


def _shared(story: Story, off: complex) -> dict[int, float]:
    """The least moves along two lines of screws that make up an offset, with screws that go.

    With one line left it is what that line can do; with none, nothing.
    """
    wanted = split(off.real, off.imag, story.facts.screws)
    if not any(given_up(story, k, by) for k, by in wanted.items()):
        return wanted
    n = story.facts.screws
    ends = range(1, (n if n % 2 else n // 2) + 1)
    tried = [_along(story, off, pair) for pair in combinations(ends, 2)]
    tried = [each for each in tried if not any(given_up(story, k, by) for k, by in each.items())]
    if tried:
        return min(tried, key=lambda each: sum(map(abs, each.values())))
    alone = ({k: (off * way_of(story, k).conjugate()).real} for k in ends)
    left = [each for each in alone if not any(given_up(story, k, by) for k, by in each.items())]
    return max(left, key=lambda each: sum(map(abs, each.values())), default={})


def _along(story: Story, off: complex, pair: tuple[int, int]) -> dict[int, float]:
    """An offset as a move at each of two screws."""
    one, other = (way_of(story, k) for k in pair)
    whole = (one.conjugate() * other).imag
    return {
        pair[0]: (off.conjugate() * other).imag / whole,
        pair[1]: (one.conjugate() * off).imag / whole,
    }


def way_of(story: Story, screw: int) -> complex:
    """The direction of a screw."""
    return exp(1j * radians(of_screw(screw, story.facts.screws)))


def given_up(story: Story, screw: int, by: float) -> bool:
    """Whether a direction would not go twice, the way it is wanted now; either way if it sticks."""
    other = across(screw, story.facts.screws)
    wanted = {(screw, by > 0), (other, by < 0)}
    stuck = [each for each in story.blocked if each.why == "stuck"]
    there = sum(each.screw in (screw, other) for each in stuck)
    return there > 1 or sum((each.screw, each.raising) in wanted for each in story.blocked) > 1
