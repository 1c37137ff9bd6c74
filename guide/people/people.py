"""The one door to the people of a journal: who they are, adding and retiring them, signing on."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
from typing import Any, Protocol

from guide.journal import keys
from guide.journal.event import Event
from guide.journal.standing import PEOPLE
from guide.people.hand import Hand
from guide.people.pin import chosen
from guide.people.role import role_of
from guide.people.roster import Person, Roster, known_as, proper, roster_of
from guide.people.rules import Rules
from guide.people.waiting import still_to_wait
from guide.plain import N_, NotAllowed
from guide.roles import SUPERVISOR


class Journal(Protocol):
    """What is asked of the journal."""

    def append(self, event: Event, signature: str = "") -> None:
        """Write durably before returning."""

    def events(self, setup: str) -> tuple[Event, ...]:
        """All events of a chain in order."""

    def last(self, setup: str) -> tuple[int, str]:
        """The number and the digest of a chain's last event."""

    def keep_sealed(self, text: str) -> str:
        """Keep a sealed key by its digest."""

    def sealed(self, name: str) -> str:
        """A kept sealed key."""

    def hold(self, setup: str, at: str) -> AbstractContextManager[Any]:
        """Keep other processes off."""


class People:
    """The people of one journal; every change is an event of the chain `people`."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        self._known = Roster()

    def roster(self) -> Roster:
        """Everybody as the last event left them; read anew only where there is a later one."""
        if self.journal.last(PEOPLE) != (self._known.sequence, self._known.head):
            self._known = roster_of(self.journal.events(PEOPLE))
        return self._known

    def first(self, name: str, pin: str, at: str) -> Hand:
        """The first person, a supervisor, who is signed on with it."""
        hand, data = self._new(name, SUPERVISOR, pin)
        self._write(hand, "add", data, at)
        return hand

    def add(self, by: Hand, name: str, role: str, pin: str, at: str) -> Person:
        """Somebody new; refused unless a supervisor does it."""
        _, data = self._new(name, role_of(role), pin)
        return self._write(by, "add", data, at).find(name)

    def retire(self, by: Hand, name: str, at: str) -> Person:
        """Somebody may act no more; what was signed stays good."""
        return self._write(by, "retire", {"name": name}, at).find(name)

    def change_role(self, by: Hand, name: str, role: str, at: str) -> Person:
        """Another role for somebody."""
        return self._write(by, "role", {"name": name, "role": role_of(role)}, at).find(name)

    def new_key(self, by: Hand, name: str, pin: str, at: str) -> Person:
        """A new key under a new PIN, for somebody who has forgotten theirs."""
        person = self.roster().find(name)
        _, data = self._new(person.name, person.role, pin)
        data.pop("role")
        return self._write(by, "new-key", data, at).find(name)

    def new_pin(self, hand: Hand, pin: str, at: str) -> Person:
        """The same key under another PIN."""
        seal = self.journal.keep_sealed(keys.sealed(hand.seed, chosen(pin)))
        return self._write(hand, "new-pin", {"seal": seal}, at).find(hand.name)

    def set_rules(self, by: Hand | str, rules: Rules, at: str) -> Roster:
        """Other rules: by a supervisor, or by the name of somebody alone who signs nothing."""
        return self._write(by, "rules", rules.as_data(), at)

    def to_wait(self, name: str, at: str, waited: float = 0.0) -> float:
        """Seconds still to wait before a PIN of this person is tried; `waited` as in `sign_on`."""
        tries = self.roster().tries.get(known_as(name))
        return still_to_wait(tries.count, tries.at, at, waited) if tries else 0.0

    def sign_on(self, name: str, pin: str, at: str, waited: float = 0.0) -> Hand:
        """Somebody's hand for the right PIN.

        `waited` is how many seconds this process itself has waited since it was refused last; it
        counts only where the clock was set back since. NotAllowed for a wrong PIN, which is
        written down, for one tried too soon, which is not tried, and for a person who is retired.
        One PIN is tried at a time.
        """
        with self.journal.hold(PEOPLE, at):
            roster = self.roster()
            person = roster.find(name)
            if not person.active:
                raise NotAllowed(
                    N_("{name} is retired."), N_("Ask a supervisor."), name=person.name
                )
            self._not_too_soon(person.name, at, waited)
            seed = keys.unsealed(self.journal.sealed(person.keys[-1].seal), pin)
            if seed is None or keys.public_of(seed) != person.key:
                self._write(person.name, "wrong-pin", {}, at)
                raise self._wrong(person.name, at)
            hand = self._hand(person.name, person.role, person.key, seed)
            if known_as(name) in roster.tries:
                self._write(hand, "let-in", {}, at)
            return hand

    def _hand(self, name: str, role: str, key: str, seed: bytes) -> Hand:
        """A hand that signs nothing more once the person is retired or has another role or key."""

        def still() -> None:
            now = self.roster().people.get(known_as(name))
            if now and (now.active, now.role, now.key) != (True, role, key):
                raise NotAllowed(
                    N_("{name} was retired, or has another role or key since."),
                    N_("Sign on again; a supervisor can say what was changed."),
                    name=name,
                )

        return Hand(name, role, key, seed, still)

    def _not_too_soon(self, name: str, at: str, waited: float) -> None:
        wait = self.to_wait(name, at, waited)
        if wait:
            raise NotAllowed(
                N_("{name} can be tried again in {seconds} s."),
                N_("Whoever has forgotten the PIN asks a supervisor for a new one."),
                name=name,
                seconds=int(-(-wait // 1)),
            )

    def _wrong(self, name: str, at: str) -> NotAllowed:
        return NotAllowed(
            N_("That is not the PIN of {name}; the wrong try is on record."),
            N_(
                "It can be tried again in {seconds} s. Whoever has forgotten it asks a supervisor"
                " for a new one."
            ),
            name=name,
            seconds=int(-(-self.to_wait(name, at) // 1)),
        )

    def _new(self, name: str, role: str, pin: str) -> tuple[Hand, dict[str, Any]]:
        """A key of somebody's own, sealed by the PIN and kept."""
        called = proper(name)
        seed = keys.new_seed()
        seal = self.journal.keep_sealed(keys.sealed(seed, chosen(pin)))
        hand = self._hand(called, role, keys.public_of(seed), seed)
        return hand, {"name": called, "role": role, "key": hand.key, "seal": seal}

    def _write(self, by: Hand | str, kind: str, data: Mapping[str, Any], at: str) -> Roster:
        """One event: refused, or written and then so."""
        roster = self.roster()
        name, key = (by, "") if isinstance(by, str) else (by.name, by.key)
        event = Event(PEOPLE, roster.sequence + 1, at, name, "", kind, data, roster.head, key)
        after = roster.after(event)
        self.journal.append(event, "" if isinstance(by, str) else by.sign(event.body()))
        return after
