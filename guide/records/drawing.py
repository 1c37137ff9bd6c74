"""A drawing as plain shapes, in points (1/72 in) from the top left; each form has its own way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

BLACK, GREY, WHITE = "#000000", "#6b6b6b", "#ffffff"
"""Ink and paper, and one grey for what is said by the way."""
MM = 72 / 25.4
"""Points in a millimetre."""
Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle, filled or drawn; `line` is the width of its line, 0 for none."""

    x: float
    y: float
    radius: float
    fill: str = ""
    line: float = 0.7
    ink: str = BLACK


@dataclass(frozen=True, slots=True)
class Path:
    """Straight lines from place to place, filled where it has a fill."""

    places: tuple[Place, ...]
    line: float = 0.7
    ink: str = BLACK
    fill: str = ""
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """Text on one line; `y` is its base line and `x` its beginning, middle or end."""

    x: float
    y: float
    text: str
    size: float = 8.5
    bold: bool = False
    at: str = "start"
    """`start`, `middle` or `end`."""
    ink: str = BLACK
    even: bool = False
    """Whether every sign is as wide as the others, for what is compared sign by sign."""


Shape = Disc | Path | Words


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes on a ground of a size."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


def box(x: float, y: float, width: float, height: float, fill: str, line: float = 0.0) -> Path:
    """A rectangle by its top left."""
    right, below = x + width, y + height
    return Path(((x, y), (right, y), (right, below), (x, below)), line, BLACK, fill, closed=True)


def rule(x: float, y: float, width: float, line: float = 0.5, ink: str = BLACK) -> Path:
    """A level line."""
    return Path(((x, y), (x + width, y)), line, ink)


def moved(shapes: Iterable[Shape], right: float, down: float) -> tuple[Shape, ...]:
    """The same shapes elsewhere."""
    return tuple(_moved(each, right, down) for each in shapes)


def _moved(each: Shape, right: float, down: float) -> Shape:
    """One shape elsewhere."""
    if isinstance(each, Path):
        return replace(each, places=tuple((x + right, y + down) for x, y in each.places))
    return replace(each, x=each.x + right, y=each.y + down)
