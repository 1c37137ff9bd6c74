"""`spindleside history`: how each chuck was found and left, and when to look again."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import click

from guide.cli.output import emit
from guide.cli.places import journal_option, json_option, reading, settings
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.records.recheck import Recheck
    from guide.records.trend import History

    Told = tuple[tuple[History, Recheck], ...]

WIDE, HIGH = 78, 18
"""The picture on a terminal of the smallest size."""


@click.command()
@click.argument("chuck", default="")
@click.option("--lathe", default="", metavar="LATHE", help="Only on this lathe.")
@journal_option
@json_option
def history(chuck: str, lathe: str, journal: str | None, as_json: bool) -> None:
    """List every chuck: how it was found and left last, when to look at it again, and why.

    With a CHUCK: its results over time as a picture and a table, and what the day rests on. Only
    finished setups that a person walked at a terminal count. A day to look again is a reminder: it
    does not say that the chuck is true until then.

    \b
    Example:
      spindleside history
      spindleside history "Chuck 7" --lathe "Lathe 2"
    """
    from guide.records.history import as_data

    here, today = settings(journal), datetime.now(UTC).date()
    told = _told(journal, chuck, lathe)
    lines = _whole(told, today, here.language) if chuck else _list(told, today, here.language)
    emit({"chucks": [as_data(*each, today) for each in told]}, as_json, lines)


def _told(journal: str | None, chuck: str, lathe: str) -> Told:
    """Every chuck that is asked for; none where there is no journal yet."""
    here = settings(journal)
    told: Told = ()
    from guide.journal.store import Store

    if Store.is_there(here.journal_file):
        from guide.records.history import read
        from guide.records.trend import known_as

        with reading(here) as store:
            told = tuple(zip(*read(store, chuck), strict=True))
        told = tuple(
            each for each in told if not lathe or known_as(each[0].lathe) == known_as(lathe)
        )
    if chuck and not told:
        raise BadInput(
            N_("No finished setup says anything of {chuck}."),
            N_("`spindleside history` lists what there is."),
            chuck=ascii(chuck),
        )
    return told


def _list(told: Told, today: date, language: str) -> Iterator[str]:
    """Each chuck in three lines."""
    from guide.present.visible import visible
    from guide.present.words import say
    from guide.records.history import in_a_line, reason, said

    if not told:
        yield say(N_("No finished setup says anything of a chuck yet."), language)
    for one, found in told:
        yield visible(f"{one.chuck} · {one.lathe} · {found.last.ended_at[:10]}")
        results = {
            "found": said(found.last.found, language),
            "left": said(found.last.left, language),
        }
        yield "    " + say(N_("as found {found}, as left {left}"), language, **results)
        when, why = in_a_line(found, today, language), visible(reason(found, language))
        yield f"    {when}" if when == why else f"    {when}: {why}"


def _whole(told: Told, today: date, language: str) -> Iterator[str]:
    """Each lathe that the chuck was on: picture, table, reasons."""
    from guide.present.trend_plot import plot
    from guide.present.visible import visible
    from guide.records.history import in_a_line, reasoning, shown, table

    for number, (one, found) in enumerate(told):
        if number:
            yield ""
        yield visible(f"{one.chuck} · {one.lathe}")
        yield in_a_line(found, today, language)
        yield ""
        yield from plot(shown(one), one.unit, WIDE, HIGH, language)
        yield ""
        yield from table(one, language)
        yield ""
        yield from reasoning(found, language)
