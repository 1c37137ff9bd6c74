"""The one chain over all events of a journal, in the order in which they were written.

The chain of a setup cannot tell that the whole setup was taken out; this one can, and a copy of its
head kept anywhere else tells that the end was cut off or that all of it was worked out anew.
"""

from __future__ import annotations

from dataclasses import dataclass

from guide.journal.canonical import digest


@dataclass(frozen=True, slots=True)
class Link:
    """One event's place among all events of the journal."""

    number: int
    """From 1, in the order of writing."""
    setup: str
    sequence: int
    digest: str
    """Of the event."""
    signature: str
    """Of the event, blank where it is not signed."""
    previous: str
    """The head of the link before, `GENESIS` for the first."""
    head: str
    """What stands for the whole journal up to and with this event."""


def head_of(
    number: int, setup: str, sequence: int, event: str, signature: str, previous: str
) -> str:
    """SHA-256 (lower-case hexadecimal) of a link's canonical JSON (RFC 8785).

    All text in it is hexadecimal or a setup's id, so that no sign has to be escaped.
    """
    return digest(
        f'{{"digest":"{event}","number":{number},"previous":"{previous}",'
        f'"sequence":{sequence},"setup":"{setup}","signature":"{signature}"}}'
    )
