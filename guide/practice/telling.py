"""The debrief in words: what was done, against what was hidden."""

from __future__ import annotations

from cmath import phase
from collections.abc import Iterator
from math import degrees

from guide.measure.flags import FLAGS
from guide.plain import N_
from guide.practice.debrief import Debrief
from guide.practice.lessons import LESSONS, number_of
from guide.practice.truth import Truth
from guide.present.labels import DECISION, PLACE
from guide.present.numbers import plain
from guide.present.words import say

Line = tuple[str, str]
"""A sign and what is told: `✓` right, `✗` wrong, blank for neither."""
Part = tuple[str, tuple[Line, ...]]
"""A heading and its lines."""


def told(one: Debrief, language: str = "en") -> tuple[Part, ...]:
    """The parts in order: how it went, decisions, at the bench, what was hidden."""
    parts = (
        (HOW, tuple(_how(one, language))),
        (DECISIONS, tuple(_decisions(one, language))),
        (AT_BENCH, tuple(_bench(one, language))),
        (HIDDEN, tuple(_hidden(one, language))),
    )
    return tuple((say(title, language), lines) for title, lines in parts if lines)


def title(one: Debrief, language: str = "en") -> str:
    """Which lesson this was, with its seed."""
    number = number_of(one.lesson)
    if number is None:
        return say(N_("Debrief: drawn from seed {seed}"), language, seed=one.seed)
    named = say(LESSONS[number - 1].title, language)
    return say(N_("Debrief: lesson {number}, {named}"), language, number=number, named=named)


def size(one: Debrief, inches: float, language: str = "en") -> str:
    """A length in the dial's unit, to a tenth of its division."""
    places = max(-one.dial.graduation.as_tuple().exponent + 1, 1)  # type: ignore[operator]
    return f"{plain(one.dial.of_inches(inches), places, language)} {one.dial.unit}"


def _how(one: Debrief, language: str) -> Iterator[Line]:
    """Rounds and readings against the best, and how it was left."""
    for sentence, mine, best, good in (
        (ROUNDS, one.rounds, one.best.rounds, one.good_rounds),
        (READINGS, one.readings, one.best.readings, one.good_readings),
    ):
        yield _sign(mine <= good), say(sentence, language, mine=mine, best=best, good=good)
    if not one.best.trued:
        yield "", say(BEST_STOPS, language)
    place = say(PLACE.get(one.place, NOT_ENDED), language)
    runout, tolerance = size(one, one.runout, language), size(one, one.tolerance, language)
    yield "", say(LEFT, language, place=place, runout=runout, tolerance=tolerance)
    if one.truth.bar or one.truth.bent:
        yield "", say(CHUCK_LEFT, language, runout=size(one, 2 * abs(one.path[-1]), language))


def _decisions(one: Debrief, language: str) -> Iterator[Line]:
    """Each decision, right or wrong, and why."""
    for each in one.decisions:
        flag = FLAGS.get(str(each.values.get("flag")))
        why = say(each.why, language, flag=flag.key if flag else "")
        truly = size(one, each.runout, language)
        words = say(DECISION[each.decision], language)
        yield (
            _sign(each.right),
            say(DECIDED, language, decision=words, why=why, runout=truly),
        )


def _bench(one: Debrief, language: str) -> Iterator[Line]:
    """Values misread, keys left in, hints; or that there was nothing to say."""
    for each in one.misread:
        yield "✗", say(READ_SO, language, angle=each.angle, typed=each.typed, shown=each.shown)
    numbers = {**one.counts, "elsewhere": one.elsewhere, "rolled": one.rolled}
    for name, sentence in COUNTED.items():
        if numbers.get(name):
            yield "✗", say(sentence, language, count=numbers[name])
    if not one.misread and not any(numbers.get(name) for name in COUNTED):
        yield "✓", say(N_("Every value was read right, and no key was ever left in."), language)
    yield "", say(HINTS, language, count=one.hints)


