"""The one door to the equipment of a journal: adding, changing, calibrating, retiring."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Protocol

from guide.equipment.belongs import CHUCK, INDICATOR
from guide.equipment.register import Register, Thing, register_of
from guide.journal.event import Event
from guide.journal.standing import EQUIPMENT


class Journal(Protocol):
    """What is asked of the journal."""

    def append(self, event: Event, signature: str = "") -> None:
        """Write durably before returning."""

    def events(self, setup: str) -> tuple[Event, ...]:
        """All events of a chain in order."""


class Hand(Protocol):
    """Somebody who has signed on, and can sign."""

    @property
    def name(self) -> str:
        """Who."""

    @property
    def key(self) -> str:
        """The public key."""

    def sign(self, text: str) -> str:
        """The signature of a text."""


By = Hand | str
"""Whoever acts: a hand that signs, or, where nobody signs on, a name."""


class Equipment:
    """The equipment of one journal; every change is an event of the chain `equipment`."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal

    def register(self) -> Register:
        """All equipment as the last event left it."""
        return register_of(self.journal.events(EQUIPMENT))

    def add(self, by: By, kind: str, name: str, facts: Mapping[str, str], at: str) -> Thing:
        """Something new, with what is known of it."""
        data = {"kind": kind, "name": " ".join(name.split()), "facts": _kept(facts)}
        return self._write(by, "add", data, at).find(kind, name)

    def change(self, by: By, kind: str, name: str, facts: Mapping[str, str], at: str) -> Thing:
        """Other answers; a blank one takes back what was known."""
        data = {"kind": kind, "name": self._called(kind, name), "facts": _kept(facts)}
        return self._write(by, "change", data, at).find(kind, name)

    def calibrate(
        self, by: By, name: str, at: str, *, day: str, due: str, certificate: str, limit: str = ""
    ) -> Thing:
        """An indicator was calibrated on a day until another, by whom or with which certificate;
        `limit` is its largest error with the unit, where that is told anew."""
        told = {"kind": INDICATOR, "name": self._called(INDICATOR, name), "day": day, "due": due,
                "by": " ".join(certificate.split())}  # fmt: skip
        data = told | ({"error_limit": " ".join(limit.split())} if limit.strip() else {})
        return self._write(by, "calibrate", data, at).find(INDICATOR, name)

    def retire(self, by: By, kind: str, name: str, at: str) -> Thing:
        """In use no more; nothing is deleted."""
        data = {"kind": kind, "name": self._called(kind, name)}
        return self._write(by, "retire", data, at).find(kind, name)

    def voided(self, by: By, chuck: str, why: str, at: str) -> Register:
        """Something happened to a chuck: its last result counts no more, and it is due at once."""
        data = {"kind": CHUCK, "name": " ".join(chuck.split()), "why": " ".join(why.split())}
        return self._write(by, "voided", data, at)

    def _called(self, kind: str, name: str) -> str:
        """The name as it was given when it was added."""
        return self.register().find(kind, name).name

    def _write(self, by: By, what: str, data: Mapping[str, Any], at: str) -> Register:
        """One event: refused, or written and then so."""
        register = self.register()
        name, key = (by, "") if isinstance(by, str) else (by.name, by.key)
        event = Event(
            EQUIPMENT, register.sequence + 1, at, name, "", what, data, register.head, key
        )
        after = register.after(event)
        self.journal.append(event, "" if isinstance(by, str) else by.sign(event.body()))
        return after


def _kept(facts: Mapping[str, str]) -> dict[str, str]:
    """Answers without idle spaces."""
    return {name: " ".join(each.split()) for name, each in facts.items()}
