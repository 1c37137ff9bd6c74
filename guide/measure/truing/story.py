"""What was heard so far, folded into what is believed: readings since the last torque, the centre,
the zero, what the moves taught."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import lru_cache
from math import cos, hypot, radians, sin, sqrt

from guide.measure.angles import SAME, across, apart, of_screw
from guide.measure.harmonic import Fit, fit, shape
from guide.measure.reading import sign_of
from guide.measure.sense import Sense
from guide.measure.truing.belief import Belief, nothing_known
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.measure.truing.learning import SHIFT, TOLD, Learned, hand, shift_spread, usual_shift
from guide.measure.truing.noise import learned, with_angle

ALARM = 2.5
"""A first position read again that is this many u off has moved: one alarm in eighty."""
PATIENCE = 2
"""Sets with a moved zero that are thrown away before the drift is reckoned with instead."""
HARDLY = 0.25
"""A move that goes less than this part of its way was held by something."""
SHORT, BY_BOLTS = 0.25, 3
"""A move is far short by this part of its way, and by so many times what bolts shift."""
ANY_MOVE, SIDEWAYS = 0.3, 0.1
"""How far a move may differ along itself where nobody reads it, and how far it goes sideways."""


@dataclass(frozen=True, slots=True)
class Blocked:
    """A screw that would not go the way it was asked, at its screw and with its sign."""

    screw: int
    raising: bool
    why: str


@dataclass
class Story:
    """The state of the advice; lengths in the facts' unit."""

    facts: Facts
    known: Learned
    u: float
    """Standard uncertainty of one reading where the angle does not matter."""
    belief: Belief | None = None
    station: Decimal | None = None
    """Where the indicator stands."""
    taken: dict[Decimal, list[tuple[float, float]]] = field(default_factory=dict)
    """Readings at each station since the bolts were last torqued, with one zero."""
    last: dict[int, float] = field(default_factory=dict)
    """What each screw last read, with the present zero."""
    seen_since_easing: set[int] = field(default_factory=set)
    """Screws read after the bolts were eased for this round."""
    eased: bool = False
    """Whether the bolts were eased since they were last torqued."""
    moves: list[WasMoved] = field(default_factory=list)
    """Moves since the last torque."""
    blocked: list[Blocked] = field(default_factory=list)
    rounds: int = 0
    shorts: int = 0
    """Moves that ended far short of their value, though nobody called them held."""
    before_torque: complex | None = None
    """Where the centre was believed to be before the bolts were torqued, if that was read."""
    leans: dict[Decimal, complex] = field(default_factory=dict)
    """How far the centre at each station is off the one at the first, once both were read."""
    alarms: int = 0
    """Sets with a moved zero, one after the other."""
    zero_moved: bool = False
    drifting: bool = False
    repeats: list[float] = field(default_factory=list)
    """Differences of two readings of one place."""
    scatter: dict[Decimal, tuple[float, int]] = field(default_factory=dict)
    """What each station's readings leave over beside three orders: squares, degrees of freedom."""
    scatters: list[tuple[float, int]] = field(default_factory=list)
    """The same of earlier rounds."""

    @property
    def moving(self) -> bool:
        """Whether a move was tried since the bolts were torqued."""
        return bool(self.moves)

    def readings(self, station: Decimal) -> list[tuple[float, float]]:
        """Angles and values at a station since the bolts were torqued."""
        return self.taken.get(station, [])

    def found(self, station: Decimal) -> Fit | None:
        """The first harmonic there, or None before enough was read."""
        pairs = self.readings(station)
        if len({round(angle % 360, 6) for angle, _ in pairs}) < 3:
            return None
        return fitted(tuple(pairs))

    def u_at(self, found: Fit) -> float:
        """u of one reading on this eccentricity, averaged round the turn."""
        return with_angle(self.u, found.eccentricity / sqrt(2))


Pairs = tuple[tuple[float, float], ...]
"""Angles and values."""


@lru_cache(maxsize=1024)
def fitted(pairs: Pairs) -> Fit:
    """The first harmonic, worked out once: every question folds the whole story again."""
    return fit([angle for angle, _ in pairs], [value for _, value in pairs])


@lru_cache(maxsize=1024)
def scattered(pairs: Pairs) -> tuple[float, int] | None:
    """What is left beside three orders: squares and degrees of freedom; None where none is told."""
    orders, whole = shape([angle for angle, _ in pairs], [value for _, value in pairs])
    return (whole.squares, whole.spare) if orders[-1] == 3 and whole.spare > 0 else None


