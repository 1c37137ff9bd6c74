"""What the start page asks somebody to look at again: chucks and indicators, a line each."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime

from guide.equipment.equipment import Equipment
from guide.equipment.register import Thing
from guide.front.shelf import Row
from guide.journal.store import Store
from guide.plain import N_, Refusal
from guide.present.tongue import language, say
from guide.present.visible import visible
from guide.present.words import refused
from guide.records.history import standing
from guide.records.recheck import DATED, Recheck


def due(store: Store) -> Iterator[Row]:
    """Every chuck and indicator whose day has come, the longest due first.

    A chain that cannot be read is a line of its own: the page is shown whatever the journal holds.
    """
    today = today_here()
    try:
        chucks = sorted(
            (each for each in standing(store) if each.is_due(today)),
            key=lambda each: each.due or today,
        )
        dials = Equipment(store).register().overdue(today)
    except Refusal as refusal:
        yield Row("equipment:", refused(refusal, language()))
        return
    yield from (Row(f"history:{each.chuck}", _chuck(each)) for each in chucks)
    yield from (Row(f"equipment:{each.name}", _dial(each)) for each in dials)


def today_here() -> date:
    """The day by UTC, as the journal has it."""
    return datetime.now(UTC).date()


def _chuck(each: Recheck) -> str:
    """One chuck and what to do."""
    sentence = N_("{chuck} on {lathe}: due {day}. Read it again.")
    if each.state != DATED:
        sentence = N_("{chuck} on {lathe}: no result stands since {day}. Read it again or true it.")
    told = {"chuck": visible(each.chuck), "lathe": visible(each.lathe)}
    return say(sentence, **told, day=each.due)


def _dial(each: Thing) -> str:
    """One indicator and what to do."""
    sentence = N_("{name}: calibration ended {day}. Use another until it is calibrated.")
    return say(sentence, name=visible(each.name), day=each.due)
