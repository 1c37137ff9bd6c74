"""Everybody who may or might act, as a fold over the chain `people`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from unicodedata import normalize

from guide.journal.event import GENESIS, Event
from guide.journal.wellformed import is_digest
from guide.people.role import role_of
from guide.people.rules import Rules, rules_of
from guide.plain import N_, BadInput, NotAllowed
from guide.roles import SUPERVISOR


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a person, and when it began and ceased to count."""

    key: str
    """Public Ed25519 key, 64 hexadecimal digits."""
    seal: str
    """The digest of the text in which the private key is sealed by the PIN."""
    since: int
    """The number of the event, in the chain of people, that gave it."""
    until: int = 0
    """The number of the event that took it away, 0 while it counts."""


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who was added; nobody is ever taken out."""

    name: str
    role: str
    keys: tuple[Key, ...]
    """Every key the person ever had, the latest last."""
    since: str
    """When the person was added, UTC as stored."""
    retired: str = ""
    """When the person was retired, blank for one who may act."""

    @property
    def active(self) -> bool:
        """Whether the person may act."""
        return not self.retired

    @property
    def key(self) -> str:
        """The public key that counts, or did until the person was retired."""
        return self.keys[-1].key


@dataclass(frozen=True, slots=True)
class Tries:
    """Wrong PINs in a row."""

    count: int
    at: str
    """When the last one was, UTC as stored."""


@dataclass(frozen=True, slots=True)
class Roster:
    """Everybody and the rules, after the last event about them."""

    people: Mapping[str, Person] = field(default_factory=dict, hash=False)
    """By name, upper and lower case alike."""
    rules: Rules = field(default_factory=Rules)
    tries: Mapping[str, Tries] = field(default_factory=dict, hash=False)
    sequence: int = 0
    head: str = GENESIS

    @property
    def begun(self) -> bool:
        """Whether anything was settled yet: a person added, or sign-on turned off."""
        return bool(self.people) or not self.rules.sign_on

    @property
    def active(self) -> tuple[Person, ...]:
        """Everybody who may act, in the order in which they were added."""
        return tuple(each for each in self.people.values() if each.active)

    def find(self, name: str) -> Person:
        """The person of that name, else BadInput."""
        person = self.people.get(known_as(name))
        if person is None:
            raise BadInput(
                N_("There is nobody called {name} here."),
                N_("`spindleside people` lists who may sign; a supervisor adds people."),
                name=name[:LONGEST_NAME],
            )
        return person

    def after(self, event: Event) -> Roster:
        """The roster after one event; a Refusal where it may not happen."""
        if (event.sequence, event.previous) != (self.sequence + 1, self.head):
            raise NotAllowed(N_("The people were changed elsewhere."), N_("Look again."))
        if event.kind not in MADE:
            raise BadInput(
                N_("Nothing called {kind} happens to people."), "", kind=ascii(event.kind)
            )
        made = MADE[event.kind](self, event)
        return replace(made, sequence=event.sequence, head=event.digest)


def roster_of(events: Iterable[Event]) -> Roster:
    """Everybody after these events; a Refusal at the first that may not be."""
    roster = Roster()
    for event in events:
        roster = roster.after(event)
    return roster


LONGEST_NAME = 80


def proper(name: str) -> str:
    """A name as it is kept, without spaces that do not count; BadInput where it can be none."""
    called = " ".join(name.split())
    if not called or not called.isprintable() or len(called) > LONGEST_NAME:
        raise BadInput(
            N_("A person needs a name of up to {most} printable signs."),
            N_("Type it again."),
            most=LONGEST_NAME,
        )
    return called


@lru_cache(1024)
def known_as(name: str) -> str:
    """By what a name is found: two that differ only in case, spaces or how an accent is typed are
    one."""
    return " ".join(normalize("NFKC", name).split()).casefold()


def _added(roster: Roster, event: Event) -> Roster:
    """Somebody new; the first one is a supervisor, and vouches for that alone."""
    name, role = proper(str(event.data.get("name", ""))), role_of(str(event.data.get("role", "")))
    key = _new_key(roster, event)
    if not roster.people:
        if (event.person, event.key, role) != (name, key.key, SUPERVISOR):
            raise NotAllowed(
                N_("The first person is a supervisor, who adds the others."), N_("Begin there.")
            )
    else:
        _by_a_supervisor(roster, event)
    if known_as(name) in roster.people:
        raise BadInput(
            N_("There is a {name} already, perhaps retired."),
            N_("Give a name that tells the two apart."),
            name=name,
        )
    return _with(roster, Person(name, role, (key,), event.at))


def _retired(roster: Roster, event: Event) -> Roster:
    """Somebody may act no more; what was signed stays good."""
    _by_a_supervisor(roster, event)
    person = _active(roster, event)
    _not_the_last_supervisor(roster, person)
    return _with(roster, replace(_key_ended(person, event), retired=event.at))


def _given_role(roster: Roster, event: Event) -> Roster:
    """Another role."""
    _by_a_supervisor(roster, event)
    person, role = _active(roster, event), role_of(str(event.data.get("role", "")))
    if role != SUPERVISOR:
        _not_the_last_supervisor(roster, person)
    return _with(roster, replace(person, role=role))


def _given_key(roster: Roster, event: Event) -> Roster:
    """Another key, for somebody who has forgotten the PIN."""
    _by_a_supervisor(roster, event)
    person = _key_ended(_active(roster, event), event)
    told = _with(roster, replace(person, keys=(*person.keys, _new_key(roster, event))))
    return _forgiven(told, person.name)


def _new_pin(roster: Roster, event: Event) -> Roster:
    """The same key under another PIN."""
    person = _signer(roster, event)
    last = replace(person.keys[-1], seal=str(event.data.get("seal", "")))
    return _with(roster, replace(person, keys=(*person.keys[:-1], last)))


def _ruled(roster: Roster, event: Event) -> Roster:
    """Other rules: a supervisor's, or those of somebody alone where nobody is known yet."""
    rules = rules_of(event.data)
    if roster.people:
        _by_a_supervisor(roster, event)
    elif rules.sign_on or event.key:
        raise NotAllowed(
            N_("Without a person on record the one rule is that nobody signs on."),
            N_("Add the first person."),
        )
    return replace(roster, rules=rules)


