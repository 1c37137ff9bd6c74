"""What finished setups said of each chuck on each lathe, one after the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any

from guide.journal.summary import Summary
from guide.measure.quantity import Length
from guide.plain import BadInput
from guide.walk.answers import length
from guide.walk.state import BY_A_PERSON


@dataclass(frozen=True, slots=True)
class Judged:
    """One turn of readings as it was judged, lengths in `unit`."""

    day: date
    judged: Decimal
    expanded_uncertainty: Decimal | None
    """None where it is not known."""
    tolerance: Decimal | None
    """None where it was not given as a length."""
    verdict: str
    """`within`, `outside`, `undecided`, or blank."""
    unit: str

    def in_unit(self, size: Decimal | None, unit: str) -> float | None:
        """One of its lengths in another unit, to be drawn."""
        return None if size is None else float(Length.of(size, self.unit).exactly(unit))


@dataclass(frozen=True, slots=True)
class Point:
    """What one finished setup said of its chuck."""

    setup: str
    ended_at: str
    """When it ended, UTC as stored."""
    chuck: str
    lathe: str
    found: Judged | None
    """As found, None where it was not read before anything was touched."""
    left: Judged | None
    """As left, None where no result stood at the end."""
    recheck: date | None
    """The day on which a person meant it to be looked at again."""
    on_nose: bool
    """Whether the chuck, whole, was on the spindle at the end."""
    written: int = 0
    """Where its last event stands among all events: order rests on this, not on the clock."""

    @property
    def last(self) -> Judged | None:
        """As left, or else as found."""
        return self.left or self.found

    @property
    def is_dated(self) -> bool:
        """Whether it may have a day to be looked at again: on the nose, with a result."""
        return self.on_nose and self.left is not None

    @property
    def begins_anew(self) -> bool:
        """Whether steps are counted anew: off the nose, or left true and not read before."""
        return not self.on_nose or (self.left is not None and self.found is None)


@dataclass(frozen=True, slots=True)
class History:
    """One chuck on one lathe: its points, oldest first, never none."""

    chuck: str
    lathe: str
    points: tuple[Point, ...]

    @property
    def unit(self) -> str:
        """The unit of the latest reading, blank where none was judged."""
        units = (each.last.unit for each in reversed(self.points) if each.last)
        return next(units, "")


def points_of(summaries: Iterable[Summary]) -> Iterator[Point]:
    """What real setups said of chucks that have a name; a program's input says nothing of one."""
    for each in summaries:
        real, by = each.opening.get("mode") == "real", each.opening.get("input") in BY_A_PERSON
        outcome = _mapping(each.closing.get("outcome"))
        if real and by and outcome.get("chuck"):
            yield _point(each, outcome)


def histories(points: Iterable[Point]) -> tuple[History, ...]:
    """Every chuck on every lathe, however their names are spelled; those first that came first."""
    told: dict[tuple[str, str], list[Point]] = {}
    for each in points:
        told.setdefault((known_as(each.chuck), known_as(each.lathe)), []).append(each)
    return tuple(History(of[-1].chuck, of[-1].lathe, tuple(of)) for of in told.values())


def known_as(name: str) -> str:
    """By what two spellings of one name are known to be one."""
    return " ".join(name.split()).casefold()


def _point(each: Summary, outcome: Mapping[str, Any]) -> Point:
    """The point of a setup; what a damaged text does not tell is unknown."""
    world = _mapping(each.closing.get("world"))
    return Point(
        setup=each.setup,
        ended_at=each.last_at,
        chuck=str(outcome["chuck"]),
        lathe=str(_mapping(each.opening.get("facts")).get("lathe", "")),
        found=_judged(_mapping(outcome.get("as_found"))),
        left=_judged(_mapping(outcome.get("as_left"))),
        recheck=day_of(outcome.get("recheck")),
        on_nose=world.get("seat") != "off" and world.get("body") != "apart",
        written=each.written,
    )


def _judged(told: Mapping[str, Any]) -> Judged | None:
    """A turn of readings; None where the day, the figure or its unit cannot be read."""
    day, judged, unit = day_of(told.get("at")), _size(told.get("judged")), str(told.get("unit"))
    if day is None or judged is None or unit not in Length.UNITS:
        return None
    return Judged(
        day=day,
        judged=judged,
        expanded_uncertainty=_size(told.get("expanded_uncertainty")),
        tolerance=_tolerance(told.get("tolerance"), unit),
        verdict=str(told.get("verdict", "")),
        unit=unit,
    )


def day_of(text: object) -> date | None:
    """A day written year-month-day, None for anything else."""
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None


def _size(text: object) -> Decimal | None:
    """A size that is not negative, None for anything else."""
    try:
        size = Decimal(str(text))
    except InvalidOperation:
        return None
    return size if size.is_finite() and size >= 0 else None


def _tolerance(text: object, unit: str) -> Decimal | None:
    """The tolerance in the readings' unit, None where it is no length."""
    try:
        return length(str(text or ""), unit)
    except BadInput:
        return None


def _mapping(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}
