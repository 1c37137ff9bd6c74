"""One running program: bytes to it, bytes from it, and its end. It never outlives its server."""

from __future__ import annotations

import asyncio
import json
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Awaitable, Callable
from contextlib import suppress

from guide.screens.served import AT_SETUP
from guide.serve.handing_over import Handover

READY = b"__GANGLION__\n"
"""The line after which Textual's web driver speaks in packets: a letter, four bytes, so many."""
PATIENCE = 4.0
"""Seconds for a program to end by itself."""
CUT_SHORT = (asyncio.IncompleteReadError, asyncio.LimitOverrunError)
DRAWN, TOLD = b"D", b"M"
Drawn = Callable[[bytes], Awaitable[None]]


class Running:
    """The program of one page."""

    def __init__(self, process: Process, setup: str, drawn: Drawn) -> None:
        self.setup = setup
        """The setup that is open in it, or that it was told to open."""
        self._leaving, self._closed = False, False
        self._process, self._drawn = process, drawn
        self.end = asyncio.create_task(self._read())
        """Done once the process is gone."""

    @classmethod
    async def start(cls, told: Handover, drawn: Drawn) -> Running:
        """A new process; what it draws goes to `drawn`. Its secret goes through the pipe alone."""
        process = await asyncio.create_subprocess_exec(
            sys.executable, "-P", "-m", "guide.serve.program", told.digest,
            stdin=PIPE, stdout=PIPE, env=environment(), start_new_session=True,
        )  # fmt: skip
        running = cls(process, told.setup, drawn)
        running._write(told.line)
        return running

    @property
    def left(self) -> bool:
        """Whether a person closed it, in distinction from a program that fell or was ended."""
        return self._closed and self._process.returncode == 0 and not self._leaving

    async def type(self, text: str) -> None:
        """Keys, presses and pasted text, as the page sends them."""
        await self._send(DRAWN, text.encode(errors="replace"))

    async def tell(self, **told: object) -> None:
        """Something about the page: its size, its focus."""
        await self._send(TOLD, json.dumps(told).encode())

    async def quit(self) -> None:
        """Ask it to close, and make sure that it does."""
        self._leaving = True
        try:
            async with asyncio.timeout(PATIENCE):
                await self.tell(type="quit")
                await asyncio.shield(self.end)
        except TimeoutError:
            self.kill()
            await self.end

    def kill(self) -> None:
        """End it at once; what was acknowledged is in the journal."""
        if self._process.returncode is None:
            self._process.kill()

    async def _send(self, kind: bytes, payload: bytes) -> None:
        self._write(packet(kind, payload))
        if self._process.stdin is not None:
            try:
                await self._process.stdin.drain()
            except ConnectionError:
                return

    def _write(self, data: bytes) -> None:
        stdin = self._process.stdin
        if stdin is not None and not stdin.is_closing():
            stdin.write(data)

    async def _read(self) -> None:
        """Until it ends: a packet cut short is its end."""
        assert self._process.stdout is not None
        try:
            await self._process.stdout.readuntil(READY)
            while True:
                await self._packet(self._process.stdout)
        except (*CUT_SHORT, ConnectionError, ValueError):
            pass
        finally:
            await self._gone()

    async def _gone(self) -> None:
        """Until it has ended: one that said it closes has time to, any other has none."""
        if self._closed:
            with suppress(TimeoutError):
                async with asyncio.timeout(PATIENCE):
                    await self._process.wait()
        self.kill()
        await self._process.wait()

    async def _packet(self, stdout: asyncio.StreamReader) -> None:
        head = await stdout.readexactly(5)
        payload = await stdout.readexactly(int.from_bytes(head[1:], "big"))
        if head[:1] == DRAWN:
            await self._drawn(payload)
        elif head[:1] == TOLD:
            self._heard(json.loads(payload))

    def _heard(self, told: dict[str, object]) -> None:
        """Which setup is open; one that is closed because the page is gone is come back to."""
        if told.get("type") == AT_SETUP and not self._leaving:
            self.setup = str(told.get("setup", ""))
        elif told.get("type") == "exit":
            self._closed = True


def packet(kind: bytes, payload: bytes) -> bytes:
    """A packet as Textual's web driver reads it."""
    return kind + len(payload).to_bytes(4, "big") + payload


def environment() -> dict[str, str]:
    """The server's own, in all colours, without what would make Textual log keys."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith("TEXTUAL")}
    return kept | {"TEXTUAL_COLOR_SYSTEM": "truecolor"}
