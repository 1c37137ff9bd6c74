"""One run of the server, from its socket to the end of its last program."""

from __future__ import annotations

import asyncio
import errno
import logging
import signal
import socket
from collections.abc import Callable
from contextlib import suppress
from ipaddress import IPv4Address, IPv6Address

from aiohttp import web

from guide.plain import N_, BadInput
from guide.serve.link import Link
from guide.serve.seats import AWAY, Seats
from guide.serve.site import site
from guide.settings import Settings

ENDS = (signal.SIGINT, signal.SIGTERM)
LINGER = 2.0
"""Seconds for open pages to be told that the server ends."""


def serve(
    settings: Settings,
    address: IPv4Address | IPv6Address,
    port: int,
    opened: Callable[[Link], None],
    *,
    away: float = AWAY,
) -> None:
    """Serve until Ctrl+C; `opened` is told the link. Port 0 is any free one, `away` as in `Seats`.

    Raises BadInput where nothing can be served at that address and port.
    """
    with _bound(address, port) as listening:
        link = Link(address, listening.getsockname()[1])
        asyncio.run(_run(link, Seats(settings, away), listening, opened))


def _bound(address: IPv4Address | IPv6Address, port: int) -> socket.socket:
    """A socket at the address, or why there is none."""
    family = socket.AF_INET6 if address.version == 6 else socket.AF_INET
    listening = socket.socket(family, socket.SOCK_STREAM)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((str(address), port))
        listening.listen(128)
    except OSError as error:
        listening.close()
        raise _not_bound(error, address, port) from error
    listening.setblocking(False)
    return listening


def _not_bound(error: OSError, address: object, port: int) -> BadInput:
    if error.errno == errno.EADDRINUSE:
        what, then = N_("Port {port} is in use already."), N_("Give another --port, or none.")
    elif error.errno == errno.EADDRNOTAVAIL:
        what = N_("{address} is not an address of this machine.")
        then = N_("Give one that it has.")
    else:
        what = N_("Nothing can be served at {address}, port {port}: {why}.")
        then = N_("Give another --port, or none.")
    return BadInput(what, then, address=address, port=port, why=error.strerror)


async def _run(
    link: Link, seats: Seats, listening: socket.socket, opened: Callable[[Link], None]
) -> None:
    """Nothing is logged of what pages ask: a line of it could hold the secret."""
    runner = web.AppRunner(
        site(link, seats), access_log=None, logger=_silent(), shutdown_timeout=LINGER
    )
    await runner.setup()
    ended = asyncio.Event()
    for each in ENDS:
        with suppress(NotImplementedError):  # Windows: Ctrl+C is an exception there
            asyncio.get_running_loop().add_signal_handler(each, ended.set)
    try:
        await web.SockSite(runner, listening).start()
        opened(link)
        await ended.wait()
    finally:
        await seats.close()
        await runner.cleanup()


def _silent() -> logging.Logger:
    """A log that keeps nothing."""
    log = logging.getLogger("guide.serve")
    log.disabled = True
    return log
