"""Who acts at a sheet: signing on and out, taking over, and a second person beside."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from guide.front.as_recorded import as_recorded
from guide.front.doable import everybody, others, who_allow
from guide.front.revision import changed_since
from guide.front.signing_words import NOBODY_ELSE, NOT_WITNESSED, wrong_before
from guide.plain import N_
from guide.present.entered import to_witness
from guide.present.visible import visible
from guide.procedure.model import Step
from guide.roles import APPRENTICE
from guide.screens.growing_page import GrowingPage
from guide.screens.tongue import language, say, written
from guide.screens.widgets.notice import Notice
from guide.screens.wire import Wires
from guide.walk.second import Signer, is_signed

if TYPE_CHECKING:
    from guide.front.desk import Desk
    from guide.people.hand import Hand
    from guide.screens.signing import Sign


OPENED = 1
"""The event that opens a setup."""


class Signing(GrowingPage):
    """What a sheet knows of the persons at it; what is entered and closed is the sheet's own."""

    known_people: tuple[str, ...]
    desk: Desk | None
    wires: Wires | None
    came_at: int
    """The last event there was when the sheet was opened."""

    @abstractmethod
    def entered(
        self, trigger: str, data: Mapping[str, Any], *, person: str, beside: Signer | None = None
    ) -> str:
        """Do one thing, and give back why not."""

    @abstractmethod
    def _refuse(self, sentence: str) -> None:
        """Say why something was not entered."""

    @abstractmethod
    def close(self, onward: str = "") -> None:
        """The sheet goes."""

    def everybody(self, least: str = APPRENTICE) -> tuple[str, ...]:
        """Everybody known, the one at the lathe too; where people sign on, of a role or above."""
        return everybody(self.state, self.known_people, self.desk, least)

    def people(self, least: str = APPRENTICE) -> tuple[str, ...]:
        """Those who may take over or stand beside: everybody but the one at the lathe."""
        return others(self.state, self.known_people, self.desk, least)

    def who_allow(self) -> tuple[str, ...]:
        """Those who may allow a deviation."""
        return who_allow(self.state, self.known_people, self.desk)

    @property
    def signed(self) -> bool:
        """Whether each event here is signed by the person who acts."""
        return is_signed(self.state) and self.desk is not None

    @property
    def sign(self) -> Sign | None:
        """How somebody signs on here; nothing where nobody signs."""
        return self.desk.signed_on if self.signed and self.desk else None

    def left_alone(self) -> bool:
        """Sign out whoever touched nothing for the shop's idle time; whether that was so now."""
        minutes = self.desk.left_for() if self.desk and self.setup.hands else 0
        if minutes and self.state.ended:
            self.setup.hands.clear()
        elif minutes:
            told = N_("Nobody touched anything for {n} min. What was typed is kept for {person}.")
            self.sign_out(told, n=minutes)
        return bool(minutes) and not self.state.ended

    def sign_out(self, why: str, **values: object) -> None:
        """Nobody is signed on any more; nothing can be entered until somebody is."""
        self.setup.hands.clear()
        told = say(why, person=visible(self.state.person), **values)
        self.run_worker(self._until_signed_on(told), group="sign-on", exclusive=True)

    async def _until_signed_on(self, why: str) -> None:
        """Ask who goes on; without anybody the sheet closes and the setup waits to be resumed."""
        from guide.screens.signing import SignedOut

        assert self.desk is not None
        last = self.state.person
        told = await self.app.push_screen_wait(SignedOut(self.desk, last, why, self.go_on_with))
        if not told or self.state.person != last:
            self._close_windows()
        if not told:
            self.close()
        self._tell_wrong()

    def _close_windows(self) -> None:
        """What the last person was asked is not for the next one to answer."""
        while self.app.screen is not self:
            self.app.screen.dismiss(None)

    def go_on_with(self, told: Mapping[str, str], hand: Hand | None) -> str:
        """The same person goes on where it was, another one takes over; gives back why not."""
        last, refusal = self.state.person, ""
        if hand is not None:
            self.setup.hands[hand.name] = hand
        if hand is None or hand.name != last:
            refusal = self.entered("take-over", {"from": last}, person=told["person"])
        at_the_lathe = self.state.person
        self.setup.hands = {n: e for n, e in self.setup.hands.items() if n == at_the_lathe}
        return refusal

    def _tell_wrong(self) -> None:
        """Wrong PINs before, or a procedure that was changed meanwhile, until the next page."""
        told = wrong_before(self.desk.told_once()) if self.desk else ""
        if not told and self.state.sequence == self.came_at > OPENED:
            told = changed_since(self.setup.procedure)
        self.query_one(Notice).tell(told or visible(self.wires.notice if self.wires else ""))

    async def _with_witness(
        self, step: Step, role: str, trigger: str, data: Mapping[str, Any]
    ) -> None:
        """Enter it once a second person has looked, and signed beside or is named."""
        from guide.screens.signing import witness_of

        by, people = self.state.person, self.people(role)

        def enter(told: Mapping[str, str], hand: Hand | None) -> str:
            named = {"witness": {"person": told["person"]}} if hand is None else {}
            return self.entered(trigger, {**data, **named}, person=by, beside=hand)

        data = as_recorded(data, self.setup.procedure)
        lines = to_witness(step, self.state, self.setup.procedure, data, language())
        asks = witness_of(written(step.title), lines, role, by, people, self.sign, enter)
        if self.signed and not people:
            self._refuse(say(NOBODY_ELSE))
        elif not await self.app.push_screen_wait(asks):
            self._refuse(say(NOT_WITNESSED))
