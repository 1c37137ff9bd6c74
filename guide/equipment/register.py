"""All equipment as a fold over the chain `equipment`; nothing is ever taken out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from unicodedata import normalize

from guide.equipment.belongs import CHUCK, DUE, ERROR_LIMIT, INDICATOR, belonging, kind_of
from guide.equipment.wellformed import day, facts_in, proper, said, size
from guide.journal.event import GENESIS, Event
from guide.plain import N_, BadInput, NotAllowed


@dataclass(frozen=True, slots=True)
class Calibration:
    """One calibration of an indicator, or a check of it that the shop counts as one."""

    day: date
    due: date
    by: str
    """Who did it, or the certificate, as typed."""
    error_limit: str = ""
    """The largest error found or stated, with its unit; blank where it was not told."""


@dataclass(frozen=True, slots=True)
class Thing:
    """One piece of equipment."""

    kind: str
    name: str
    facts: Mapping[str, str] = field(hash=False)
    """Answers that belong to it, by the procedures' fact names."""
    since: str
    """When it was added, UTC as stored."""
    retired: str = ""
    """When it was retired, blank for one in use."""
    calibrations: tuple[Calibration, ...] = ()

    @property
    def active(self) -> bool:
        """Whether it is in use."""
        return not self.retired

    @property
    def due(self) -> date | None:
        """The day on which its calibration ends, None where none is known."""
        return date.fromisoformat(self.facts[DUE]) if self.facts.get(DUE) else None

    def is_overdue(self, today: date) -> bool:
        """Whether it is an indicator in use whose calibration has ended before today."""
        return self.active and self.due is not None and self.due < today


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happened to a chuck, after which its result counts no more."""

    chuck: str
    at: str
    why: str
    person: str
    sequence: int
    """The number of the event that says so."""


@dataclass(frozen=True, slots=True)
class Register:
    """All equipment after the last event about it."""

    things: Mapping[tuple[str, str], Thing] = field(default_factory=dict, hash=False)
    """By kind and name, upper and lower case alike."""
    voided: tuple[Mark, ...] = ()
    sequence: int = 0
    head: str = GENESIS

    def of(self, kind: str) -> tuple[Thing, ...]:
        """All of a kind that are in use, in the order in which they were added."""
        return tuple(each for each in self.things.values() if each.kind == kind and each.active)

    def named(self, kind: str, name: str) -> Thing | None:
        """The one of that name in use, None where there is none."""
        thing = self.things.get((kind, known_as(name)))
        return thing if thing and thing.active else None

    def find(self, kind: str, name: str) -> Thing:
        """The one of that name, in use or retired, else BadInput."""
        thing = self.things.get((kind_of(kind), known_as(name)))
        if thing is None:
            raise BadInput(
                N_("No {kind} called {name} is kept here."),
                N_("Add it first; `spindleside equipment` lists what there is."),
                kind=kind,
                name=ascii(name)[:120],
            )
        return thing

    def overdue(self, today: date) -> tuple[Thing, ...]:
        """All indicators in use whose calibration has ended."""
        return tuple(each for each in self.of(INDICATOR) if each.is_overdue(today))

    def after(self, event: Event) -> Register:
        """The register after one event; a Refusal where it may not happen."""
        if (event.sequence, event.previous) != (self.sequence + 1, self.head):
            raise NotAllowed(N_("The equipment was changed elsewhere."), N_("Look again."))
        if event.kind not in MADE:
            raise BadInput(
                N_("Nothing called {kind} happens to equipment."), "", kind=ascii(event.kind)
            )
        made = MADE[event.kind](self, event)
        return replace(made, sequence=event.sequence, head=event.digest)


A_DAY = timedelta(days=1)
"""By so much the day at a place may be ahead of the one by UTC."""


def register_of(events: Iterable[Event]) -> Register:
    """All equipment after these events; a Refusal at the first that may not be."""
    register = Register()
    for event in events:
        register = register.after(event)
    return register


def known_as(name: str) -> str:
    """By what a name is found: case, idle spaces and how an accent is typed tell nothing apart."""
    return " ".join(normalize("NFKC", name).split()).casefold()


def _added(register: Register, event: Event) -> Register:
    """Something new; a name of its kind is given once and for all."""
    kind, called = kind_of(said(event, "kind")), proper(said(event, "name"))
    if (kind, known_as(called)) in register.things:
        raise BadInput(
            N_("There is a {kind} called {name} already, perhaps retired."),
            N_("Give a name that tells the two apart, and write it on the thing."),
            kind=kind,
            name=called,
        )
    facts = {name: each for name, each in _facts(kind, event).items() if each}
    return _with(register, Thing(kind, called, facts, event.at))


def _changed(register: Register, event: Event) -> Register:
    """Other answers; a blank one is not known any more, one that is not named stays."""
    thing = _in_use(register, event)
    told = _facts(thing.kind, event)
    if not told:
        raise BadInput(N_("Nothing was changed."), N_("Name an answer and what it is now."))
    kept = {name: each for name, each in {**thing.facts, **told}.items() if each}
    return _with(register, replace(thing, facts=kept))


def _calibrated(register: Register, event: Event) -> Register:
    """An indicator was calibrated: when, until when, by whom."""
    thing = _in_use(register, event)
    if thing.kind != INDICATOR:
        raise BadInput(N_("Only an indicator is calibrated here."), N_("Name an indicator."))
    limit = said(event, "error_limit") if event.data.get("error_limit") else ""
    done = Calibration(day(said(event, "day")), day(said(event, "due")),
                       proper(said(event, "by")), size(limit) if limit else "")  # fmt: skip
    latest = date.fromisoformat(event.at[:10]) + A_DAY
    if done.due <= done.day or done.day > latest:
        raise BadInput(
            N_("A calibration is past, and ends after the day on which it was done."),
            N_("Look at the two dates again."),
        )
    facts = {**thing.facts, DUE: done.due.isoformat()} | ({ERROR_LIMIT: limit} if limit else {})
    return _with(register, replace(thing, facts=facts, calibrations=(*thing.calibrations, done)))


def _retired(register: Register, event: Event) -> Register:
    """Something is in use no more; it stays on record."""
    return _with(register, replace(_in_use(register, event), retired=event.at))


def _voided(register: Register, event: Event) -> Register:
    """Something happened to a chuck, kept here or only in the records of setups."""
    if said(event, "kind") != CHUCK:
        raise BadInput(N_("Only a chuck has a result that can cease."), N_("Name a chuck."))
    mark = Mark(proper(said(event, "name")), event.at, proper(said(event, "why")), event.person,
                event.sequence)  # fmt: skip
    return replace(register, voided=(*register.voided, mark))


MADE: Mapping[str, Callable[[Register, Event], Register]] = {
    "add": _added,
    "change": _changed,
    "calibrate": _calibrated,
    "retire": _retired,
    "voided": _voided,
}
"""What can happen to equipment."""


def _with(register: Register, thing: Thing) -> Register:
    key = (thing.kind, known_as(thing.name))
    return replace(register, things={**register.things, key: thing})


def _facts(kind: str, event: Event) -> dict[str, str]:
    """The answers in an event, each of them belonging to that kind."""
    return {belonging(kind, name): each for name, each in facts_in(event).items()}


def _in_use(register: Register, event: Event) -> Thing:
    thing = register.find(said(event, "kind"), said(event, "name"))
    if not thing.active:
        raise NotAllowed(N_("{name} is retired."), N_("Add it under a new name."), name=thing.name)
    return thing
