"""What the parts of an event about equipment must look like, and the refusals when they do not."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from guide.equipment.belongs import DUE, ERROR_LIMIT
from guide.journal.event import Event
from guide.measure.numerals import parse_number
from guide.measure.quantity import Length
from guide.plain import N_, BadInput

LONGEST = 200
"""Signs in a name, an answer or a reason."""


def proper(text: str) -> str:
    """A text as it is kept, without idle spaces; BadInput where it is blank, odd or too long."""
    kept = " ".join(text.split())
    if not kept or not kept.isprintable() or len(kept) > LONGEST:
        raise BadInput(
            N_("A name or a reason needs 1 to {most} printable signs."),
            N_("Type it again."),
            most=LONGEST,
        )
    return kept


def said(event: Event, name: str) -> str:
    """A text that an event has to hold."""
    text = event.data.get(name)
    if not isinstance(text, str) or not text.strip():
        raise BadInput(
            N_("Nothing is said of “{name}”."), N_("Nothing was written; say it."), name=name
        )
    return text


def day(text: str) -> date:
    """A day written year-month-day, else BadInput."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.isoformat() != text:
        raise BadInput(
            N_("“{text}” is not a date that can be read one way only."),
            N_("Write year, month, day, such as 2027-05-25."),
            text=ascii(text)[:60],
        )
    return found


def size(text: str) -> str:
    """A length above zero with its unit, kept as typed; else BadInput."""
    number, _, unit = text.strip().rpartition(" ")
    if unit not in Length.UNITS or parse_number(number) <= 0:
        raise BadInput(
            N_("“{text}” is no length with its unit."),
            N_("Write it such as 0.0002 in or 0.005 mm."),
            text=ascii(text)[:60],
        )
    return text


def facts_in(event: Event) -> dict[str, str]:
    """The answers that an event holds, blank for one that is not known any more."""
    told = event.data.get("facts", {})
    if not isinstance(told, Mapping):
        raise BadInput(N_("Those are no answers."), N_("Nothing was written."))
    return {name: _answer(name, each) for name, each in told.items()}


def _answer(name: str, text: object) -> str:
    """One answer as it is kept."""
    if not isinstance(text, str):
        raise BadInput(
            N_("“{name}” is answered by a text."), N_("Type it again."), name=ascii(name)
        )
    if not text.strip():
        return ""
    if name == DUE:
        day(text)
    if name == ERROR_LIMIT:
        size(text)
    return proper(text)
