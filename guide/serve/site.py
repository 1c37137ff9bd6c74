"""What a browser may ask for: the page, a few files, and the socket of its screens."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Coroutine
from typing import Any

from aiohttp import WSMsgType, web
from aiohttp.typedefs import Handler

from guide.serve.guard import NOTHING_HERE, OLD_KEY, SOCKET, Guard, Refused
from guide.serve.link import Link
from guide.serve.page import listed, screens_page
from guide.serve.seats import FULL, Seat, Seats

LONGEST = 64 * 1024
"""Bytes of one message of a page."""
HEARTBEAT = 15.0
"""Seconds after which a page that is not heard of is asked; half of it later it is let go."""
CLOSING = 3.0
"""Seconds for a page to say that it knows it is let go."""
SMALLEST, LARGEST = 20, 400
"""Columns or rows of a page; whatever else it says is brought between them."""


def site(link: Link, seats: Seats) -> web.Application:
    """The application of one run."""
    guard = Guard(link, seats)
    app = web.Application(middlewares=[guard.middleware()], client_max_size=LONGEST)
    app.on_response_prepare.append(guard.dress)
    app.add_routes(
        [
            web.get("/", _page(seats.settings.language), allow_head=False),
            web.get(SOCKET, _socket(guard), allow_head=False),
            web.get("/{name}", _file, allow_head=False),
        ]
    )
    return app


def _page(language: str) -> Handler:
    async def page(request: web.Request) -> web.StreamResponse:
        text = screens_page(language)
        return web.Response(text=text, content_type="text/html", charset="utf-8")

    return page


async def _file(request: web.Request) -> web.StreamResponse:
    """One of the files that are listed, by its whole name."""
    path = listed().get(request.match_info["name"])
    if path is None:
        raise Refused(NOTHING_HERE, 404)
    return web.FileResponse(path)


def _socket(guard: Guard) -> Handler:
    seats = guard.seats

    async def socket(request: web.Request) -> web.StreamResponse:
        seat, size = guard.seat_of(request), (_cells(request, "width"), _cells(request, "height"))
        if seat is None:
            raise Refused(OLD_KEY)
        answer = web.WebSocketResponse(
            heartbeat=HEARTBEAT, timeout=CLOSING, max_msg_size=LONGEST, compress=False
        )
        await answer.prepare(request)
        link = Connection(answer)
        if not await seats.sit(seat, link, size):
            link.let_go(FULL)
        try:
            await link.until_let_go(_listen(seat, link))
        finally:
            seats.leave(seat, link)
        return answer

    return socket


class Connection:
    """A page's socket, which only its own task closes: two at once would lose the reason."""

    def __init__(self, socket: web.WebSocketResponse) -> None:
        self.socket = socket
        self.send_bytes = socket.send_bytes
        self._code: asyncio.Future[int] = asyncio.get_running_loop().create_future()

    def let_go(self, code: int) -> None:
        """Have it ended; the first reason counts."""
        if not self._code.done():
            self._code.set_result(code)

    async def until_let_go(self, work: Coroutine[None, None, None]) -> None:
        """Listen until the page is gone or is let go."""
        listening = asyncio.create_task(work)
        either: set[asyncio.Future[Any]] = {listening, self._code}
        await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
        listening.cancel()
        await asyncio.wait({listening})
        if self._code.done():
            await self.socket.close(code=self._code.result())
        if not listening.cancelled():
            listening.result()


async def _listen(seat: Seat, link: Connection) -> None:
    """Hand on what a page says, as long as it is the one that shows the program."""
    async for message in link.socket:
        told = _told(message.data) if message.type == WSMsgType.TEXT else None
        if seat.link is not link or seat.program is None or told is None:
            continue
        kind, what = told
        if kind == "stdin" and isinstance(what, str):
            await seat.program.type(what)
        elif kind == "resize" and isinstance(what, dict):
            size = {each: _within(what.get(each)) for each in ("width", "height")}
            await seat.program.tell(type="resize", **size)
        elif kind in ("focus", "blur"):
            await seat.program.tell(type=kind)


def _told(text: str) -> tuple[str, Any] | None:
    """A message as textual-serve's page writes it: a kind, and what goes with it."""
    try:
        match json.loads(text):
            case [str(kind), *rest]:
                return kind, rest[0] if rest else None
    except (ValueError, RecursionError):
        pass
    return None


def _cells(request: web.Request, name: str) -> int:
    told = request.query.get(name, "")
    return _within(int(told) if told.isdecimal() and len(told) < 5 else 0)


def _within(cells: object) -> int:
    """A number of columns or rows that a terminal can have."""
    return min(max(cells, SMALLEST), LARGEST) if isinstance(cells, int) else SMALLEST
