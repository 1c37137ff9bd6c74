"""One setup: check what is asked, write it down durably, then let it be so."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
from typing import Any, Protocol

from guide.journal.event import GENESIS, Event
from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.load import read
from guide.procedure.model import Procedure, Step
from guide.walk.advised import of_move
from guide.walk.answers import accepted
from guide.walk.figures import of_readings
from guide.walk.flow import doings, looks, performed
from guide.walk.fold import Fold
from guide.walk.machine import Course
from guide.walk.recording import checks_of
from guide.walk.state import NOTHING, State
from guide.walk.world import as_dict

WORDS_A_SECOND = 5
"""Faster than this nobody reads (common practice, no source): noted, not refused."""


class Journal(Protocol):
    """What a setup asks of the journal."""

    def append(self, event: Event) -> None:
        """Write durably before returning."""

    def events(self, setup: str) -> tuple[Event, ...]:
        """All events of a setup in order."""

    def keep_text(self, text: str) -> str:
        """Keep a procedure text by its digest."""

    def text(self, name: str) -> str:
        """A kept procedure text."""

    def setups(self) -> tuple[Any, ...]:
        """A summary of each setup."""

    def hold(self, setup: str, at: str) -> AbstractContextManager[Any]:
        """Keep other processes off a setup."""


class Setup:
    """A setup that is open in this process."""

    def __init__(self, journal: Journal, procedure: Procedure, state: State, last: str) -> None:
        self.journal = journal
        self.procedure = procedure
        self.fold = Fold(procedure)
        self.course = Course(procedure)
        self.state = state
        self._last = last

    @property
    def step(self) -> Step | None:
        """The present step, or None at making sure, paused, made safe or an end."""
        return self.procedure.by_name.get(self.state.place)

    def act(self, trigger: str, data: Mapping[str, Any], *, person: str, at: str) -> State:
        """Do one thing: refused, or written and then true."""
        whole = self._complete(trigger, data)
        event = self._event(trigger, whole, person, at)
        state = self.fold.after(self.state, event)
        if state.ended:
            whole |= {"ends": state.place, "world": as_dict(state.world)}
            event = self._event(trigger, whole, person, at)
            state = self.fold.after(self.state, event)

        def write() -> None:
            self.journal.append(event)

        self.course.go(self.state.place, trigger, state.place, write)
        self.state, self._last = state, event.digest
        return state

    def _event(self, trigger: str, data: Mapping[str, Any], person: str, at: str) -> Event:
        """The event after the last one."""
        state = self.state
        return Event(
            state.setup, state.sequence + 1, at, person, state.place, trigger, data, self._last
        )

    def _complete(self, trigger: str, data: Mapping[str, Any]) -> dict[str, Any]:
        """What was entered, with what the tool adds: actions done, figures, a note of haste."""
        step, state = self.step, self.state
        whole = {name: each for name, each in data.items() if name not in ADDED}
        if whole.get("left") not in ("yes", True):
            whole.pop("left", None)
        if trigger == "correct" and str(whole.get("fact")) in self.procedure.facts:
            fact = self.procedure.facts[str(whole["fact"])]
            whole["new"] = accepted(fact, str(whole.get("new", "")))
        if step is None or trigger not in ("done", "record", "acknowledge"):
            return whole
        if step.kind == "facts" and isinstance(whole.get("facts"), Mapping):
            whole["facts"] = {
                name: accepted(self.procedure.facts[name], str(each))
                if name in step.ask
                else str(each)
                for name, each in whole["facts"].items()
            }
        if step.kind == "readings" and trigger == "record":
            whole["figures"] = of_readings(step, whole, state)
        if step.kind == "correction" and trigger == "record" and state.pair:
            whole |= of_move(whole, state)
        if step.kind == "gate" and trigger == "acknowledge":
            whole |= self._haste(step, whole)
        if not looks(step) and not (step.kind == "correction" and whole.get("left")):
            whole["did"] = list(performed(doings(step), state.world, state.facts))
        return whole

    def _haste(self, step: Step, data: Mapping[str, Any]) -> dict[str, Any]:
        """A gate acknowledged faster than it can be read is noted in the record."""
        try:
            seconds = float(str(data.get("seconds", "")))
        except ValueError:
            return {}
        words = sum(len(check.say.split()) for check, _ in checks_of(step, self.state))
        return {"faster_than_read": True} if seconds * WORDS_A_SECOND < words else {}


ADDED = ("did", "figures", "faster_than_read", "advised", "moved", "learned", "ends", "world")
"""What only the tool adds to an event."""


def open_setup(
    journal: Journal,
    procedure: Procedure,
    *,
    setup: str,
    person: str,
    at: str,
    lathe: str,
    mode: str = "real",
    typed_at: str = "terminal",
    remembered: Mapping[str, str] = NOTHING,
    practice: Mapping[str, Any] = NOTHING,
) -> Setup:
    """A new setup, written as the first event; refused while the lathe has another one open.

    `practice` is what a simulated chuck hides, with the answers that it settles under `facts`.
    """
    if not lathe.strip() or not person.strip():
        raise BadInput(N_("A setup needs a person and a lathe."), N_("Name both."))
    lathe = " ".join(lathe.split())
    before = lathe_before(journal, lathe, mode)
    data: dict[str, Any] = {
        "procedure": procedure.name,
        "revision": procedure.revision,
        "file": procedure.file,
        "procedure_text": journal.keep_text(procedure.text),
        "facts": {"lathe": lathe},
        "mode": mode,
        "input": typed_at,
    }
    if before:
        data["lathe_before"] = before
    if remembered:
        data["remembered"] = dict(remembered)
    if practice:
        told = dict(practice)
        data["facts"] = {**told.pop("facts", {}), **data["facts"]}
        data["practice"] = told
    event = Event(setup, 1, at, person, "", "open", data, GENESIS)
    state = Fold(procedure).opened(event)
    journal.append(event)
    return Setup(journal, procedure, state, event.digest)


def lathe_before(journal: Journal, lathe: str, mode: str) -> dict[str, Any]:
    """How the lathe's last setup left it; refused while one is open there.

    Practice and rehearsals are about no lathe that stands anywhere, so they do not count.
    """
    for each in journal.setups() if mode == "real" else ():
        opening = each.opening
        told = opening.get("facts", {})
        if opening.get("mode") != mode or told.get("lathe", "").casefold() != lathe.casefold():
            continue
        if "ends" not in each.closing:
            raise NotAllowed(
                N_("The lathe {lathe} has a setup open: {setup}."),
                N_("Resume that one, or abandon it with a reason."),
                lathe=lathe,
                setup=each.setup,
            )
        return {"setup": each.setup, "ends": each.closing["ends"], "world": each.closing["world"]}
    return {}


def replayed(journal: Journal, setup: str) -> Setup:
    """A setup as its events leave it, without adding anything."""
    events = journal.events(setup)
    if not events:
        raise BadInput(
            N_("There is no setup called {setup}."),
            N_("`spindleside records` lists them."),
            setup=setup,
        )
    opening = events[0].data
    procedure = read(journal.text(str(opening["procedure_text"])), str(opening["file"]))
    fold = Fold(procedure)
    state = fold.opened(events[0])
    for event in events[1:]:
        state = fold.after(state, event)
    return Setup(journal, procedure, state, events[-1].digest)


def resume_setup(journal: Journal, setup: str, *, person: str, at: str) -> Setup:
    """Go on with a setup: the resumption is written, and making sure follows."""
    open_again = replayed(journal, setup)
    if open_again.state.ended:
        raise NotAllowed(
            N_("The setup {setup} has ended ({place})."),
            N_("`spindleside records show {setup}` shows it."),
            setup=setup,
            place=open_again.state.place,
        )
    if open_again.state.person != person:
        open_again.act("take-over", {"from": open_again.state.person}, person=person, at=at)
    else:
        open_again.act("resume", {}, person=person, at=at)
    return open_again
