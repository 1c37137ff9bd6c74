"""Every request passes here: whose page asks, by which name, with which cookie; else one sentence.

A page of another host can make a browser ask this server (by a name of its own that it points
here, or by a script): Host and Origin show that. A socket tells its origin always (RFC 6455, 4.1).
"""

from __future__ import annotations

import sys

from aiohttp import web
from aiohttp.typedefs import Handler, Middleware

from guide.plain import N_
from guide.serve.link import KEY, Link
from guide.serve.page import ENTER, sentence_page
from guide.serve.seats import Seat, Seats

SOCKET = "/socket"
HEADERS = {
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
    "Server": "spindleside",
}
POLICY = (
    "default-src 'self'; connect-src 'self' ws://{host}; style-src 'self' 'unsafe-inline';"
    " img-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'none';"
    " frame-ancestors 'none'"
)
"""The terminal on the page writes style sheets of its own; no script runs but the server's."""

OTHER_NAME = N_("This server is not asked by that name: open the link that it printed.")
OTHER_PAGE = N_("Another page asked for this, and it is refused.")
NO_KEY = N_("This address alone opens nothing: open the whole link that was printed.")
OLD_KEY = N_("This link is wrong or of an earlier run: open the one that is printed now.")
NOTHING_HERE = N_("There is nothing here.")
TROUBLE = N_("Something went wrong here; what was confirmed before is kept.")


class Refused(Exception):
    """A request that is not answered, with its sentence."""

    def __init__(self, sentence: str, status: int = 403) -> None:
        super().__init__(sentence)
        self.sentence, self.status = sentence, status


class Guard:
    """What has to hold for every request of one run."""

    def __init__(self, link: Link, seats: Seats) -> None:
        self.link, self.seats = link, seats
        self.language = seats.settings.language
        near = [f"localhost:{link.port}"] if link.address.is_loopback else []
        self.hosts = {link.host, *near}
        self.cookie = f"spindleside-{link.port}"
        """Cookies do not tell ports apart (RFC 6265, 8.5): a second run has its own."""

    def middleware(self) -> Middleware:
        """The guard as aiohttp takes it."""

        @web.middleware
        async def guarded(request: web.Request, handler: Handler) -> web.StreamResponse:
            try:
                return await self._answered(request, handler)
            except Refused as refused:
                return self._refusal(refused)
            except web.HTTPException as error:
                return self._refusal(Refused(NOTHING_HERE, error.status))
            except Exception as error:
                print(f"spindleside: {_where(error)}", file=sys.stderr)
                return self._refusal(Refused(TROUBLE, 500))

        return guarded

    def seat_of(self, request: web.Request) -> Seat | None:
        """Whose request it is, by its cookie."""
        return self.seats.of(request.cookies.get(self.cookie, ""))

    async def dress(self, request: web.Request, response: web.StreamResponse) -> None:
        """Put the headers on every answer, whoever made it."""
        for name, value in self.headers(request.host).items():
            response.headers[name] = value

    def headers(self, host: str) -> dict[str, str]:
        """What every answer says to the browser."""
        known = host if host in self.hosts else self.link.host
        return HEADERS | {"Content-Security-Policy": POLICY.format(host=known)}

    async def _answered(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        self._names(request)
        seat = self.seat_of(request)
        if request.path == "/" and KEY in request.query:
            return self._enter(request, seat)
        if seat is None:
            raise Refused(OLD_KEY if self.cookie in request.cookies else NO_KEY)
        return await handler(request)

    def _names(self, request: web.Request) -> None:
        """Asked by this server's name, and by a page of it or by none."""
        hosts, origins = request.headers.getall("Host", []), request.headers.getall("Origin", [])
        if len(hosts) != 1 or hosts[0].lower() not in self.hosts:
            raise Refused(OTHER_NAME)
        own = [f"http://{hosts[0].lower()}"]
        if origins != own and (origins or request.path == SOCKET):
            raise Refused(OTHER_PAGE)

    def _enter(self, request: web.Request, seat: Seat | None) -> web.Response:
        """The link's key for a cookie; a browser that has one keeps it, and comes back to its seat.

        The page that is answered goes on to the bare address by itself: a redirect that began at
        another site would not carry a strict cookie.
        """
        if not self.link.opens(request.query[KEY]):
            raise Refused(OLD_KEY)
        cookie = (seat or self.seats.new()).cookie
        response = web.Response(text=ENTER, content_type="text/html", charset="utf-8")
        response.set_cookie(self.cookie, cookie, httponly=True, samesite="Strict", path="/")
        return response

    def _refusal(self, refused: Refused) -> web.Response:
        page = sentence_page(refused.sentence, self.language)
        return web.Response(
            text=page, status=refused.status, content_type="text/html", charset="utf-8"
        )


def _where(error: Exception) -> str:
    """What kind of error and where: never its text, in which a key or a PIN could stand."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    line = f"{trace.tb_frame.f_code.co_filename}:{trace.tb_lineno}" if trace else "?"
    return f"{type(error).__name__} at {line}"
