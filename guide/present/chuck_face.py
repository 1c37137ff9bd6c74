"""The face of the chuck as a small drawing, as seen from the tailstock.

The plunger stands at the top. In normal forward the face turns anticlockwise there, so the plunger
travels clockwise over it and the marks, numbered in the order in which they arrive, run clockwise;
in reverse both run the other way. The jaws are a sketch: nobody records where they stand.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from math import cos, radians, sin

from guide.present.canvas import BLOCKS, BRAILLE, PLAIN, Canvas, Rows, written

WAYS = ("anticlockwise", "clockwise")
"""Which way the face turns, seen from the tailstock: forward, and reverse."""
SMALL, LARGE = 19, 27
"""Columns across the face; odd, so that there is a middle one for the plunger."""
HEAD = 3
"""Units above the face: a line for the plunger and half of one for its tip."""
INSIDE = 2.5
"""Units from the rim to the middle of a screw's mark."""
DEEP = 0.27
"""Parts of the width from the rim to the sign of the high spot, clear of the screws' numbers."""
SKETCHED = 45.0
"""Degrees from screw 1 to the first jaw as drawn, so that no jaw hides a screw's number."""

_SIGNS = {"plunger": "▼", "high": "◆", "tighten": "▲", "ease": "△", "start": "0"}
SIGNS: Mapping[str, Mapping[str, str]] = {
    BLOCKS: _SIGNS,
    BRAILLE: _SIGNS,
    PLAIN: {"plunger": "V", "high": "*", "tighten": "T", "ease": "E", "start": "0"},
}
"""What stands for each thing that a colour alone may not tell, by style."""
PLAIN_SIGNS = {"rim": ".", "jaw": "#", "bar": "o", "bore": "o", "plunger": "V", "body": " "}
"""The sign of each ink in the plain style."""


@dataclass(frozen=True, slots=True)
class Face:
    """What one picture shows: places in degrees on the face, lengths in columns, no unit."""

    marks: Mapping[float, str] = field(default_factory=dict)
    """Screws by their angle; without any, the place of the first reading is marked."""
    turned: float = 0.0
    """Degrees turned since the first screw was under the plunger."""
    way: str = WAYS[0]
    high: float | None = None
    """The high spot, where it can be told."""
    tighten: tuple[int, ...] = ()
    """Numbers of the screws to tighten."""
    ease: tuple[int, ...] = ()
    """Numbers of the screws to ease first."""
    jaws: int = 3
    """Jaws of the chuck; none where there is no chuck on the nose."""
    across: int = SMALL
    style: str = BLOCKS


def face(picture: Face) -> Rows:
    """The picture as rows of cells; what is drawn with dots is drawn once and kept."""
    rows = bare(picture)
    for angle, mark in picture.marks.items():
        rows = _screw(rows, picture, angle, mark)
    if not picture.marks:
        start = SIGNS[picture.style]["start"]
        rows = written(rows, *cell_at(picture, 0.0, INSIDE), start, "screw")
    if picture.high is not None:
        cell = cell_at(picture, picture.high, picture.across * DEEP)
        sign, ground = SIGNS[picture.style]["high"], _ground(picture)
        rows = written(rows, *cell, sign, "high", ground)
    return rows


def _ground(picture: Face) -> str:
    """What stands behind a sign that has to be seen wherever it comes: the body, where it is."""
    return "body" if picture.style == BLOCKS else ""


def bare(picture: Face) -> Rows:
    """Body, jaws and plunger, without what is written over them."""
    turned = round(picture.turned % 360, 6)
    return _drawn(turned, picture.way, picture.jaws, picture.across, picture.style)


@lru_cache(maxsize=256)
def _drawn(turned: float, way: str, jaws: int, across: int, style: str) -> Rows:
    """The dots of one picture."""
    canvas = Canvas(across, (HEAD + across) // 2, style)
    middle, radius = (across / 2, HEAD + across / 2), across / 2
    if style == BLOCKS:
        canvas.disc(*middle, radius, "body")
    canvas.ring(*middle, radius, "rim")
    for jaw in range(jaws):
        place = seen_at(SKETCHED + jaw * 360 / jaws, turned, way)
        inner, outer = (spot(across, place, radius * (1 - reach)) for reach in (0.24, 0.74))
        canvas.bar(inner, outer, across * 0.14, "jaw")
    if jaws:
        canvas.disc(*middle, across * 0.12, "bar")
    elif style == BLOCKS:
        canvas.disc(*middle, across * 0.24, "bore")
    else:
        canvas.ring(*middle, across * 0.24, "bore")
    if style != PLAIN:
        canvas.bar((middle[0], 2), (middle[0], HEAD), 1, "plunger")
    sign = SIGNS[style]["plunger"]
    return written(canvas.cells(PLAIN_SIGNS), across // 2, 0, sign, "plunger")


def spot(across: int, clockwise: float, inside: float) -> tuple[float, float]:
    """A place so many degrees clockwise from the plunger and so far inside the rim, in units."""
    reach = across / 2 - inside
    turn = radians(clockwise)
    return across / 2 + reach * sin(turn), HEAD + across / 2 - reach * cos(turn)


def seen_at(angle: float, turned: float, way: str = WAYS[0]) -> float:
    """Where a place on the face is now, in degrees clockwise from the plunger."""
    from_plunger = (angle - turned) % 360
    return from_plunger if way == WAYS[0] else -from_plunger % 360


def _screw(rows: Rows, picture: Face, angle: float, mark: str) -> Rows:
    """A screw's number, upright, with a sign on its inner side where it is to be moved."""
    column, line = cell_at(picture, angle, INSIDE)
    ground = _ground(picture)
    for ink, numbers in (("tighten", picture.tighten), ("ease", picture.ease)):
        if mark in map(str, numbers):
            beside = column + len(mark) if column < picture.across // 2 else column - 1
            sign = SIGNS[picture.style][ink]
            rows = written(rows, beside, line, sign, ink, ground)
            return written(rows, column, line, mark, ink, ground)
    under = (angle - picture.turned) % 360 == 0
    return written(rows, column, line, mark, "under" if under else "screw", ground)


def cell_at(picture: Face, angle: float, inside: float) -> tuple[int, int]:
    """The column and the line of a place on the face, so far inside the rim, as it stands now."""
    x, y = spot(picture.across, seen_at(angle, picture.turned, picture.way), inside)
    return int(x + 1e-9), int(y / 2 + 1e-9)


def screw_marks(screws: int) -> dict[float, str]:
    """Screw k of n at (k−1)·360/n, marked with its number."""
    return {(k - 1) * 360 / screws: str(k) for k in range(1, screws + 1)}


def under_plunger(marks: Mapping[float, str], turned: float) -> str:
    """The mark under the plunger, blank where there is none."""
    return next((mark for angle, mark in marks.items() if (angle - turned) % 360 == 0), "")


def positions(count: int) -> tuple[str, ...]:
    """Angles evenly round the turn, as text."""
    return tuple(f"{k * 360 / count:g}" for k in range(count))


def allowed_counts(screws: int) -> tuple[int, ...]:
    """How many positions may be chosen, the best for so many screws first."""
    counts: Iterable[int] = (8, 12, 6, 4) if screws % 3 else (12, 6, 8, 4)
    return tuple(counts)
