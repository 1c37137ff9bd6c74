"""The tables about persons and about evidence: who signed what, what was left, how to tell."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.words import say
from guide.records.evidence import UNSIGNED
from guide.records.record import Deviation, Record, Signature, Worker
from guide.records.section import DEVIATIONS, PEOPLE, SIGNATURES, Section, heads, when

NOT_BY_KEY = N_("typed, not signed")


def people(record: Record, language: str) -> Section:
    """Everybody with role and key; only who signs has either."""
    rows = tuple(_worker(each) for each in record.workers if each.key or each.role)
    return Section(say(N_("People"), language), heads(PEOPLE, language), rows, plain=2)


def _worker(each: Worker) -> tuple[str, ...]:
    """One person as cells."""
    return each.name, each.role, each.key


def signatures(record: Record, language: str) -> Section:
    """Printed name, date and time, and meaning, of everything that somebody put a name under."""
    title = N_("Signatures") if record.sign_on else N_("Names given, not signed")
    rows = tuple(_signature(each, language) for each in record.signatures)
    return Section(say(title, language), heads(SIGNATURES, language), rows, plain=3)


def _signature(each: Signature, language: str) -> tuple[str, ...]:
    """One signature as cells."""
    by = each.key[:SHOWN] or say(NOT_BY_KEY, language)
    return str(each.sequence), when(each.at), each.name, each.role, each.under, each.meaning, by


SHOWN = 16
"""Digits of a key or digest that are shown where there is no room for all."""


def deviations(record: Record, language: str) -> Section:
    """Tasks that were not done as written."""
    rows = tuple(_deviation(each) for each in record.deviations)
    return Section(say(N_("Deviations"), language), heads(DEVIATIONS, language), rows, plain=4)


def _deviation(each: Deviation) -> tuple[str, ...]:
    """One deviation as cells."""
    allowed = ", ".join(filter(None, (each.allowed_by, each.role)))
    return str(each.sequence), when(each.at), each.person, each.title, each.why, allowed


def evidence(record: Record, language: str) -> Section:
    """By what to tell that nothing was changed since."""
    rows = tuple((say(name, language), told) for name, told in told_of(record, language))
    return Section(say("Evidence", language), ("", ""), rows, say(UNSIGNED, language))


def told_of(record: Record, language: str) -> Iterator[tuple[str, str]]:
    """Each thing to compare, by a sentence of the catalogue."""
    on = N_("on: every event is signed by who did it")
    off = N_("off: nothing is signed")
    yield N_("Sign-on"), say(on if record.sign_on else off, language)
    yield N_("Events"), str(record.events)
    yield N_("Digest of the last event"), record.head
    yield N_("Digest of the procedure text"), record.text
    if record.link:
        yield N_("Its place among all events of the journal"), str(record.link.number)
        yield N_("Digest of the journal up to there"), record.link.head
