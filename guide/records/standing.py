"""Of all results of a setup those that count: the one that stands, and the first one read."""

from __future__ import annotations

from guide.records.record import Record, Result

FIRST = ("as-found", "as-mounted")
"""What is read before anything is corrected."""


def standing(record: Record) -> Result | None:
    """The result that stands at the last event, None where none does."""
    return next((each for each in reversed(record.results) if each.valid), None)


def before(record: Record) -> Result | None:
    """The result as found or as mounted, None where it was not read or is the one that stands.

    Read again, as after a slip, the later turn is the one that counts: the next decision rested on
    it, and it was read out at the handing over.
    """
    first = next((each.serves_as for each in record.results if each.serves_as in FIRST), None)
    read = [each for each in record.results if first and each.serves_as == first]
    return read[-1] if read and read[-1] is not standing(record) else None


def answer(record: Record, name: str) -> str:
    """What was answered to a fact, blank where it was not asked or is unknown."""
    told = next((each.answer for each in record.answers if each.name == name), "")
    return "" if told == UNKNOWN else told


UNKNOWN = "unknown"
