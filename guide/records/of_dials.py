"""Every value of a dial that was typed, one by one, with where the plunger stood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guide.measure.angles import apart, even, of_screw
from guide.measure.numerals import parse_number
from guide.plain import N_
from guide.present.labels import SERVES_AS
from guide.present.seen import Seen
from guide.present.visible import visible
from guide.present.words import say
from guide.records.record import Dial
from guide.walk.deciding import TURNS_ON_THE_BAR
from guide.walk.figures import unit_of
from guide.walk.state import State

OF_A_TURN = N_("reading of the turn")
CLOSING = N_("back at the first position")
LOWEST, HIGHEST = N_("lowest seen over the turn"), N_("highest seen over the turn")
PUSHED, PULLED = N_("pushed"), N_("pulled")
NEAR, FAR = N_("near the headstock"), N_("near the tailstock")
AT_ONE, CAME_TO = N_("at the one"), N_("came to")
ON_THE_BAR = ("", "bar-play", "second-screw", *TURNS_ON_THE_BAR)
"""What readings at the station serve as; a correction's value serves as nothing."""
SECOND_SCREW = SERVES_AS["second-screw"]
"""What a reading at the screw of a correction serves as."""
BY_EYE = 1e-6
"""Degrees within which a reading is at a screw."""

Read = tuple[str, str, str, object]
"""What the value is, the angle, the screw, and the value."""


def dials_of(met: Sequence[Seen], language: str) -> Iterator[Dial]:
    """Every value of a dial, in order."""
    for each in met:
        for read, angle, screw, typed in _read(each):
            yield Dial(
                sequence=each.entry.sequence,
                at=each.entry.at,
                person=visible(each.entry.person),
                what=_what(each, language),
                read=say(read, language),
                station=visible(_station(each)),
                angle=visible(angle),
                screw=visible(screw),
                typed=visible(typed).strip(),
                unit=unit_of(each.before),
            )


def _station(each: Seen) -> str:
    """How far out the plunger stood; told of readings on the bar alone."""
    on_the_bar = each.step is None or each.step.serves_as in ON_THE_BAR
    return each.before.facts.get("station", "") if on_the_bar else ""


def _what(each: Seen, language: str) -> str:
    """What the values served as."""
    step = each.step
    if step is None or step.kind == "correction":
        return say(SECOND_SCREW, language)
    return say(SERVES_AS.get(step.serves_as, step.serves_as), language)


def _read(each: Seen) -> Iterator[Read]:
    """The values of one event."""
    step, data = each.step, each.entry.data
    kind = step.kind if step else ""
    if kind == "correction" and data.get("got") is not None:
        screw = str(each.before.pair.get("screw", data.get("screw", "")))
        yield CAME_TO, _angle_of(screw, each.before), screw, data["got"]
    if kind != "readings" or each.entry.kind != "record":
        return
    if "pushed" in data:
        yield PUSHED, "", "", data["pushed"]
        yield PULLED, "", "", data.get("pulled", "")
    if step and step.take == "along":
        yield NEAR, "", "", data.get("near", "")
        yield FAR, "", "", data.get("far", "")
    if step and step.take == "pair":
        screw = str(data.get("screw", ""))
        yield AT_ONE, _angle_of(screw, each.before), screw, data.get("value", "")
    yield from _of_turn(data, each.before)


def _of_turn(data: Mapping[str, Any], state: State) -> Iterator[Read]:
    """The values of a turn, what it closed with, and what was watched."""
    for angle, typed in points(data):
        yield OF_A_TURN, angle, _screw_at(angle, state), typed
    first = next(points(data), None)
    if first and data.get("closing"):
        yield CLOSING, first[0], _screw_at(first[0], state), data["closing"]
    if data.get("watched"):
        low, high = data["watched"]
        yield LOWEST, "", "", low
        yield HIGHEST, "", "", high


def points(data: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """The angle and the value of each reading of a turn, as typed."""
    values: Sequence[object] = data.get("values", ())
    angles = data.get("angles") or [f"{at:g}" for at in even(len(values))]
    for angle, typed in zip(angles, values, strict=False):
        yield str(angle), str(typed)


def degrees(angle: str) -> float:
    """An angle as typed, as a number of degrees."""
    return float(parse_number(angle))


def counted(state: State) -> int:
    """How many screws or jaws there are, 0 where nobody told."""
    told = state.facts.get("screw-count", "")
    return int(told) if told.isdecimal() and 0 < int(told) <= MOST else 0


MOST = 24


def _screw_at(angle: str, state: State) -> str:
    """The screw that is under the plunger at an angle, blank where there is none."""
    screws = counted(state)
    for screw in range(1, screws + 1):
        if apart(degrees(angle), of_screw(screw, screws)) < BY_EYE:
            return str(screw)
    return ""


def _angle_of(screw: str, state: State) -> str:
    """Where a screw is, blank where it cannot be told."""
    screws = counted(state)
    known = screw.isdecimal() and 0 < int(screw) <= screws
    return f"{of_screw(int(screw), screws):g}" if known else ""
