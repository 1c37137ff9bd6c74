"""When each chuck is to be looked at again, and why."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from guide.plain import N_, BadInput
from guide.records.trend import Point, day_of, histories, known_as
from guide.shop.interval import VERDICTS, AsFound, Interval, interval
from guide.shop.remark import Remark, remark

DATED, VOIDED, UNPROVEN, OFF, MOVED, UNDATED = STATES = (
    "dated", "voided", "unproven", "off", "moved", "undated",
)  # fmt: skip
"""A date; a result that ceased to count; none that stands; off the nose; on another lathe; no date
was ever given."""


@dataclass(frozen=True, slots=True)
class Voided:
    """Something that happened to a chuck after which its result counts no more."""

    chuck: str
    at: str
    """When, UTC as stored."""
    why: str
    written: int = 0
    """Where the event stands among all events, as `Point.written`."""


@dataclass(frozen=True, slots=True)
class Recheck:
    """Where one chuck on one lathe stands."""

    chuck: str
    lathe: str
    state: str
    """One of `STATES`."""
    due: date | None
    """The day to look again; None where no day can be told."""
    why: tuple[Remark, ...]
    interval: Interval | None
    """By the staircase; None where no first interval was given."""
    last: Point

    def is_due(self, today: date) -> bool:
        """Whether to look now: a chuck that is off the nose or elsewhere is looked at there."""
        return self.due is not None and self.state not in (OFF, MOVED) and self.due <= today


def rechecks(points: Iterable[Point], voided: Iterable[Voided] = ()) -> tuple[Recheck, ...]:
    """Every chuck on every lathe; points in the order in which their setups ended.

    Given only the latest point of each pair, the day is the one that a person gave in it; given
    all, it is the earlier of that day and the staircase's.
    """
    told, marks = tuple(points), tuple(voided)
    latest = {known_as(each.chuck): each for each in told}
    return tuple(
        _recheck(each.points, latest[known_as(each.chuck)], marks) for each in histories(told)
    )


def _recheck(points: Sequence[Point], latest: Point, voided: Sequence[Voided]) -> Recheck:
    """One chuck on one lathe, `latest` being the latest of that chuck on any."""
    last, found = points[-1], staircase(points)
    if latest is not last:
        sentence = N_("It was on {lathe} on {day}.")
        return _stands(last, MOVED, None, found, remark(sentence, lathe=latest.lathe,
                                                         day=latest.ended_at[:10]))  # fmt: skip
    ended = day_of(last.ended_at[:10])
    if not last.on_nose:
        sentence = N_("It left the nose on {day}: nothing counts until it is on again and read.")
        return _stands(last, OFF, ended, found, remark(sentence, day=last.ended_at[:10]))
    if mark := next((each for each in voided if _ends(each, last)), None):
        sentence = N_("Its result ceased to count on {day}: {why}. Look at once.")
        told = remark(sentence, day=mark.at[:10], why=mark.why)
        return _stands(last, VOIDED, day_of(mark.at[:10]), found, told)
    if last.left is None:
        sentence = N_("The setup that ended on {day} left no result that stands. Look at once.")
        return _stands(last, UNPROVEN, ended, found, remark(sentence, day=last.ended_at[:10]))
    return _dated(last, found)


def _ends(mark: Voided, last: Point) -> bool:
    """Whether something happened to this chuck after its last setup."""
    return known_as(mark.chuck) == known_as(last.chuck) and mark.written > last.written


def _dated(last: Point, found: Interval | None) -> Recheck:
    """The earlier of a person's date and the staircase's."""
    days = [day for day in (last.recheck, found.due if found else None) if day]
    if not days:
        sentence = N_("No day was given to look at it again.")
        return _stands(last, UNDATED, None, found, remark(sentence))
    due = min(days)
    if due == last.recheck:
        why = remark(N_("{day} is the day that was given on {when}."), day=due.isoformat(),
                     when=last.ended_at[:10])  # fmt: skip
    else:
        why = remark(N_("{day} by the results as found, which is before the day given."),
                     day=due.isoformat())  # fmt: skip
    return _stands(last, DATED, due, found, why)


def _stands(
    last: Point, state: str, due: date | None, found: Interval | None, why: Remark
) -> Recheck:
    """The answer; the staircase's steps are told where they count."""
    steps = tuple(step.reason for step in found.steps) if found and state == DATED else ()
    return Recheck(last.chuck, last.lathe, state, due, (why, *steps), found, last)


def staircase(points: Sequence[Point]) -> Interval | None:
    """The interval by the results as found since the chuck was put up last.

    A chuck left true without having been read as found was put up anew: there its own first
    interval begins. None where no such interval was given.
    """
    run = _since_put_up(points)
    start = next((each for each in run if each.left and each.recheck), None)
    if start is None or start.left is None or start.recheck is None:
        return None
    begun, first = start.left.day, (start.recheck - start.left.day).days
    looks = [look for each in run[run.index(start) + 1 :] if (look := _look(each))]
    left = max(each.left.day for each in run if each.left)
    try:
        return interval(first, begun, [each for each in looks if each.day >= begun], since=left)
    except BadInput:
        return None


def _since_put_up(points: Sequence[Point]) -> list[Point]:
    """The points from the one at which the chuck was put up last."""
    run: list[Point] = []
    for each in points:
        if each.begins_anew:
            run = []
        run.append(each)
    return run


def _look(point: Point) -> AsFound | None:
    """A result as found that can be used; None where there is none."""
    found = point.found
    if found is None or not found.tolerance or found.verdict not in VERDICTS:
        return None
    return AsFound(
        found.day, found.judged, found.expanded_uncertainty, found.tolerance, found.verdict
    )