def told(facts: Facts, heard: Iterable[Heard]) -> Story:
    """Everything heard, in order."""
    story = Story(facts, Learned(facts.sense, TOLD), learned(facts, ()))
    for each in heard:
        if isinstance(each, WasRead):
            _read(story, each)
        elif isinstance(each, WasMoved):
            _moved(story, each)
        else:
            _torqued(story, each)
    return story


def _read(story: Story, heard: WasRead) -> None:
    """One set of readings: a whole turn, or one screw read again between two moves."""
    if heard.rezeroed or heard.station != story.station:
        _lose_zero(story, heard)
    story.station = heard.station
    pairs = [(a % 360, float(v)) for a, v in zip(heard.angles, heard.values, strict=True)]
    if len({round(angle, 6) for angle, _ in pairs}) < 3:
        _ease(story)
        _believe(story, pairs)
    elif pairs := _one_zero(story, pairs):
        _believe(story, pairs)
        _keep(story, heard.station, pairs)


def _ease(story: Story) -> None:
    """The bolts are eased, once a round: the body gives back some of its shift."""
    if story.belief is not None and not story.eased:
        spread = shift_spread(story.known, story.facts)
        story.belief = story.belief.moved(1e-12 + 0j, spread, spread)
    story.eased = True


def _lose_zero(story: Story, heard: WasRead) -> None:
    """Another zero, or another station: what was read before has nothing to do with it."""
    if heard.rezeroed:
        story.taken.pop(heard.station, None)
    story.last, story.seen_since_easing = {}, set()
    if story.belief is None:
        return
    lean = story.leans.get(heard.station, 0j) - story.leans.get(story.station or heard.station, 0j)
    spread = story.facts.inches(0.0005) if heard.station != story.station else 0.0
    size = max(abs(float(v)) for v in heard.values) + abs(story.belief.zero) + 1e-6
    story.belief = story.belief.moved(lean, spread, spread).zero_lost(size)