def _refused(roster: Roster, event: Event) -> Roster:
    """A wrong PIN."""
    name = known_as(roster.find(event.person).name)
    before = roster.tries.get(name, Tries(0, event.at))
    return replace(roster, tries={**roster.tries, name: Tries(before.count + 1, event.at)})


def _let_in(roster: Roster, event: Event) -> Roster:
    """The right PIN after wrong ones."""
    return _forgiven(roster, _signer(roster, event).name)


MADE: Mapping[str, Callable[[Roster, Event], Roster]] = {
    "add": _added,
    "retire": _retired,
    "role": _given_role,
    "new-key": _given_key,
    "new-pin": _new_pin,
    "rules": _ruled,
    "wrong-pin": _refused,
    "let-in": _let_in,
}
"""What can happen to people. A wrong PIN alone is signed by nobody."""


def _with(roster: Roster, person: Person) -> Roster:
    return replace(roster, people={**roster.people, known_as(person.name): person})


def _forgiven(roster: Roster, name: str) -> Roster:
    tries = {each: told for each, told in roster.tries.items() if each != known_as(name)}
    return replace(roster, tries=tries)


def _new_key(roster: Roster, event: Event) -> Key:
    key, seal = str(event.data.get("key", "")), str(event.data.get("seal", ""))
    if not is_digest(key) or not is_digest(seal):
        raise BadInput(N_("That is no key."), N_("Make a new one."))
    if any(key == each.key for person in roster.people.values() for each in person.keys):
        raise BadInput(N_("That key is somebody's already."), N_("Make a new one."))
    return Key(key, seal, event.sequence)


def _key_ended(person: Person, event: Event) -> Person:
    last = replace(person.keys[-1], until=event.sequence)
    return replace(person, keys=(*person.keys[:-1], last))


def _signer(roster: Roster, event: Event) -> Person:
    """The active person whose key the event names."""
    person = roster.find(event.person)
    if not person.active or event.key != person.key:
        raise NotAllowed(
            N_("{name} has not signed this."), N_("Sign on with the PIN."), name=event.person
        )
    return person


def _by_a_supervisor(roster: Roster, event: Event) -> None:
    if _signer(roster, event).role != SUPERVISOR:
        raise NotAllowed(
            N_("{name} is no supervisor; only one of them changes people and rules."),
            N_("Ask a supervisor to sign on."),
            name=event.person,
        )


def _active(roster: Roster, event: Event) -> Person:
    person = roster.find(str(event.data.get("name", "")))
    if not person.active:
        raise NotAllowed(
            N_("{name} is retired."), N_("Add the person under a new name."), name=person.name
        )
    return person


def _not_the_last_supervisor(roster: Roster, person: Person) -> None:
    others = [each for each in roster.active if each.role == SUPERVISOR and each != person]
    if person.role == SUPERVISOR and not others:
        raise NotAllowed(
            N_("{name} is the last supervisor here."),
            N_("Give somebody else that role first."),
            name=person.name,
        )
