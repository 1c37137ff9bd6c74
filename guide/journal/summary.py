"""What a list of setups shows of each, read from its first and its last event only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from guide.journal.said import said, word


@dataclass(frozen=True, slots=True)
class Summary:
    """One setup at a glance; what an event's damaged text does not tell stays blank."""

    setup: str
    opened_at: str
    """When the first event was written, as `Event.at`."""
    opened_by: str
    """The person of the first event."""
    opening: Mapping[str, Any] = field(hash=False)
    """The data of the first event."""
    last_at: str
    last_by: str
    last_kind: str
    last_step: str
    closing: Mapping[str, Any] = field(hash=False)
    """The data of the last event."""
    events: int
    """The number of the last event."""
    written: int = 0
    """Where the last event stands among all of the file: what was written later is higher,
    whatever the clock said."""
    of_first: str = ""
    """The setup that the first event says it is of."""
    of_last: str = ""
    """The setup that the last event says it is of."""


def summary(setup: str, first: str, last: str, events: int, written: int = 0) -> Summary:
    """The summary of a setup from the bodies of its first and last events and their count."""
    start, end = said(first), said(last)
    data, closing = start.get("data"), end.get("data")
    return Summary(
        setup=setup,
        opened_at=word(start, "at"),
        opened_by=word(start, "person"),
        opening=data if isinstance(data, dict) else {},
        last_at=word(end, "at"),
        last_by=word(end, "person"),
        last_kind=word(end, "kind"),
        last_step=word(end, "step"),
        closing=closing if isinstance(closing, dict) else {},
        events=events,
        written=written,
        of_first=word(start, "setup"),
        of_last=word(end, "setup"),
    )
