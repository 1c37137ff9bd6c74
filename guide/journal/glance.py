"""The derived list of setups: when each was opened and ended, at which lathe, with which chuck.

Nothing rests on it but how quickly lists are shown; it can be worked out anew from the events. A
list that damage has changed would hide a setup, so a tally is kept of all its rows: how many there
are, how many have not ended, and the sum of a check value of each (CRC-32, ISO 3309), by which any
row that was changed, lost or added by accident is told without a look at the events.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any, NamedTuple
from zlib import crc32

from guide.journal.base import Base
from guide.journal.event import Event
from guide.journal.said import said
from guide.journal.standing import STANDING

OPENED = """
INSERT OR REPLACE INTO glance VALUES (
    CAST(?1 AS TEXT), ?2, ?3, CAST(?4 AS TEXT), CAST(?5 AS TEXT), CAST(?6 AS TEXT))
"""
ENDED = "UPDATE glance SET ended = ?3, chuck = CAST(?6 AS TEXT) WHERE setup = CAST(?1 AS TEXT)"
EVERY = "SELECT rowid, body FROM event WHERE setup NOT IN (?, ?) ORDER BY rowid"
LISTED = """
SELECT coalesce(CAST(setup AS BLOB), x''),
    coalesce(CAST(opened AS INTEGER), 0), CAST(ended AS INTEGER),
    coalesce(CAST(mode AS BLOB), x''), coalesce(CAST(lathe AS BLOB), x''),
    coalesce(CAST(chuck AS BLOB), x'')
FROM glance
"""
"""Numbers as whole ones, texts as bytes: whatever damage has made of them can be compared."""
CHECKED = b"%b\0%d\0%d\0%b\0%b\0%b"
"""The bytes of a row that the check value is taken of, -1 for the end of one that is open."""
TALLY = "SELECT setups, unended, checks FROM tally"
TALLIED = "UPDATE tally SET setups = setups + ?, unended = unended + ?, checks = checks + ?"

Row = tuple[bytes, int, int | None, bytes, bytes, bytes]
"""One setup as the list has it; see `Listed`."""
Tally = tuple[Any, ...]
"""How many setups are listed, how many of them have not ended, the sum of their check values."""


class Listed(NamedTuple):
    """One setup as the list has it, its texts as bytes."""

    setup: bytes
    opened: int
    """The rowid of its first event."""
    ended: int | None
    """The rowid of the event that ended it, None while it is open."""
    mode: bytes
    lathe: bytes
    chuck: bytes
    """Blank unless a real setup ended with an outcome."""


def note(base: Base, event: Event, rowid: int) -> None:
    """What an event changes in the list, inside the transaction that writes it: only one that opens
    a setup or ends it does.
    """
    ends = "ends" in event.data
    if event.setup in STANDING or not (event.sequence == 1 or ends):
        return
    found = base.execute(f"{LISTED} WHERE setup = ?", (event.setup,)).fetchone()
    before = Listed(*found) if found else None
    after = _opened(event, rowid) if event.sequence == 1 else before
    if after is None:
        return
    if ends:
        chuck = _chuck(event) if after.mode == b"real" else ""
        after = after._replace(ended=rowid, chuck=chuck.encode())
    base.execute(OPENED if event.sequence == 1 else ENDED, after)
    less, more = tally((before,) if before else ()), tally((after,))
    base.execute(TALLIED, [new - old for old, new in zip(less, more, strict=True)])


def tally(rows: Collection[Row]) -> Tally:
    """The tally of rows as `LISTED` gives them."""
    checks, unended = 0, 0
    for setup, opened, ended, mode, lathe, chuck in rows:
        unended += ended is None
        end = -1 if ended is None else ended
        checks += crc32(CHECKED % (setup, opened, end, mode, lathe, chuck))
    return len(rows), unended, checks


def shown(first: Event, last: Event) -> tuple[str, str, str]:
    """Mode, lathe and chuck as the list has them of a setup with this first and last event."""
    mode, lathe = _mode_and_lathe(first.data)
    return mode, lathe, _chuck(last) if mode == "real" else ""


def from_events(ends: Iterable[tuple[Any, ...]]) -> Iterator[Listed]:
    """The list as the events have it: of each setup its name, its first and last body, the number
    and the rowid of the last, and the rowid of the first.
    """
    for setup, first, last, _, ended, opened in ends:
        data, closing = (_mapping(said(body).get("data")) for body in (first, last))
        mode, lathe = _mode_and_lathe(data)
        chuck = str(_mapping(closing.get("outcome")).get("chuck", "")) if mode == "real" else ""
        told = (text.encode("utf-8", "replace") for text in (mode, lathe, chuck))
        yield Listed(str(setup).encode(), opened, ended if "ends" in closing else None, *told)


def _opened(event: Event, rowid: int) -> Listed:
    mode, lathe = _mode_and_lathe(event.data)
    return Listed(event.setup.encode(), rowid, None, mode.encode(), lathe.encode(), b"")


def _mode_and_lathe(data: Mapping[str, object]) -> tuple[str, str]:
    return str(data.get("mode", "")), str(_mapping(data.get("facts")).get("lathe", ""))


def _chuck(event: Event) -> str:
    return str(_mapping(event.data.get("outcome")).get("chuck", ""))


def _mapping(value: object) -> Mapping[str, object]:
    return value if isinstance(value, Mapping) else {}
