"""Whether each event was signed by somebody who could sign it at that time."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from guide.equipment.register import Register
from guide.journal.chain import sound
from guide.journal.event import Event
from guide.journal.finding import Noted
from guide.journal.keys import signed_by
from guide.journal.standing import PEOPLE
from guide.journal.store import Store
from guide.people.roster import Person, Roster, known_as
from guide.plain import N_, Refusal
from guide.roles import at_least
from guide.walk.second import ALLOWED, WITNESS, unsigned_text

Amiss = tuple[Event, str, str, Mapping[str, object]]
"""An event, the fault, and a sentence with its values."""

NOT_THEIR_KEY = N_("its key is not one that {person} had then.")
RETIRED = N_("{person} was retired then.")
SHOULD_BE_SIGNED = N_("it is not signed, and the shop's rules then asked for signatures.")
NOT_SIGNED = N_("it is not signed, and the setup was opened as one in which each event is.")
NOT_THAT_ROLE = N_("it says that {person} is a {role}, and that was not so then.")
NO_WITNESS = N_("the shop then asked for a second person at {kinds}, and the setup does not.")
BESIDE = N_("the second person's signature is not that of {person} as a {role}.")
NOT_EQUIPMENT = N_("this change of equipment was not allowed: {why}")
NOT_PEOPLE = N_("this change of people was not allowed: {why}")


@dataclass(frozen=True, slots=True)
class Registry:
    """Everybody as they were after each change, by the number of its link over all events."""

    numbers: tuple[int, ...] = ()
    rosters: tuple[Roster, ...] = ()

    def at(self, number: int) -> Roster:
        """The roster that held when the link of that number was written."""
        place = bisect_left(self.numbers, number)
        return self.rosters[place - 1] if place else Roster()


def registry_of(store: Store) -> tuple[Registry, tuple[Amiss, ...]]:
    """Everybody by time, and the first change that was not allowed, at which the reading ends."""
    noted = store.noted(PEOPLE)
    roster = Roster()
    numbers: list[int] = []
    rosters: list[Roster] = []
    for event in sound(store.rows(PEOPLE), noted)[0]:
        try:
            roster = roster.after(event)
        except Refusal as refusal:
            told = {"why": refusal}
            return Registry(tuple(numbers), tuple(rosters)), ((event, "refused", NOT_PEOPLE, told),)
        numbers.append(noted[event.sequence].number)
        rosters.append(roster)
    return Registry(tuple(numbers), tuple(rosters)), ()


def unauthorised(
    events: Sequence[Event], noted: Mapping[int, Noted], registry: Registry
) -> Iterator[Amiss]:
    """The events of a setup that were not signed by somebody who could."""
    opening = events[0].data
    if opening.get("sign_on") != "on":
        roster = registry.at(noted[1].number)
        if opening.get("mode") == "real" and roster.people and roster.rules.sign_on:
            yield events[0], "unsigned", SHOULD_BE_SIGNED, {}
        return
    unasked = _unasked(opening.get("witnesses"), registry.at(noted[1].number))
    if unasked:
        yield events[0], "refused", NO_WITNESS, {"kinds": ", ".join(unasked)}
    for event in events:
        if not event.key:
            yield event, "unsigned", NOT_SIGNED, {}
            continue
        roster = registry.at(noted[event.sequence].number)
        why = _why_not(roster, event.person, event.key)
        if why:
            yield event, "forged", why, {"person": event.person}
        elif not _is_as_said(event, roster):
            told = {"person": event.person, "role": event.data["role"]}
            yield event, "forged", NOT_THAT_ROLE, told
        yield from _beside(event, roster)


def of_equipment(
    events: Sequence[Event], noted: Mapping[int, Noted], registry: Registry
) -> Iterator[Amiss]:
    """The changes of equipment that were not allowed, or not signed where people sign on."""
    register = Register()
    for event in events:
        roster = registry.at(noted[event.sequence].number)
        if event.key:
            why = _why_not(roster, event.person, event.key)
            if why:
                yield event, "forged", why, {"person": event.person}
        elif roster.people and roster.rules.sign_on:
            yield event, "unsigned", SHOULD_BE_SIGNED, {}
        try:
            register = register.after(event)
        except Refusal as refusal:
            yield event, "refused", NOT_EQUIPMENT, {"why": refusal}
            return


def _unasked(told: object, roster: Roster) -> tuple[str, ...]:
    """The kinds of step at which the shop then asked for a second person, and the setup did not."""
    asked = told if isinstance(told, Mapping) else {}
    wanted = roster.rules.witness.items()
    return tuple(kind for kind, role in wanted if not at_least(str(asked.get(kind)), role))


def _is_as_said(event: Event, roster: Roster) -> bool:
    """Whether the person had the role that the event says, where it says one."""
    person = _person(roster, event.person)
    return "role" not in event.data or person is None or event.data["role"] == person.role


def _why_not(roster: Roster, name: str, key: str) -> str:
    """Why a key cannot stand for a person, blank when it can."""
    person = _person(roster, name)
    if person is None or person.key != key:
        return NOT_THEIR_KEY
    return "" if person.active else RETIRED


def _person(roster: Roster, name: str) -> Person | None:
    return roster.people.get(known_as(name))


def _beside(event: Event, roster: Roster) -> Iterator[Amiss]:
    """A second person whose signature, key or role is not right."""
    for name in (WITNESS, ALLOWED):
        told = event.data.get(name)
        if told is not None and not _stood_beside(event, name, told, roster):
            values = dict(told) if isinstance(told, Mapping) else {}
            said = {"person": values.get("person"), "role": values.get("role")}
            yield event, "forged", BESIDE, said


def _stood_beside(event: Event, name: str, told: Any, roster: Roster) -> bool:
    if not isinstance(told, Mapping):
        return False
    person = _person(roster, str(told.get("person", "")))
    if person is None or not person.active or person.role != told.get("role"):
        return False
    signature = str(told.get("signature", ""))
    return person.key == told.get("key") and signed_by(
        person.key, signature, unsigned_text(event, name)
    )
