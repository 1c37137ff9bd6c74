"""The chuck's face and the ring of its bolts as shapes, for pages and for a browser.

Seen from the tailstock with screw 1 under the plunger at the top, as `present.chuck_face` draws it
for a terminal: turning forward the marks run clockwise, in reverse the other way.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, radians, sin

from guide.measure.angles import of_screw
from guide.plain import N_
from guide.present.chuck_face import SKETCHED, WAYS, seen_at
from guide.present.words import say
from guide.records.drawing import (
    BLACK,
    GREY,
    WHITE,
    Disc,
    Drawing,
    Path,
    Place,
    Shape,
    Words,
)
from guide.records.of_dials import degrees
from guide.records.record import Record, Result
from guide.walk.grips import is_grip

OUTSIDE = 37.0
"""Points from the rim to the edge, for the readings."""
NUMBER, READING = 9.0, 8.0
JAWS = 3
NUMBERED = N_(
    "{what}. Seen from the tailstock, {first} at the plunger; numbered as they arrive"
    " turning {way}. {high}"
)
COUNTED = N_(
    "{what}. Seen from the tailstock, 0° at the plunger; the angles are counted as they arrive"
    " turning {way}. {high}"
)
"""How the picture is to be read: with screws or jaws that have numbers, and without any."""
HIGH = N_("The black mark points to the high spot, at {angle}.")


def pictured(record: Record) -> Result | None:
    """The turn that the face shows: the one that stands, else the last one that was read."""
    turns = [each for each in record.results if each.points]
    standing = [each for each in turns if each.valid]
    return next(reversed(standing or turns), None)


def caption(record: Record, language: str) -> str:
    """How the picture is to be read."""
    turn = pictured(record)
    way = N_("reverse: they run anticlockwise") if record.reverse else N_("forward: clockwise")
    first = _first(record, turn)
    return say(
        NUMBERED if first else COUNTED,
        language,
        what=begun(turn.what) if turn else "",
        first=say(first, language),
        way=say(way, language),
        high=say(HIGH, language, angle=turn.high) if turn and turn.high else "",
    ).strip()


def _first(record: Record, turn: Result | None) -> str:
    """What stands at the plunger and has the number 1; blank where nothing is numbered."""
    if record.in_jaws or (turn is not None and is_grip(turn.serves_as)):
        return N_("jaw 1")
    return N_("screw 1") if record.screws else ""


def begun(told: str) -> str:
    """Words as they begin a line."""
    return told[:1].upper() + told[1:]


def chuck(record: Record, side: float) -> Drawing:
    """The face with its screws, the readings of the turn round it, and the high spot."""
    middle = side / 2
    rim = middle - OUTSIDE
    way = WAYS[record.reverse]
    turn = pictured(record)
    shapes = [
        *_body(record, middle, rim, way),
        *_screws(record, middle, rim, way),
        *(_readings(turn, middle, rim, way) if turn else ()),
        *(_high(turn, middle, rim, way) if turn else ()),
    ]
    return Drawing(side, side, tuple(shapes))


def _spot(middle: float, reach: float, clockwise: float) -> Place:
    """A place so far from the middle and so many degrees clockwise from the top."""
    turn = radians(clockwise)
    return middle + reach * sin(turn), middle - reach * cos(turn)


def _body(record: Record, middle: float, rim: float, way: str) -> Iterator[Shape]:
    """Rim, jaws, the bar, and the plunger; only independent jaws stand where they are drawn."""
    yield Disc(middle, middle, rim, WHITE, 1.4)
    jaws = record.screws if record.in_jaws else JAWS
    first = 0.0 if record.in_jaws else SKETCHED
    for jaw in range(jaws):
        clockwise = seen_at(first + jaw * 360 / jaws, 0.0, way)
        yield _bar(middle, rim * 0.24, rim * 0.66, clockwise, rim * 0.2)
    yield Disc(middle, middle, rim * 0.2, WHITE, 0.8)
    tip, wide = rim + 2.0, 3.6
    top = middle - tip
    yield Path(
        ((middle, top), (middle - wide, top - 6), (middle + wide, top - 6)),
        0.0,
        BLACK,
        BLACK,
        closed=True,
    )


def _bar(middle: float, inner: float, outer: float, clockwise: float, thick: float) -> Path:
    """A jaw as a bar with square ends."""
    (x, y), (u, v) = (_spot(middle, reach, clockwise) for reach in (inner, outer))
    long = hypot(u - x, v - y)
    off, down = (v - y) / long * thick / 2, (u - x) / long * thick / 2
    corners = ((x + off, y - down), (u + off, v - down), (u - off, v + down), (x - off, y + down))
    return Path(corners, 0.9, GREY, WHITE, closed=True)


def _screws(record: Record, middle: float, rim: float, way: str) -> Iterator[Shape]:
    """Each screw or jaw by its number, inside the rim."""
    for screw in range(1, record.screws + 1):
        clockwise = seen_at(of_screw(screw, record.screws), 0.0, way)
        x, y = _spot(middle, rim - 11, clockwise)
        yield Disc(x, y, 7.2, WHITE, 0.9)
        yield Words(x, y + NUMBER * 0.35, str(screw), NUMBER, bold=True, at="middle")


def _readings(turn: Result, middle: float, rim: float, way: str) -> Iterator[Shape]:
    """Each reading outside the rim where the plunger stood, with a tick."""
    for angle, value in turn.points:
        clockwise = seen_at(degrees(angle), 0.0, way)
        if clockwise % 360:
            yield Path((_spot(middle, rim, clockwise), _spot(middle, rim + 4, clockwise)), 0.9)
        aside = sin(radians(clockwise))
        at = "middle" if abs(aside) < 0.3 else "start" if aside > 0 else "end"
        x, y = _spot(middle, rim + (13.5 if at == "middle" else 7.0), clockwise)
        yield Words(x, y + READING * 0.35, value[:MOST], READING, at=at)


MOST = 10
"""Signs of a reading that the picture has room for; the tables hold it whole."""


def _high(turn: Result, middle: float, rim: float, way: str) -> Iterator[Shape]:
    """The high spot as a filled mark that points outward."""
    if not turn.high:
        return
    clockwise = seen_at(float(turn.figures["high_at_deg"]), 0.0, way)
    tip = _spot(middle, rim - 20, clockwise)
    back = [_spot(middle, rim - 31, clockwise + lean) for lean in (-9.0, 9.0)]
    yield Path((tip, *back), 0.6, WHITE, BLACK, closed=True)


def bolts(record: Record, side: float) -> Drawing | None:
    """The ring of bolts and the way from one to the next; nothing where no order was shown."""
    if not record.order:
        return None
    middle, ring = side / 2, side / 2 - 9
    places = {
        bolt: _spot(middle, ring, (bolt - 1) * 360 / record.bolts)
        for bolt in range(1, record.bolts + 1)
    }
    way = Path(tuple(places[bolt] for bolt in record.order), 0.6, GREY)
    size = 7.2 if record.bolts <= 12 else 5.4
    shapes: list[Shape] = [Disc(middle, middle, ring, "", 0.4, GREY), way]
    for bolt, (x, y) in places.items():
        shapes.append(Disc(x, y, size, WHITE, 0.9))
        shapes.append(Words(x, y + 2.7, str(bolt), 7.5, bold=True, at="middle"))
    return Drawing(side, side, tuple(shapes))
