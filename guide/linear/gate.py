"""A gate in lines: each check is read out alone and confirmed by a number made for that reading.

On the screens a key counts by the time between keys. Of a line nobody knows how its keys came, so
other rules stand in their place. The number is drawn anew each time a check is read out, so that
nothing typed or made beforehand can hold it. What was typed before the check was read out is thrown
away. A line counts only if it came alone: not within the screens' own quiet time after the reading,
and with nothing behind it. A wrong number locks the gate until a sign is typed that no instrument
sends, so that a row of values finds one try and no second.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from random import Random, SystemRandom

from guide.linear.ends import Ended, LeftAlone
from guide.linear.talk import AGAIN, BACK, OTHER, Talk
from guide.plain import N_
from guide.present.gate_keys import QUIET
from guide.present.gate_text import CheckText, why_english
from guide.present.visible import visible

DIGITS, LONG = "123456789", 3
"""What a check's number is made of: no zero, no sign, no digit twice."""
MOST_RUSHED = 100
TAKE_BACK = "0"
VALUE = re.compile(r"[-+−.,\s]*\d.*")
"""What an instrument may have typed: whatever begins with a figure."""
AHEAD = N_("What was typed before this check was read out is thrown away.")
HOW = N_(
    "Each check is read out alone. Look, then type the number that is told with it. 0 takes all"
    " back."
)
ALONE = N_("That line did not come alone, or came as fast as no one looks: nothing is confirmed.")
BLANK = N_("Enter alone confirms nothing. Look, then type the number that is told.")
WRONG = N_("“{text}” is not the number of this check, and nothing is confirmed.")
LOCKED = N_(
    "If an indicator typed that, take it off. Type / and Enter, and the check is read out again."
)


class Gate:
    """Reads checks out one by one; `numbers` draws their numbers."""

    def __init__(
        self, talk: Talk, checks: Sequence[CheckText], numbers: Random | None = None
    ) -> None:
        self.talk, self.checks = talk, tuple(checks)
        self.numbers = numbers or SystemRandom()
        self.number = ""
        """The one number that counts now."""
        self.rushed = 0
        """Lines in a row that did not come alone."""
        self.shown = 0.0
        """When the check was read out."""

    def seconds(self) -> str:
        """Ask until every check is confirmed; gives how long that took, in seconds."""
        begun = self.talk.keys.clock()
        self.talk.say(HOW)
        if why := why_english():
            self.talk.lines.tell(why)
        at = 0
        while at < len(self.checks):
            at = self._step(at)
        return f"{max(self.talk.keys.clock() - begun, 0):.1f}"

    def _step(self, at: int) -> int:
        """One check; gives back which comes next."""
        self._read_out(at)
        while True:
            try:
                text = self.talk.hear()
            except LeftAlone:
                return 0
            if text == TAKE_BACK:
                self.talk.say(N_("All are taken back."))
                return 0
            if text == BACK:
                return max(at - 1, 0)
            done = self._counts(text)
            if done is not None:
                return at + done

    def _counts(self, text: str) -> int | None:
        """1 where a check is confirmed, 0 where it is read out again, None where one waits on."""
        if not self._came_alone():
            self._rush()
            return 0
        self.rushed = 0
        if text == self.number:
            self.number = ""
            self.talk.say(N_("Confirmed."))
            return 1
        if text == OTHER and self.talk.besides is not None:
            self.talk.besides()
            return 0
        if text in AGAIN:
            self.talk.more()
            return 0
        self._refuse(text)
        return None if not text else 0

    def _rush(self) -> None:
        """Throw all of it away; raises `Ended` for an input that never stops."""
        self.talk.keys.drain()
        self.talk.say(ALONE)
        self.rushed += 1
        if self.rushed == MOST_RUSHED:
            raise Ended

    def _came_alone(self) -> bool:
        """Whether a line came long enough after the reading, and nothing came behind it."""
        keys = self.talk.keys
        late = keys.arrived - self.shown >= QUIET
        return not keys.waiting(QUIET) and late

    def _refuse(self, text: str) -> None:
        """Say why a line is no confirmation; one with a figure locks the gate."""
        if not text:
            self.talk.say(BLANK)
            self.shown = self.talk.keys.clock()
            return
        self.talk.say(WRONG, text=visible(text))
        if VALUE.match(text):
            self._lock()

    def _lock(self) -> None:
        """Wait for the sign that no instrument types."""
        self.number = ""
        while True:
            self.talk.say(LOCKED)
            try:
                if self.talk.hear() == BACK:
                    return
            except LeftAlone:
                return

    def _read_out(self, at: int) -> None:
        """What was typed before goes; the check, its hazard, how to look, and a new number."""
        check = self.checks[at]
        talk = self.talk
        ahead = talk.keys.drain()
        talk.say(N_("Check {number} of {count}: {words}"), number=at + 1, count=len(self.checks),
                 words=about(check.person, check.say))  # fmt: skip
        if check.hazard:
            talk.say(N_("Danger: {hazard}"), hazard=check.hazard)
        if check.look:
            talk.say(N_("How to look: {look}"), look=check.look)
        if check.english:
            talk.say(N_("In English: {english}"), english=check.english)
        if ahead:
            talk.say(AHEAD)
        self.number = self._drawn()
        talk.say(N_("If it is so, type {code} and Enter."), code=self.number)
        self.shown = talk.keys.clock()

    def _drawn(self) -> str:
        """A number that is not the last one."""
        drawn = "".join(self.numbers.sample(DIGITS, LONG))
        return drawn if drawn != self.number else self._drawn()


def about(person: str, words: str) -> str:
    """A check that is asked of each person, with whom it is about."""
    return f"{person}: {words}" if person else words


Enter = Callable[[list[str], str], bool]
"""Enters the numbers of all checks and the seconds; whether it was taken."""


def pass_gate(talk: Talk, checks: Sequence[CheckText], enter: Enter) -> None:
    """Ask until the gate is acknowledged; where that is refused, everything is looked at again."""
    numbers = [str(number) for number in range(1, len(checks) + 1)]
    while not enter(numbers, Gate(talk, checks).seconds()):
        talk.say(N_("The gate stays shut: every check is looked at again."))
