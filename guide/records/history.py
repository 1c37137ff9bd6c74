"""What a chuck's history says, in lines: for the command line and for the screen alike."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from guide.equipment.equipment import Equipment
from guide.journal.standing import EQUIPMENT
from guide.plain import N_
from guide.present.numbers import PLACES, figure, plain
from guide.present.trend_plot import Shown
from guide.present.visible import visible
from guide.present.words import say
from guide.records.recheck import OFF, Recheck, Voided, rechecks
from guide.records.trend import History, Judged, Point, histories, known_as, points_of

if TYPE_CHECKING:
    from guide.journal.store import Store

FAR_BACK = 12
"""Setups of one chuck on one lathe that are looked at for the start page."""
SIGNS = {"within": "✓", "outside": "✗", "undecided": "?"}
"""The verdicts, each beside its figure."""


def read(store: Store, chuck: str = "") -> tuple[tuple[History, ...], tuple[Recheck, ...]]:
    """Every chuck on every lathe with where it stands, or those of one chuck, in the same order."""
    wanted = known_as(chuck)
    told = [each for each in points_of(store.outcomes())
            if not wanted or known_as(each.chuck) == wanted]  # fmt: skip
    return histories(told), rechecks(told, voided_in(store))


def standing(store: Store) -> tuple[Recheck, ...]:
    """The same from each one's latest setups, which is quick however long the journal is.

    Where the last `FAR_BACK` do not reach back to the setup that put a chuck up, nothing but the
    day that a person gave is known here; `read` knows both.
    """
    latest: dict[tuple[str, str], list[Point]] = {}
    for each in points_of(store.latest_outcomes()):
        latest.setdefault((known_as(each.chuck), known_as(each.lathe)), []).append(each)
    told = (each for spelled in latest.values() for each in _enough(store, spelled))
    return rechecks(sorted(told, key=lambda each: each.written), voided_in(store))


def _enough(store: Store, spelled: list[Point]) -> list[Point]:
    """The points since a chuck was put up on a lathe, else its latest; one for each spelling."""
    if not max(spelled, key=lambda each: each.written).is_dated:
        return spelled
    told: list[Point] = []
    reaches = True
    for each in spelled:
        back = store.last_outcomes(each.chuck, each.lathe, FAR_BACK)
        points = list(points_of(reversed(back)))
        reaches &= len(back) < FAR_BACK or any(point.begins_anew for point in points)
        told += points
    return told if reaches else spelled


def voided_in(store: Store) -> tuple[Voided, ...]:
    """What happened to chucks, by the chain of equipment."""
    marks = Equipment(store).register().voided
    written = {row.sequence: row.rowid for row in store.rows(EQUIPMENT)} if marks else {}
    return tuple(Voided(each.chuck, each.at, each.why, written[each.sequence]) for each in marks)


def shown(history: History) -> tuple[Shown, ...]:
    """Every result as it is drawn, in the unit of the latest."""
    return tuple(
        _shown(judged, history.unit, left)
        for each in history.points
        for judged, left in ((each.found, False), (each.left, True))
        if judged
    )


def _shown(judged: Judged, unit: str, left: bool) -> Shown:
    """One result in the unit of the picture."""
    size, reach, tolerance = (
        judged.in_unit(each, unit)
        for each in (judged.judged, judged.expanded_uncertainty, judged.tolerance)
    )
    return Shown(judged.day, size or 0.0, reach, tolerance, left)


def table(history: History, language: str = "en") -> tuple[str, ...]:
    """For each setup, the latest first, a line of figures and below it its name."""
    heads = tuple(
        say(each, language)
        for each in (N_("ended"), N_("as found"), N_("as left"), N_("tolerance"), N_("again"))
    )
    latest = tuple(reversed(history.points))
    rows = [heads, *(_row(each, language) for each in latest)]
    wide = [max(len(row[column]) for row in rows) for column in range(len(heads))]
    first, *lines = (
        "  ".join(cell.ljust(width) for cell, width in zip(row, wide, strict=True)).rstrip()
        for row in rows
    )
    named = (f"    {visible(each.setup)}" for each in latest)
    return (first, *(part for pair in zip(lines, named, strict=True) for part in pair))


def _row(point: Point, language: str) -> tuple[str, ...]:
    """One setup; the unit stands at the tolerance."""
    last = point.last
    unit = last.unit if last else ""
    limit = figure(last.tolerance, unit, language) if last and last.tolerance else f"– {unit}"
    again = point.recheck.isoformat() if point.recheck else "–"
    found, left = (_size(each, language) for each in (point.found, point.left))
    return point.ended_at[:10], found, left, limit.strip(), again


def said(judged: Judged | None, language: str = "en") -> str:
    """One result with its uncertainty, the sign of its verdict and its unit; a dash for none."""
    return f"{_size(judged, language)} {judged.unit}" if judged else "–"


def _size(judged: Judged | None, language: str) -> str:
    """The same without its unit."""
    if judged is None:
        return "–"
    places = PLACES.get(judged.unit, 5)
    sizes = [judged.judged, judged.expanded_uncertainty]
    told = " ± ".join(plain(each, places, language) for each in sizes if each is not None)
    return f"{SIGNS.get(judged.verdict, '')} {told}".strip()


def in_a_line(each: Recheck, today: date, language: str = "en") -> str:
    """When one chuck is to be looked at: due, overdue, or why no day is told."""
    if each.state == OFF or each.due is None:
        return visible(reason(each, language))
    sentence = N_("look at it again by {day}")
    if each.is_due(today):
        sentence = N_("LOOK AT IT NOW: due {day}")
    return say(sentence, language, day=each.due.isoformat())


def reason(each: Recheck, language: str = "en") -> str:
    """The first of its reasons."""
    why = each.why[0]
    return say(why.sentence, language, **dict(why.values))


def reasoning(each: Recheck, language: str = "en") -> Iterator[str]:
    """Every sentence on which the day rests, from the first interval step by step."""
    why, *steps = each.why
    assumed = each.interval.assumptions if each.interval else ()
    for one in (why, *assumed[:1], *steps, *assumed[1:]):
        yield visible(say(one.sentence, language, **dict(one.values)))
    if each.interval and steps:
        days, day = each.interval.days, each.interval.due.isoformat()
        sentence = N_("By the results as found alone: {days} days, until {day}.")
        yield say(sentence, language, days=days, day=day)


def as_data(history: History, found: Recheck, today: date) -> dict[str, Any]:
    """One chuck on one lathe as JSON keys; figures as text, as they were written."""
    return {
        "chuck": history.chuck,
        "lathe": history.lathe,
        "state": found.state,
        "due": found.due.isoformat() if found.due else None,
        "is_due": found.is_due(today),
        "why": list(reasoning(found)),
        "by_results_days": found.interval.days if found.interval else None,
        "by_results_due": found.interval.due.isoformat() if found.interval else None,
        "results": list(map(_point_data, history.points)),
    }


def _point_data(each: Point) -> dict[str, Any]:
    """One setup as JSON keys."""
    return {
        "setup": each.setup,
        "ended_at": each.ended_at,
        "as_found": _judged_data(each.found),
        "as_left": _judged_data(each.left),
        "again": each.recheck.isoformat() if each.recheck else None,
        "on_nose": each.on_nose,
    }


def _judged_data(each: Judged | None) -> dict[str, Any] | None:
    """One result as JSON keys."""
    if each is None:
        return None
    return {
        "day": each.day.isoformat(),
        "judged": str(each.judged),
        "expanded_uncertainty": _text(each.expanded_uncertainty),
        "tolerance": _text(each.tolerance),
        "verdict": each.verdict,
        "unit": each.unit,
    }


def _text(size: Decimal | None) -> str | None:
    return None if size is None else str(size)
