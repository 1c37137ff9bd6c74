"""What verifying can find, as a stored row and a sentence that names it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, NamedTuple

from guide.journal.said import said, word
from guide.plain import N_

Fault = Literal["changed", "missing", "added", "reordered", "damaged", "unsigned", "forged"]
"""What is wrong: with an event, or (`damaged`) with the file as a whole."""

SENTENCES = {
    "text": N_("{event} was changed: its text does not match its digest."),
    "resealed": N_("{event} was changed: its digest is not the one it was written with."),
    "next": N_("{event} was changed: event {other} holds another digest for it."),
    "missing": N_("Event {sequence} of setup {setup} is missing."),
    "several": N_("Events {sequence} to {other} of setup {setup} are missing."),
    "second": N_("{event} was added: there is another event {sequence}."),
    "number": N_("{event} was added: events are counted from 1."),
    "foreign": N_("{event} was added: its text belongs to setup {other}."),
    "alien": N_("{event} was added: its text is not that of an event."),
    "unsealed": N_("{event} was added: it was not written through the journal."),
    "unlinked": N_("{event} was added: it does not continue the event before it."),
    "late": N_("{event} was reordered: it stands in the file after event {other}."),
    "renumbered": N_("{event} was reordered: its text is that of event {other}."),
    "signature": N_("{event} is forged: its signature is not that of the key it names."),
    "stripped": N_("{event} is unsigned: its signature was taken off."),
    "swapped": N_("{event} was changed: its signature is not the one it was written with."),
    "link": N_("Link {other} of the chain over all events was changed ({event})."),
    "unlinked-all": N_("Link {other} of the chain over all events is missing."),
    "procedure": N_("A procedure text was changed: it does not match its digest {other}."),
    "sealed": N_("A person's sealed key was changed: it does not match its digest {other}."),
    "ghost": N_(
        "The list of setups names {other}, of which there is no event; `spindleside records relist`"
        " makes the list anew."
    ),
    "tally": N_(
        "The list of setups is not as it was kept; `spindleside records relist` makes it anew."
    ),
    "stray": N_("Something was added to the journal file under a name that no setup has: {other}."),
    "file": N_("The journal file is damaged: {other}."),
}
EVENT = N_("Event {sequence} of setup {setup} ({kind}, step {step})")


class Row(NamedTuple):
    """One row of the table `event` as it is stored, believed in nothing."""

    rowid: int
    setup: str
    sequence: int
    body: str
    digest: str
    signature: str = ""


class Noted(NamedTuple):
    """What the chain over all events says of one event."""

    number: int
    """Its place among all events."""
    digest: str
    signature: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with the journal."""

    fault: Fault
    setup: str
    """The setup, blank where the file as a whole is meant."""
    sequence: int
    """The number of the event, the first one where several are missing."""
    kind: str = ""
    """The kind of the event as its text says it, blank where there is none to read."""
    step: str = ""
    """The step of the event as its text says it, blank where there is none to read."""
    sentence: str = ""
    """What is wrong, a catalogue entry with `{named}` places that `values` fill."""
    values: Mapping[str, object] = field(default_factory=dict, hash=False)

    def in_words(self, translate: Callable[[str], str]) -> str:
        """The sentence in the language that `translate` turns catalogue entries into."""
        values = dict(self.values)
        event = translate(EVENT).format_map(values) if "kind" in values else ""
        return translate(self.sentence).format_map({"event": event, **values})

    def __str__(self) -> str:
        """The sentence in English, values filled in."""
        return self.in_words(str)


def of_row(fault: Fault, why: str, row: Row, other: object = "") -> Finding:
    """A finding about a row that is there; `why` is a key of `SENTENCES`."""
    fields = said(row.body)
    kind, step = word(fields, "kind"), word(fields, "step")
    values: dict[str, object] = {"setup": row.setup, "sequence": row.sequence, "other": other}
    values |= {"kind": kind or "–", "step": step or "–"}
    frozen = MappingProxyType(values)
    return Finding(fault, row.setup, row.sequence, kind, step, SENTENCES[why], frozen)


def of_gap(setup: str, first: int, last: int) -> Finding:
    """A finding about events, from the first to the last, that are not there."""
    values = MappingProxyType({"setup": setup, "sequence": first, "other": last})
    why = "missing" if first == last else "several"
    return Finding("missing", setup, first, sentence=SENTENCES[why], values=values)


def of_file(fault: Fault, why: str, other: str) -> Finding:
    """A finding that belongs to no event."""
    values = MappingProxyType({"other": other})
    return Finding(fault, "", 0, sentence=SENTENCES[why], values=values)
