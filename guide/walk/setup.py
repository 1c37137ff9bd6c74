"""One setup: check what is asked, write it down durably, then let it be so."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
from typing import Any, Protocol

from guide.journal.event import GENESIS, Event
from guide.journal.standing import STANDING
from guide.journal.trouble import unreadable
from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.load import read
from guide.procedure.model import Procedure, Step
from guide.walk.completed import RECKONING, completed, ending
from guide.walk.fold import fold_of
from guide.walk.machine import course_of
from guide.walk.second import ALLOWED, WITNESS, Signer, is_signed, key_of, unsigned_text
from guide.walk.sensible import Odd, newly_odd, told_with
from guide.walk.state import BY_A_PERSON, NOTHING, State


class Journal(Protocol):
    """What a setup asks of the journal."""

    def append(self, event: Event, signature: str = "") -> None:
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
        self.fold = fold_of(procedure)
        self.course = course_of(procedure)
        self.state = state
        self.hands: dict[str, Signer] = {}
        """Who has signed on in this process, by name."""
        self._last = last
        self._doubted: set[Odd] = set()
        """What was said to be odd once, and is taken when it is said again."""

    @property
    def step(self) -> Step | None:
        """The present step, or None at making sure, paused, made safe or an end."""
        return self.procedure.by_name.get(self.state.place)

    def act(
        self,
        trigger: str,
        data: Mapping[str, Any],
        *,
        person: str,
        at: str,
        beside: Signer | None = None,
    ) -> State:
        """Do one thing: refused, or written and then true.

        `beside` is the second person: a witness, or who allows a deviation.
        """
        hand, second = self._hand(person), key_of(trigger)
        told = {n: v for n, v in data.items() if not (hand and n in (WITNESS, ALLOWED))}
        whole = completed(self.procedure, self.state, trigger, told)
        self._doubt_once(trigger, whole, at)
        if hand and trigger == "take-over":
            whole["role"] = hand.role
        if beside:
            whole[second] = {"person": beside.name, "role": beside.role, "key": beside.key}
        event = self._event(trigger, whole, person, at, hand)
        state = self.fold.after(self.state, event)
        whole |= ending(state)
        if beside:
            event = self._event(trigger, whole, person, at, hand)
            signature = beside.sign(unsigned_text(event, second))
            whole[second] = {**whole[second], "signature": signature}
        if state.ended or beside:
            event = self._event(trigger, whole, person, at, hand)
            state = self.fold.after(self.state, event)
        signature = hand.sign(event.body()) if hand else ""

        def write() -> None:
            self.journal.append(event, signature)

        self.course.go(self.state.place, trigger, state.place, write)
        self.state, self._last = state, event.digest
        return state

    def _doubt_once(self, trigger: str, data: Mapping[str, Any], at: str) -> None:
        """What a person answers that is odd is refused the first time, and taken the second."""
        if self.state.opening.get("input") not in BY_A_PERSON:
            return
        facts = self.state.facts
        for each in newly_odd(facts, told_with(facts, trigger, data, at)):
            if each not in self._doubted:
                self._doubted.add(each)
                raise each.refusal()

    def _hand(self, person: str) -> Signer | None:
        """The hand that signs for a person; none where the setup is not signed."""
        if not is_signed(self.state):
            return None
        hand = self.hands.get(person)
        if hand is None:
            raise NotAllowed(
                N_("{person} has not signed on."), N_("Sign on with the PIN."), person=person
            )
        return hand

    def _event(
        self, trigger: str, data: Mapping[str, Any], person: str, at: str, hand: Signer | None
    ) -> Event:
        """The event after the last one."""
        state = self.state
        number, key = state.sequence + 1, hand.key if hand else ""
        return Event(state.setup, number, at, person, state.place, trigger, data, self._last, key)


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
    hand: Signer | None = None,
    witness: Mapping[str, str] = NOTHING,
) -> Setup:
    """A new setup, written as the first event; refused while the lathe has another one open.

    With a `hand`, the person's own, every event of it is signed; `witness` is the role of the
    second person by kind of step. `practice` is what a simulated chuck hides, with the answers
    that it settles under `facts`.
    """
    if not lathe.strip() or not person.strip():
        raise BadInput(N_("A setup needs a person and a lathe."), N_("Name both."))
    if setup in STANDING:
        raise BadInput(
            N_("{setup} cannot name a setup: something else of the journal is called so."),
            N_("Choose another name."),
            setup=setup,
        )
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
        "sign_on": "on" if hand else "off",
        "reckoning": RECKONING,
    }
    if hand:
        person = hand.name
        data |= {"role": hand.role, "witnesses": dict(witness)}
    if before:
        data["lathe_before"] = before
    if remembered:
        data["remembered"] = dict(remembered)
    if practice:
        told = dict(practice)
        data["facts"] = {**told.pop("facts", {}), **data["facts"]}
        data["practice"] = told
    event = Event(setup, 1, at, person, "", "open", data, GENESIS, hand.key if hand else "")
    state = fold_of(procedure).opened(event)
    journal.append(event, hand.sign(event.body()) if hand else "")
    return _signed_on(Setup(journal, procedure, state, event.digest), hand)


def _signed_on(setup: Setup, hand: Signer | None) -> Setup:
    """The setup with somebody signed on."""
    if hand:
        setup.hands[hand.name] = hand
    return setup


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
    events = () if setup in STANDING else journal.events(setup)
    if not events:
        raise BadInput(
            N_("There is no setup called {setup}."),
            N_("`spindleside records` lists them."),
            setup=setup,
        )
    opening = events[0].data
    text, file = str(opening.get("procedure_text")), str(opening.get("file"))
    procedure = read(journal.text(text), file)
    fold = fold_of(procedure)
    at = events[0]
    try:
        state = fold.opened(at)
        for at in events[1:]:
            state = fold.after(state, at)
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError) as error:
        raise unreadable(setup, at.sequence) from error
    return Setup(journal, procedure, state, events[-1].digest)


def resume_setup(
    journal: Journal, setup: str, *, person: str, at: str, hand: Signer | None = None
) -> Setup:
    """Go on with a setup: the resumption is written, and making sure follows."""
    open_again = _signed_on(replayed(journal, setup), hand)
    person = hand.name if hand else person
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