def _hidden(one: Debrief, language: str) -> Iterator[Line]:
    """What nobody was told."""
    truth = one.truth
    for moral in _moral(one):
        yield "", say(moral, language)
    yield (
        "",
        _off(
            N_("The body stood {size} off the middle, toward {angle}°."),
            truth.centre,
            one,
            language,
        ),
    )
    for sentence, way in ((TILTS, truth.tilt), (BAR, truth.bar), (BENT, truth.bent)):
        if way:
            yield "", _off(sentence, way, one, language)
    for order, lobe in truth.lobes.items():
        if abs(lobe) > one.tolerance / 20:
            yield "", say(LOBES, language, order=order, size=size(one, 2 * abs(lobe), language))
    for sentence, number in _sizes(truth):
        yield "", say(sentence, language, size=size(one, number, language))
    yield "", say(SENSE[_driven(truth)], language)
    right = FLAGS.get(one.reach.flag)
    yield (
        "",
        say(STOP, language, flag=right.key, why=say(right.sentence, language))
        if right
        else say(CAN_BE, language, runout=size(one, one.reach.runout, language)),
    )


def _moral(one: Debrief) -> Iterator[str]:
    """What there was to see, for a lesson."""
    number = number_of(one.lesson)
    if number is not None:
        yield LESSONS[number - 1].moral


def _off(sentence: str, way: complex, one: Debrief, language: str) -> str:
    """How far and toward where."""
    angle = plain(degrees(phase(way)) % 360, 0, language)
    return say(sentence, language, size=size(one, abs(way), language), angle=angle)


def _sizes(truth: Truth) -> Iterator[tuple[str, float]]:
    """What else was hidden, as sizes worth telling."""
    if truth.play > 0.0002:
        yield PLAY, truth.play
    if truth.knocked_at >= 0:
        yield KNOCK, abs(truth.knock)
    if abs(truth.shift) > 0.00005:
        yield SHIFT, abs(truth.shift)
    if truth.shift_spread > 0.00005 and truth.held == "bolts":
        yield SPREAD, truth.shift_spread
    if truth.register:
        yield TRAVEL, abs(truth.register)


def _sign(right: bool) -> str:
    """Right or wrong."""
    return "✓" if right else "✗"


HOW, DECISIONS = N_("How it went"), N_("Decisions against the truth")
AT_BENCH, HIDDEN = N_("At the bench"), N_("What was hidden")
ROUNDS = N_("Rounds: {mine}. The best possible with the same hands: {best}; good: up to {good}.")
READINGS = N_("Readings: {mine}. The best possible: {best}; good: up to {good}.")
BEST_STOPS = N_("The best possible here is to see why, move nothing, and stop.")
LEFT = N_("Left ({place}): true runout {runout}; allowed {tolerance}.")
CHUCK_LEFT = N_("The chuck itself, without that bar, was left running out by {runout}.")
NOT_ENDED = N_("not ended yet")
DECIDED = N_("{decision}: {why} (true runout {runout}).")
READ_SO = N_("At {angle}° you typed {typed}; the dial showed {shown}.")
COUNTED = {
    "key_in": N_(
        "The spindle was to be turned with the key in: {count} times. It strikes the hand."
    ),
    "slack": N_("Bolts eased to slack: {count} times. The body drops and shifts more at torque."),
    "against_bolts": N_("A screw turned against tight bolts: {count} times."),
    "forced": N_("A screw forced where it would not go: {count} times."),
    "elsewhere": N_("Readings typed while the spindle stood elsewhere: {count}."),
    "rolled": N_("Turns across zero taken as typed: {count}."),
}
"""What was counted on the bench, in the order of what it can do."""
HINTS = N_("Hints asked for: {count}.")
STOOD = N_("The body stood {size} off the middle, toward {angle}°.")
TILTS = N_("Its axis is tilted by {size} in each inch, toward {angle}°.")
BAR = N_("The bar sat {size} off the middle of the jaws, toward {angle}°.")
BENT = N_("The bar is bent by {size} in each inch, toward {angle}°.")
LOBES = N_("The bar has {order} lobes, {size} from top to bottom.")
PLAY = N_("The bearing gives {size}.")
KNOCK = N_("The indicator was knocked by {size} while it was read.")
SHIFT = N_("Torquing the bolts shifts the body by {size} every time.")
SPREAD = N_("Torquing differs from time to time by about {size} each way.")
TRAVEL = N_("The middle of the body's travel lies {size} off the axis.")
SENSE = {
    "toward": N_("A screw that is driven in brings the body toward it."),
    "away": N_("A screw that is driven in sends the body away from it."),
    "jaws": N_("A jaw that is driven in pushes the work away from it."),
}
STOP = N_("The right end was to stop, with {flag}: {why}")
CAN_BE = N_("It could be brought to {runout}; the right end was to accept it.")


def _driven(truth: Truth) -> str:
    """What a screw or jaw that is driven in moves, and which way."""
    return "jaws" if truth.held == "jaws" else truth.sense