def _one_zero(story: Story, pairs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The set if its zero held; nothing if it moved; the drift taken out if that goes on and on."""
    first, after = pairs[0], pairs[1:]
    again = [(n + 1, v) for n, (a, v) in enumerate(after) if apart(a, first[0]) < SAME]
    if not again:
        return pairs
    place, value = again[-1]
    off = value - first[1]
    slope = _slope(story, first[0], pairs)
    limit = ALARM * sqrt(2) * with_angle(story.u, slope)
    if abs(off) <= max(limit, 1.5 * float(story.facts.graduation)):
        story.alarms = 0
        story.repeats.append(_less_angle(off, slope))
        _trust(story)
        return pairs
    story.alarms += 1
    story.zero_moved = True
    if story.alarms <= PATIENCE:
        if story.belief is not None:
            story.belief = story.belief.zero_lost(abs(off))
        story.last = {}
        return []
    story.drifting = True
    return [(a, v - off * n / place) for n, (a, v) in enumerate(pairs)]


def _trust(story: Story) -> None:
    """How far one reading is trusted, by everything repeated so far."""
    scatters = (*story.scatters, *story.scatter.values())
    story.u = learned(story.facts, story.repeats, scatters)


def _slope(story: Story, angle: float, pairs: Sequence[tuple[float, float]]) -> float:
    """How steeply the dial changes there, by the readings themselves."""
    found = fitted(tuple(pairs))
    turn = radians(angle)
    return -found.a * sin(turn) + found.b * cos(turn)


def _less_angle(off: float, slope: float) -> float:
    """A difference of two readings without what a wrong position explains of it."""
    explained = sqrt(2) * with_angle(0.0, slope)
    return off * off / hypot(off, explained) if off else 0.0


def _believe(story: Story, pairs: Sequence[tuple[float, float]]) -> None:
    """Every reading in turn changes what is believed."""
    if story.belief is None:
        story.belief = nothing_known([value for _, value in pairs])
    a, b, _ = story.belief.state
    for angle, value in pairs:
        turn = radians(angle)
        slope = -a * sin(turn) + b * cos(turn)
        story.belief = story.belief.read(angle, value, with_angle(story.u, slope))
        _note(story, angle, value)


def _note(story: Story, angle: float, value: float) -> None:
    """What a screw last read."""
    for screw in range(1, story.facts.screws + 1):
        if apart(angle, of_screw(screw, story.facts.screws)) < SAME:
            story.last[screw] = value
            if story.eased:
                story.seen_since_easing.add(screw)


def _keep(story: Story, station: Decimal, pairs: list[tuple[float, float]]) -> None:
    """A turn joins the ones before it if the zero is still theirs; a first one teaches a shift."""
    if story.moving:
        return
    before = story.found(station)
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
        _trust(story)
    first = story.found(story.facts.stations[0])
    if first is not None:
        story.leans[station] = complex(found.a - first.a, found.b - first.b)
    if before is None and story.before_torque is not None:
        shift = complex(found.a, found.b) - story.before_torque
        story.known = replace(story.known, shifts=(*story.known.shifts, shift))
        story.before_torque = None


def _same_zero(story: Story, before: Fit, pairs: Sequence[tuple[float, float]]) -> bool:
    """Whether another turn stands about where the one before it stood."""
    off = sum(value - before.at(angle) for angle, value in pairs) / len(pairs)
    u = story.u_at(before) * sqrt(1 / len(pairs) + 1 / len(before.values))
    return abs(off) <= max(ALARM * u, float(story.facts.graduation))


def _moved(story: Story, move: WasMoved) -> None:
    """A move: where the needle went, what that teaches, or what would not go."""
    story.moves.append(move)
    place = of_screw(move.screw, story.facts.screws)
    before = story.last.get(move.screw)
    reads = None if move.reads is None else float(move.reads)
    _ease(story)
    wanted = float(move.by)
    if reads is not None and before is not None:
        _learn(story, move, reads - before)
    went = wanted if move.done else 0.0
    if reads is not None and before is not None and (reads - before > 0) != (wanted > 0):
        went = reads - before
    if story.belief is not None:
        way = complex(cos(radians(place)), sin(radians(place)))
        loose = ANY_MOVE * abs(wanted) if reads is not None or not move.done else 0.0
        along = hypot(loose, hand(story.known, story.facts))
        story.belief = story.belief.moved(went * way, along, SIDEWAYS * abs(went))
        if reads is not None:
            story.belief = story.belief.read(place, reads, story.u)
    story.seen_since_easing.add(move.screw)
    opposite = across(move.screw, story.facts.screws)
    story.last.pop(opposite or 0, None)
    if reads is not None:
        story.last[move.screw] = reads
    else:
        story.last.pop(move.screw, None)
    story.shorts += _short(story, move)
    why = move.why if not move.done else _held(story, move, reads, before)
    if why and not _wrong(move, reads, before):
        story.blocked.append(Blocked(move.screw, wanted > 0, why))


def _short(story: Story, move: WasMoved) -> bool:
    """Whether a move ended far short: by a part of its way, and by more than bolts do."""
    if move.reads is None or move.bring_to is None or not move.by:
        return False
    left = float(move.bring_to - move.reads) * (1 if move.by > 0 else -1)
    allowed = max(SHORT * abs(float(move.by)), BY_BOLTS * story.facts.inches(SHIFT))
    return left > allowed and left < abs(float(move.by))


def _held(story: Story, move: WasMoved, reads: float | None, before: float | None) -> str:
    """Bottomed, where a move that was called done hardly moved the needle; else nothing."""
    if reads is None or before is None:
        return ""
    wanted = abs(float(move.by))
    plain = wanted > 6 * max(story.u, float(story.facts.graduation))
    return "bottomed" if plain and abs(reads - before) < HARDLY * wanted else ""


def _wrong(move: WasMoved, reads: float | None, before: float | None) -> bool:
    """Whether the needle went the other way than it was asked to."""
    return reads is not None and before is not None and (reads - before) * float(move.by) < 0


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
        story.known = story.known.tightened(sense, named=move.named)
    else:
        story.known = story.known.moved(float(move.by), went, noise, named=move.named)
    if move.done and move.bring_to is not None and move.reads is not None and not first:
        miss = float(move.reads - move.bring_to)
        if abs(miss) < 0.5 * abs(float(move.by)) or abs(miss) < 4 * story.u:
            story.known = replace(story.known, misses=(*story.known.misses, miss))


def _torqued(story: Story, _: WasTorqued) -> None:
    """The bolts are at their torque: a round is over, what was read before it is history."""
    if story.moving:
        story.rounds += 1
    belief = story.belief
    if belief is not None:
        known = all(move.done for move in story.moves) and story.moving
        story.before_torque = belief.centre if known else None
        spread = shift_spread(story.known, story.facts)
        story.belief = belief.moved(usual_shift(story.known, story.facts) + 1e-12, spread, spread)
    story.scatters.extend(story.scatter.values())
    story.taken, story.scatter, story.moves, story.last = {}, {}, [], {}
    story.seen_since_easing, story.eased = set(), False
