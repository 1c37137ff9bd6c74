"""Signing on in this program: who may, with which PIN, and how long each has waited here."""

from __future__ import annotations

import time
from asyncio import to_thread
from collections.abc import Callable
from math import ceil
from typing import TypeVar

from guide.front.opening import now
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.people.roster import Roster, known_as
from guide.plain import Refusal
from guide.roles import APPRENTICE, at_least

Result = TypeVar("Result")
SLEEPLESS = getattr(time, "CLOCK_BOOTTIME", getattr(time, "CLOCK_MONOTONIC", None))
"""A clock that goes on while the machine sleeps: a lid that was shut is idle time too."""


def sleepless() -> float:
    """Seconds on a clock that nobody sets."""
    return time.monotonic() if SLEEPLESS is None else time.clock_gettime(SLEEPLESS)


class Desk:
    """The people of the journal, asked by the screens."""

    def __init__(self, store: Store, clock: Callable[[], float] = sleepless) -> None:
        self.store, self.people = store, People(store)
        self.clock = clock
        self.touched = clock()
        """When a key, a click or a paste came last."""
        self.refused: dict[str, tuple[int, float]] = {}
        """How many wrong PINs of each this process saw, and when the last, on its own clock."""
        self.untold: list[tuple[str, int, str]] = []
        """Who signed on after wrong PINs, how many, and when the last; nobody was told yet."""

    def touch(self) -> None:
        """Somebody is there."""
        self.touched = self.clock()

    def idle(self) -> float:
        """Seconds in which nobody touched anything."""
        return self.clock() - self.touched

    def left_for(self) -> int:
        """The shop's idle minutes once nobody touched anything for so long, else 0."""
        if self.idle() < 60:
            return 0
        minutes = self.roster.rules.idle_minutes
        return minutes if minutes and self.idle() >= 60 * minutes else 0

    @property
    def roster(self) -> Roster:
        """Everybody, and the rules, as they are now."""
        return self.people.roster()

    def names(self, least: str = APPRENTICE) -> list[str]:
        """Everybody who may act, of a role or above it."""
        return [each.name for each in self.roster.active if at_least(each.role, least)]

    def to_wait(self, name: str) -> int:
        """Seconds until a PIN of somebody is tried again; 0 where it is tried at once."""
        return ceil(self.people.to_wait(name, now(), self._waited(name)))

    def sign_on(self, name: str, pin: str) -> Hand:
        """Somebody's hand for the right PIN; a Refusal else."""
        known = known_as(name)
        wrong = self.roster.tries.get(known)
        try:
            hand = self.people.sign_on(name, pin, now(), self._waited(name))
        except Refusal:
            tries = self.roster.tries.get(known)
            if tries and tries.count != self.refused.get(known, (0, 0.0))[0]:
                self.refused[known] = tries.count, self.clock()
            raise
        if wrong:
            self.untold.append((hand.name, wrong.count, wrong.at))
        return hand

    def told_once(self) -> list[tuple[str, int, str]]:
        """Who signed on after wrong PINs since this was asked last, how many, and when the last."""
        told, self.untold[:] = [*self.untold], []
        return told

    async def signed_on(self, name: str, pin: str) -> Hand:
        """The same, while the screen lives: stretching a PIN takes a good tenth of a second."""
        return await self.apart(lambda desk: desk.sign_on(name, pin))

    async def apart(self, do: Callable[[Desk], Result]) -> Result:
        """What `do` gives in a thread of its own, with a desk of its own to do it at."""
        return await to_thread(self._apart, do)

    def _apart(self, do: Callable[[Desk], Result]) -> Result:
        """SQLite serves one thread: a store for this one, and afterwards a hand asks the first."""
        with Store(self.store.path) as store:
            desk = Desk(store, self.clock)
            desk.refused, desk.untold = self.refused, self.untold
            try:
                return do(desk)
            finally:
                desk.people.journal = self.store

    def _waited(self, name: str) -> float:
        """Seconds since this process saw a wrong PIN of somebody last; 0 where it saw none."""
        seen = self.refused.get(known_as(name))
        return self.clock() - seen[1] if seen else 0.0

    def first(self, name: str, pin: str) -> Hand:
        """The first person, a supervisor."""
        return self.people.first(name, pin, now())
