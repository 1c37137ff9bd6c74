"""What a set of readings changes: whether its zero held, what is believed, what it teaches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from math import cos, radians, sin, sqrt

from guide.measure.angles import SAME, apart, of_screw
from guide.measure.harmonic import Fit
from guide.measure.truing.belief import nothing_known
from guide.measure.truing.contradicting import contradicted
from guide.measure.truing.heard import WasRead
from guide.measure.truing.learning import FARTHEST, across_of, shift_spread
from guide.measure.truing.noise import with_angle
from guide.measure.truing.slips import alike, in_doubt
from guide.measure.truing.story import Story, fitted, place, scattered
from guide.measure.truing.undone import DONE, PLAIN, reckon, toward
from guide.measure.uncertainty import form_share

ALARM = 2.5
"""A first position read again that is this many u off has moved: one alarm in eighty."""
PATIENCE = 2
"""Sets with a moved zero that are thrown away before the drift is reckoned with instead."""
ANOTHER_PLACE = 0.0005
"""Inches by which the centre at another station is off what is believed, before it was read."""


def was_read(story: Story, heard: WasRead) -> None:
    """One set of readings: a whole turn, or one screw read again between two moves."""
    if heard.rezeroed or heard.station != story.station:
        _lose_zero(story, heard)
    story.station = heard.station
    pairs = [(a % 360, float(v)) for a, v in zip(heard.angles, heard.values, strict=True)]
    if len({place(angle) for angle, _ in pairs}) < 3:
        story.ease()
        story.creep(len(pairs))
        if _contradicts(story, heard):
            return
        round_bar = [(angle, value - story.form_at(angle)) for angle, value in pairs]
        _learn_across(story, round_bar)
        _believe(story, round_bar)
        _note(story, pairs)
    elif pairs := _one_zero(story, pairs):
        story.creep(len(pairs))
        _stand_alone(story, pairs)
        _believe(story, pairs)
        _note(story, pairs)
        _keep(story, heard.station, pairs)


def _stand_alone(story: Story, pairs: Sequence[tuple[float, float]]) -> None:
    """What was believed before a turn goes, where the body cannot have come from there to here.

    So it does where no torque shifts anything so far: this turn was just read, and it alone counts.
    """
    found = fitted(tuple(pairs))
    off = story.belief and abs(complex(found.a, found.b) - story.belief.centre)
    if off and (story.facts.beyond(off) or (_settled(story) and _too_far(story, off))):
        story.belief, story.before_torque = None, None


def _settled(story: Story) -> bool:
    """Whether the turn is the first one after a torque that followed moves."""
    return story.before_torque is not None and not story.taken


def _too_far(story: Story, shift: float) -> bool:
    """Whether a torque cannot have shifted it so."""
    return shift > story.facts.inches(FARTHEST)


def _contradicts(story: Story, heard: WasRead) -> bool:
    """Whether a screw is to be read once more: said again to within a division, it stands."""
    before, story.contradiction = story.contradiction, None
    screw = next((k for k in range(1, story.facts.screws + 1) if _is_at(heard, k, story)), 0)
    if heard.stands or not screw:
        return False
    value = heard.values[0]
    if before and before[0] == screw and abs(before[1] - value) <= story.facts.graduation:
        return False
    about = contradicted(story, screw, value)
    story.contradiction = None if about is None else (screw, value, about)
    return about is not None


def _is_at(heard: WasRead, screw: int, story: Story) -> bool:
    """Whether one reading was taken, and at this screw."""
    place = of_screw(screw, story.facts.screws)
    return len(heard.angles) == 1 and apart(heard.angles[0], place) < SAME


def _learn_across(story: Story, pairs: Sequence[tuple[float, float]]) -> None:
    """The first screw read after a move: what the move did to it sideways."""
    if story.belief is None or len(story.moves) != 1 or len(pairs) != 1:
        return
    (angle, value), move = pairs[0], story.moves[0]
    turn = radians(angle - of_screw(move.screw, story.facts.screws))
    reach = float(move.by) * sin(turn)
    known = across_of(story.known, story.facts)
    off = value - story.belief.at(angle) + known * reach
    story.known = replace(story.known, sideways=(*story.known.sideways, (off, reach)))


def _lose_zero(story: Story, heard: WasRead) -> None:
    """Another zero, or another station: what was read before has nothing to do with it."""
    if heard.rezeroed:
        story.taken.pop(heard.station, None)
    story.last, story.seen_since_easing = {}, set()
    if story.belief is None:
        return
    lean = story.leans.get(heard.station, 0j) - story.leans.get(story.station or heard.station, 0j)
    spread = story.facts.inches(ANOTHER_PLACE) if heard.station != story.station else 0.0
    size = max(abs(float(v)) for v in heard.values) + abs(story.belief.zero) + 1e-6
    story.belief = story.belief.moved(lean, spread, spread).zero_lost(size)


def _one_zero(story: Story, pairs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The set if its zero held; nothing if it moved; the drift taken out if that goes on and on."""
    first, after = pairs[0], pairs[1:]
    again = [(n + 1, v) for n, (a, v) in enumerate(after) if apart(a, first[0]) < SAME]
    if not again:
        return _steady(story, pairs)
    count, value = again[-1]
    crept = value - first[1]
    off = crept - story.rate * count
    slope = _slope(first[0], pairs)
    limit = ALARM * sqrt(2) * with_angle(story.u, slope)
    if abs(off) <= max(limit, 1.5 * float(story.facts.graduation)):
        story.alarms = 0
        story.repeats.append(_less_angle(off, slope, story.u))
        story.trust()
    else:
        story.alarms += 1
        story.zero_moved = True
        if story.alarms <= PATIENCE:
            return _thrown_away(story, off)
        story.drifting = True
    story.rate = crept / count if story.drifting else 0.0
    return _steady(story, pairs)


