"""Who had a part in a setup, what each one put a name under, and what was allowed to be left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from guide.journal.event import Event
from guide.plain import N_
from guide.present.labels import DECISION
from guide.present.seen import Seen
from guide.present.visible import visible
from guide.present.words import recorded, say, written
from guide.records.record import Deviation, Signature, Worker
from guide.walk.second import ALLOWED, WITNESS

DEVIATED = "deviate"
CONFIRMED = N_("each check confirmed by looking")
WITNESSED = N_("witnessed it")
LET_BE = N_("allowed it to be left undone as written")


def workers_of(events: Iterable[Event]) -> tuple[Worker, ...]:
    """Everybody named in the events, in order of coming; role and key as they were signed on."""
    found: dict[tuple[str, str], str] = {}
    for event in events:
        told = (event.person, event.key)
        found[told] = str(event.data.get("role", "")) or found.get(told, "")
        for beside in _beside(event.data):
            one = (_of(beside, "person"), _of(beside, "key"))
            found[one] = _of(beside, "role") or found.get(one, "")
    return tuple(
        Worker(visible(name), visible(role), visible(key)) for (name, key), role in found.items()
    )


def _beside(data: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """The second persons of an event."""
    for name in (WITNESS, ALLOWED):
        if isinstance(data.get(name), Mapping):
            yield data[name]


def _of(told: Mapping[str, Any], name: str) -> str:
    """One word about a second person."""
    return str(told.get(name, ""))


def signatures_of(
    met: Sequence[Seen], events: Sequence[Event], language: str
) -> Iterator[Signature]:
    """Every name under something, in order: who did it first, who stood beside after."""
    keys = {event.sequence: event.key for event in events}
    roles = {worker.key: worker.role for worker in workers_of(events) if worker.key}
    for each in met:
        data, entry = each.entry.data, each.entry
        under = visible(written(each.step.title, language) if each.step else "")
        key = keys.get(entry.sequence, "")
        if meaning := _meaning(each, language):
            name = str(data.get("name") or entry.person)
            yield Signature(
                entry.sequence,
                entry.at,
                visible(name),
                roles.get(key, ""),
                under,
                visible(meaning),
                key,
            )
        for word, sentence in ((WITNESS, WITNESSED), (ALLOWED, LET_BE)):
            if isinstance(data.get(word), Mapping):
                told = {n: visible(_of(data[word], n)) for n in ("person", "role", "key")}
                yield Signature(
                    entry.sequence,
                    entry.at,
                    told["person"],
                    told["role"],
                    under,
                    say(sentence, language),
                    told["key"],
                )


def _meaning(each: Seen, language: str) -> str:
    """What the name of the acting person stands for; blank where it is under nothing."""
    data, step = each.entry.data, each.step
    if step is None or each.entry.kind == DEVIATED:
        return ""
    if step.kind == "gate":
        return say(CONFIRMED, language)
    if step.kind == "verdict":
        decision = str(data.get("decision", ""))
        return say(DECISION.get(decision, decision), language)
    return recorded(data.get("meaning", ""), language) if step.kind == "sign-off" else ""


def deviations_of(met: Sequence[Seen], language: str) -> Iterator[Deviation]:
    """Every task that was not done as written, with the reason and who allowed it."""
    for each in met:
        if each.entry.kind == DEVIATED:
            entry = each.entry
            told = entry.data.get(ALLOWED)
            allowed = told if isinstance(told, Mapping) else {}
            yield Deviation(
                entry.sequence,
                entry.at,
                visible(entry.person),
                visible(written(each.step.title, language) if each.step else entry.place),
                visible(recorded(entry.data.get("why", ""), language)),
                visible(_of(allowed, "person")),
                visible(_of(allowed, "role")),
            )
