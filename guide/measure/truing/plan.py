"""Which positions to read next: as few as the decision needs, and why."""

from __future__ import annotations

from decimal import Decimal

from guide.measure.angles import even, of_screw
from guide.measure.truing.asked import Read, Why
from guide.measure.truing.contradicting import CONTRADICTS, said_of
from guide.measure.truing.facts import Facts
from guide.measure.truing.judging import Judgement, provable
from guide.measure.truing.learning import chance_from, shift_spread
from guide.measure.truing.story import Story
from guide.plain import N_

LIKELY = 0.6
"""From this chance on of being within, a fine turn at once is less work than a coarse one first."""

CANNOT_PROVE = N_(
    "A dial of {graduation} {unit} cannot prove {tolerance} {unit}: "
    "the most it can end with is that nothing more is seen."
)
COARSE = N_("Still far off, or not known: the screws alone are enough, and the first one again.")
SCREWS = N_("The screws first, and the first one again.")
FINE = N_("Near the tolerance: more positions make it surer and show a bar that is not round.")
REST = N_("The positions between the screws: near the tolerance the screws alone are not enough.")
ANOTHER = N_("Undecided by {short} {unit}: another turn is less work than another round.")
FORM_OR_SLIP = N_(
    "This turn shows more than the centre being off: a bar that is out of round, or one reading "
    "wrong. Before anything is made of it read every position again, slowly."
)
FEW_SHOW_FORM = N_(
    "This turn shows more than the centre being off. At so few positions a bar that is out of "
    "round and one wrong reading look alike: read again, slowly, at {count} positions."
)
UNLIKE = N_(
    "Two turns do not show the same, so one reading at least was wrong: read every position again, "
    "slowly."
)
MOVED = N_("The first position did not come back to its reading: zero moved, read again.")
DRIFTING = N_("The zero goes on moving: it is reckoned with from here on, and trusted less.")
STATION = N_("The same turn at the next station.")
BEFORE_MOVE = N_("Read this screw again before it is moved: the other move shifted it too.")


def fine(facts: Facts) -> int:
    """How many positions show three lobes with these screws: eight, or twelve with three or six."""
    return 8 if facts.screws % 3 else 12


def coarse(facts: Facts) -> int:
    """The fewest positions that fix a centre at the screws, with one to spare."""
    return facts.screws if facts.screws > 3 else 6


def closed(angles: tuple[float, ...]) -> tuple[float, ...]:
    """The angles, and the first one again after the whole turn."""
    return (*angles, angles[0] + 360)


def turn(story: Story, station: Decimal) -> Read:
    """A first turn at a station since the bolts were torqued."""
    facts = story.facts
    likely = _likely_within(story) > LIKELY
    near = likely and provable(story, fine(facts))
    count = fine(facts) if near else coarse(facts)
    why = Why((FINE if near else SCREWS if likely else COARSE,))
    return Read(closed(even(count)), station, _more(story, why, station))


def again(story: Story, one: Judgement) -> Read:
    """Another fine turn at a station that is not decided."""
    short = one.judged + one.guard - float(story.facts.tolerance)
    why = Why((ANOTHER,), {"short": f"{max(short, 0):.2g}", "unit": story.facts.unit})
    return Read(closed(even(fine(story.facts))), one.station, why)


def form_again(story: Story, one: Judgement) -> Read:
    """Every position again, where one turn alone shows more form than is asked for."""
    count = fine(story.facts)
    said = UNLIKE if story.unlike else FORM_OR_SLIP if one.shows_lobes else FEW_SHOW_FORM
    return Read(closed(even(count)), one.station, Why((said,), {"count": count}))


def rest(story: Story, one: Judgement) -> Read:
    """The fine positions that a coarse turn left out, and the first one again."""
    have = {round(angle % 360, 6) for angle in one.found.angles}
    left = tuple(a for a in even(fine(story.facts)) if round(a, 6) not in have)
    return Read((*left, 360.0), one.station, Why((REST,)))


def screw(story: Story, number: int) -> Read:
    """One screw, before it is moved."""
    station = story.station or story.facts.stations[0]
    why, seen = Why((BEFORE_MOVE,)), story.contradiction
    if seen is not None and seen[0] == number:
        why = said_of(CONTRADICTS, story, *seen)
    return Read((of_screw(number, story.facts.screws),), station, why)


def announced(story: Story) -> Why | None:
    """What has to be said before the first reading: a tolerance that cannot be proved."""
    facts = story.facts
    if provable(story, fine(facts)):
        return None
    return Why(
        (CANNOT_PROVE,),
        {"graduation": facts.graduation, "tolerance": facts.tolerance, "unit": facts.unit},
    )


def _more(story: Story, why: Why, station: Decimal) -> Why:
    """The reason, with what else has to be known."""
    said = announced(story) if story.belief is None else None
    if said is not None:
        why = said.and_then(why)
    if story.drifting:
        return Why((DRIFTING,)).and_then(why)
    if story.alarms:
        return Why((MOVED,)).and_then(why)
    return Why((STATION,)).and_then(why) if station != story.facts.stations[0] else why


def _likely_within(story: Story) -> float:
    """The chance that the centre is within tolerance, by what is believed of it."""
    if story.belief is None:
        return 0.0
    room = float(story.facts.tolerance) / 2
    off = abs(story.belief.centre)
    if not story.rounds:
        return 0.0 if off > room else 1.0
    return chance_from(off, room, shift_spread(story.known, story.facts))