def _steady(story: Story, pairs: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """A set as it would have read with the zero that it ended with."""
    last = len(pairs) - 1
    return [(angle, value + story.rate * (last - n)) for n, (angle, value) in enumerate(pairs)]


def _thrown_away(story: Story, off: float) -> list[tuple[float, float]]:
    """Nothing is made of a set whose zero moved; what the dial shows is to be found again."""
    if story.belief is not None:
        story.belief = story.belief.zero_lost(abs(off))
    story.last = {}
    return []


def _slope(angle: float, pairs: Sequence[tuple[float, float]]) -> float:
    """How steeply the dial changes there, by the readings themselves."""
    found = fitted(tuple(pairs))
    turn = radians(angle)
    return -found.a * sin(turn) + found.b * cos(turn)


def _less_angle(off: float, slope: float, u: float) -> float:
    """A difference of two readings without what a wrong position explains of it.

    It keeps the share that u has of the whole variance, so that on average it still gives u; a
    knock that hides in what the position leaves open says no more of u than that.
    """
    return off * u / with_angle(u, slope)


def _believe(story: Story, pairs: Sequence[tuple[float, float]]) -> None:
    """Every reading in turn changes what is believed."""
    if story.belief is None:
        story.belief = nothing_known([value for _, value in pairs])
    a, b, _ = story.belief.state
    for angle, value in pairs:
        turn = radians(angle)
        slope = -a * sin(turn) + b * cos(turn)
        story.belief = story.belief.read(angle, value, with_angle(story.u, slope))


def _note(story: Story, pairs: Sequence[tuple[float, float]]) -> None:
    """What each screw last read."""
    for angle, value in pairs:
        for screw in range(1, story.facts.screws + 1):
            if apart(angle, of_screw(screw, story.facts.screws)) < SAME:
                story.last[screw] = value
                if story.eased:
                    story.seen_since_easing.add(screw)


def _keep(story: Story, station: Decimal, pairs: list[tuple[float, float]]) -> None:
    """A turn joins the ones before it if the zero is still theirs; a first one teaches a shift.

    One whose form is in doubt teaches nothing until another turn shows the same.
    """
    if story.moving:
        return
    if story.found(station) is not None and in_doubt(story, station):
        _compare(story, station, pairs)
    before = story.found(station)
    if before is not None and story.zero_moved:
        pairs = _brought_to(before, pairs)
    if before is not None and not _same_zero(story, before, pairs):
        story.taken[station] = []
        story.zero_moved = True
        before = None
    story.taken.setdefault(station, []).extend(pairs)
    found = story.found(station)
    if found is None:
        return
    left = scattered(tuple(story.taken[station]))
    if left is not None:
        story.scatter[station] = left
        story.trust()
    story.form[station] = _form(found, story.u_at(found))
    first = story.found(story.facts.stations[0])
    if first is not None:
        story.leans[station] = complex(found.a - first.a, found.b - first.b)
    if before is None:
        story.unlearned.add(station)
    if in_doubt(story, station):
        story.doubted += 1
    elif station in story.unlearned:
        story.unlearned.discard(station)
        _learn(story, complex(found.a, found.b) - story.lean())


def _compare(story: Story, station: Decimal, pairs: list[tuple[float, float]]) -> None:
    """Another turn after one whose form is in doubt: it bears it out, or stands in its place."""
    same = alike(story, station, pairs)
    if same:
        story.seen_twice.add(station)
    elif same is False:
        story.unlike += 1
        story.taken[station] = []
        story.scatter.pop(station, None)
        story.trust()
        story.belief = None
        _believe(story, pairs)


def _form(found: Fit, u: float) -> dict[float, float]:
    """What each place read stands off the first harmonic, as far as noise does not explain it."""
    share = form_share(found.squares, found.spare, u) ** 2
    if not share:
        return {}
    left: dict[float, list[float]] = {}
    for angle, rest in zip(found.angles, found.residuals, strict=True):
        left.setdefault(place(angle), []).append(share * rest)
    return {angle: sum(each) / len(each) for angle, each in left.items()}


def _learn(story: Story, centre: complex) -> None:
    """What the first turn of a round teaches: the sense, where nobody read the moves; the shift."""
    if story.turned_at is not None:
        _learn_unseen(story, centre - story.turned_at)
        reckon(story, centre - story.turned_at)
    shift = None if story.before_torque is None else centre - story.before_torque
    if not (shift is None or story.facts.beyond(abs(shift)) or _too_far(story, abs(shift))):
        story.known = replace(story.known, shifts=(*story.known.shifts, shift))
    story.turned_at, story.unseen, story.before_torque = centre, 0j, None


def _learn_unseen(story: Story, went: complex) -> None:
    """The sense, by what came of moves that nobody read; if nothing did, no shift is learned.

    A body that hardly went says little of the sense: it counts by how far it went, not was to.
    """
    if not story.unseen:
        return
    wanted, along = abs(story.unseen), toward(story.unseen, went)
    noise = shift_spread(story.known, story.facts)
    reach, sense = min(wanted, abs(along)), story.known.sense
    story.known = story.known.moved(reach, along, noise, named=story.claimed)
    story.turned_round = sense not in (story.known.sense, "unknown")
    if along < 0 or (along < DONE * wanted and wanted > PLAIN * noise):
        story.before_torque = None


def _brought_to(before: Fit, pairs: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """A turn brought to the zero of the one before it, where it has moved before and may again."""
    off = sum(value - before.at(angle) for angle, value in pairs) / len(pairs)
    return [(angle, value - off) for angle, value in pairs]


def _same_zero(story: Story, before: Fit, pairs: Sequence[tuple[float, float]]) -> bool:
    """Whether another turn stands about where the one before it stood."""
    off = sum(value - before.at(angle) for angle, value in pairs) / len(pairs)
    u = story.u_at(before) * sqrt(1 / len(pairs) + 1 / len(before.values))
    return abs(off) <= max(ALARM * u, float(story.facts.graduation))
