"""Who sits at which page: a cookie, its program, and the one connection that shows it now."""

from __future__ import annotations

import asyncio
import secrets
from collections.abc import Coroutine
from dataclasses import dataclass, field
from typing import Protocol

from guide.serve.handing_over import Handover
from guide.serve.running import Running
from guide.settings import Settings

MOST_PROGRAMS, MOST_SEATS = 4, 64
"""Programs that run at once, and browsers that are remembered."""
AWAY = 120.0
"""Seconds that a program waits for a page that is gone; after that the machine is made sure of."""
STALLED = 8.0
"""Seconds for a page to take what is drawn; one that does not is let go."""
TAKEN, FELL, FULL, LEFT = 4001, 4002, 4003, 4004
"""Close codes (RFC 6455, 7.4.2: free for an application) that the page has a sentence for."""
GOING_AWAY = 1001
MODES = b"\x1b[?1049h\x1b[?1000h\x1b[?1003h\x1b[?1015h\x1b[?1006h\x1b[?25l\x1b[?2004h"
"""What Textual sets up once at its start: a page that comes back to it starts anew."""


class Link(Protocol):
    """A connection to a page."""

    async def send_bytes(self, data: bytes) -> None:
        """What is drawn."""

    def let_go(self, code: int) -> None:
        """Have it ended, soon, for a reason that the page can say."""


@dataclass(eq=False)
class Seat:
    """One browser, known by its cookie."""

    cookie: str = field(default_factory=secrets.token_urlsafe, repr=False)
    setup: str = ""
    """The setup to come back to."""
    program: Running | None = None
    link: Link | None = None
    one_at_a_time: asyncio.Lock = field(default_factory=asyncio.Lock, repr=False)
    waiting: asyncio.TimerHandle | None = None
    """Ends the program unless the page comes back before."""

    async def draw(self, data: bytes) -> None:
        """What the program draws, for whichever page shows it now; for none it is lost."""
        link = self.link
        if link is None:
            return
        try:
            async with asyncio.timeout(STALLED):
                await link.send_bytes(data)
        except (TimeoutError, ConnectionError, RuntimeError):
            link.let_go(GOING_AWAY)
            if self.link is link:
                self.link = None

    def settle(self) -> bool:
        """Clear away a program that has ended; its setup is kept unless a person left it."""
        program = self.program
        if program is None or not program.end.done():
            return False
        self.program, self.setup = None, "" if program.left else program.setup
        return True


class Seats:
    """All browsers of one run."""

    def __init__(self, settings: Settings, away: float = AWAY) -> None:
        self.settings, self.away = settings, away
        self._seats: dict[str, Seat] = {}
        self._programs = 0
        self._tasks: set[asyncio.Task[None]] = set()

    def new(self) -> Seat:
        """A seat for a browser that came with the link; the oldest empty one makes room."""
        if len(self._seats) >= MOST_SEATS:
            empty = next((each for each in self._seats.values() if each.program is None), None)
            if empty is not None:
                del self._seats[empty.cookie]
        seat = Seat()
        self._seats[seat.cookie] = seat
        return seat

    def of(self, cookie: str) -> Seat | None:
        """Whose cookie this is; it is a key of 256 random bits, so a lookup tells nothing."""
        return self._seats.get(cookie)

    async def sit(self, seat: Seat, link: Link, size: tuple[int, int]) -> bool:
        """Show a seat's program on a connection; False where no more programs may run.

        A connection that showed it before is told that it was taken over. Everything is drawn
        anew for a size that is told, the same as before or not.
        """
        async with seat.one_at_a_time:
            before, seat.link = seat.link, link
            if before is not None:
                before.let_go(TAKEN)
            if seat.waiting:
                seat.waiting.cancel()
            seat.settle()
            if seat.program is not None:
                await seat.draw(MODES)
                await seat.program.tell(type="resize", width=size[0], height=size[1])
                return True
            return await self._start(seat, size)

    async def _start(self, seat: Seat, size: tuple[int, int]) -> bool:
        """A new program, straight at the setup that the last one had open."""
        if self._programs >= MOST_PROGRAMS:
            seat.link = None
            return False
        told = Handover(str(self.settings.home), seat.setup, *size)
        self._programs += 1
        try:
            seat.program = await Running.start(told, seat.draw)
        except BaseException:
            self._programs -= 1
            raise
        self._soon(self._watch(seat, seat.program))
        return True

    async def _watch(self, seat: Seat, program: Running) -> None:
        """Once a program ends its page is told."""
        await asyncio.wait({program.end})
        self._programs -= 1
        if seat.settle() and (link := seat.link):
            seat.link = None
            link.let_go(LEFT if program.left else FELL)

    def leave(self, seat: Seat, link: Link) -> None:
        """A connection is gone: its program waits a while, then it is closed."""
        if seat.link is link or seat.link is None:
            seat.link = None
            loop = asyncio.get_running_loop()
            if seat.waiting:
                seat.waiting.cancel()
            seat.waiting = loop.call_later(self.away, lambda: self._soon(self._give_up(seat)))

    async def _give_up(self, seat: Seat) -> None:
        async with seat.one_at_a_time:
            if seat.link is None and seat.program is not None:
                await seat.program.quit()

    async def close(self) -> None:
        """Let every page go and end every program."""
        for seat in self._seats.values():
            if seat.link is not None:
                seat.link.let_go(GOING_AWAY)
            if seat.waiting:
                seat.waiting.cancel()
        programs = [each.program for each in self._seats.values() if each.program]
        await asyncio.gather(*(each.quit() for each in programs))
        for task in [*self._tasks]:
            task.cancel()

    def _soon(self, work: Coroutine[None, None, None]) -> None:
        """Do it beside everything else."""
        task = asyncio.create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
