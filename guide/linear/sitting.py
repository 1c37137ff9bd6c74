"""Somebody at one setup: what is entered, by whom, and what is said of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from guide.front.as_recorded import as_recorded
from guide.front.desk import Desk
from guide.front.doable import others, witness_at
from guide.front.own_language import speak_for
from guide.front.signing_words import NOBODY_ELSE, NOT_WITNESSED, wrong_before
from guide.journal.store import Store
from guide.journal.wellformed import stamp
from guide.linear.ends import Back, Elsewhere, Left, LeftAlone
from guide.linear.page import read_out_all
from guide.linear.signing import as_witness, who
from guide.linear.talk import Talk
from guide.people.hand import Hand
from guide.plain import N_, Refusal
from guide.present.entered import to_witness
from guide.present.sheet import newest
from guide.present.tongue import language, say, written
from guide.present.visible import visible
from guide.present.words import refused
from guide.procedure.model import Step
from guide.settings import Settings
from guide.walk.second import Signer, is_signed
from guide.walk.setup import Setup
from guide.walk.state import State


def now() -> str:
    """The time as the journal writes it."""
    return stamp(datetime.now(UTC))


class Sitting:
    """One setup, open here, and the talk about it."""

    def __init__(
        self,
        setup: Setup,
        store: Store,
        desk: Desk,
        talk: Talk,
        known: Sequence[str],
        settings: Settings,
    ) -> None:
        self.setup, self.store, self.desk, self.talk = setup, store, desk, talk
        self.known, self.settings, self.detail = tuple(known), settings, settings.detail
        speak_for(self.state.person, settings)
        self.told: list[str] = []
        """What the present page said besides its words, to be said again when asked."""
        self.onward = ""
        """The procedure to go on with once this one has ended."""

    @property
    def state(self) -> State:
        """Where the setup stands."""
        return self.setup.state

    @property
    def signed(self) -> bool:
        """Whether each event here is signed by the person who acts."""
        return is_signed(self.state)

    def people(self) -> tuple[str, ...]:
        """Those who may take over: everybody but the one at the lathe."""
        return others(self.state, self.known, self.desk)

    def enter(self, trigger: str, data: Mapping[str, Any]) -> bool:
        """Do one thing by the one at the lathe, with a witness where that is asked."""
        step = self.setup.step
        role = witness_at(step, self.state, trigger)
        if step is None or not role:
            return self.act(trigger, data)
        return self._witnessed(step, role, trigger, data)

    def act(
        self,
        trigger: str,
        data: Mapping[str, Any],
        *,
        person: str = "",
        beside: Signer | None = None,
    ) -> bool:
        """Do one thing, durably, and say what was written; or say in one sentence why not."""
        before, data = self.state, as_recorded(data, self.setup.procedure)
        try:
            self.setup.act(trigger, data, person=person or before.person, at=now(), beside=beside)
        except Refusal as refusal:
            self.talk.lines.tell(refused(refusal, language()))
            return False
        self._tell(before)
        return True

    def _tell(self, before: State) -> None:
        """What was written, in one line, and the mark that must not be missed."""
        line = newest(before, self.state, self.setup.procedure, language())
        value = f": {line.value}" if line.value else ""
        self.talk.say(N_("Recorded: {title}{value}"), title=line.title, value=value)
        if line.note:
            self.talk.lines.tell(f"{line.note}.")

    def _witnessed(self, step: Step, role: str, trigger: str, data: Mapping[str, Any]) -> bool:
        """Enter it once a second person has looked, and signed beside or is named."""
        names = others(self.state, self.known, self.desk, role)
        if self.signed and not names:
            self.talk.say(NOBODY_ELSE)
            return False
        data = as_recorded(data, self.setup.procedure)
        told = to_witness(step, self.state, self.setup.procedure, data, language())
        try:
            with self.talk.inside():
                name, hand = as_witness(self, written(step.title), told, role, names)
        except Back:
            self.talk.say(NOT_WITNESSED)
            return False
        named = {"witness": {"person": name}} if hand is None else {}
        return self.act(trigger, {**data, **named}, beside=hand)

    def look_whether_left_alone(self) -> None:
        """Raise `LeftAlone` once nobody has typed anything for the shop's idle time."""
        if self.setup.hands and self.desk.left_for():
            raise LeftAlone

    def left_alone(self) -> None:
        """Sign out whoever was there, and come back once somebody goes on."""
        minutes = self.desk.left_for()
        self.talk.say(N_("Nobody typed anything for {n} min. {person} is signed out."), n=minutes,
                      person=visible(self.state.person))  # fmt: skip
        self.sign_on_again()

    def sign_on_again(self) -> None:
        """Ask who goes on: the same person where it was, another one takes over.

        Raises `Elsewhere` for another person, and `Left` where nobody signs on.
        """
        self.setup.hands.clear()
        self.desk.touch()
        last = self.state.person
        names = sorted(self.desk.names(), key=lambda each: each != last)
        try:
            with self.talk.inside():
                name, hand = who(self.talk, self.desk, say(N_("Who goes on?")), names, True)
        except Back:
            raise Left from None
        self.go_on_with(name, hand)
        if self.state.person != last:
            raise Elsewhere

    def go_on_with(self, name: str, hand: Hand | None) -> bool:
        """The same person goes on where it was, another one takes over; whether that was taken."""
        last, taken = self.state.person, True
        if hand is not None:
            self.setup.hands[hand.name] = hand
        if hand is None or hand.name != last:
            taken = self.act("take-over", {"from": last}, person=name)
        here = self.state.person
        speak_for(here, self.settings)
        self.setup.hands = {n: each for n, each in self.setup.hands.items() if n == here}
        self.tell_wrong_pins()
        return taken

    def tell_wrong_pins(self) -> None:
        """Whoever has just signed on is told of wrong PINs before."""
        if told := wrong_before(self.desk.told_once()):
            self.talk.lines.tell(told)

    def tell(self, text: str) -> None:
        """Something of the present page, which is said again when asked."""
        self.told.append(text)
        self.talk.lines.tell(text)

    def say_all(self) -> None:
        """The present place again, with all detail."""
        read_out_all(self.talk.lines, self.setup)
        for each in self.told:
            self.talk.lines.tell(each)
