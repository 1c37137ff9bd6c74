"""The server as a process of its own, and a page of it as a terminal that is read and typed at."""

from __future__ import annotations

import asyncio
import json
import os
import re
import signal
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import aiohttp
import pyte

import guide
from guide.journal.store import Store
from guide.people.people import People
from guide.people.rules import Rules
from guide.procedure.shelf import find
from guide.rehearse import give, read_answers
from guide.walk.setup import open_setup
from guide.walk.world import UNKNOWN

TOP = Path(guide.__file__).parents[1]
COMMAND = "from guide.cli.main import run; run(['serve', *{arguments!r}])"
SHORT = """
from guide.settings import from_environment
from guide.serve.link import one_address
from guide.serve.serving import serve
serve(from_environment(), one_address("127.0.0.1"), 0, lambda link: print(link.url, flush=True),
      away={away})
"""
COLUMNS, ROWS = 80, 24
QUIET = 0.45
"""Seconds after which Enter is not taken for the end of what an instrument types."""
ANSWERS = {"▸ How does the chuck": "2", "▸ Which size": "D1-6\r", "▸ Is a chuck guard": "1"}
"""What is asked on the first page of a removal."""
NEXT = "what is on the nose"
AT = "2026-01-31T07:{:02}:00.000Z"
START = "Begin at the lathe"
PATIENCE = 20.0
"""Seconds in which something that has to come does come, on a busy machine too."""


def alone(home: Path) -> None:
    """Settle in a journal that nobody signs on."""
    with Store(home / "journal.sqlite3") as store:
        People(store).set_rules("A. Sample", Rules(sign_on=False), AT.format(0))


def at_work(home: Path) -> list[str]:
    """A removal in which something is known of the machine already; gives its events so far."""
    answers = read_answers(TOP / "tests" / "answers" / "chuck-removal-inch.yaml")
    with Store(home / "journal.sqlite3") as store:
        asked = {"setup": "at-work", "person": "A. Sample", "lathe": answers.lathe}
        walk = open_setup(store, find("chuck-removal"), at=AT.format(0), **asked)
        for number, each in enumerate(answers.answers, start=1):
            if walk.state.world != UNKNOWN:
                break
            give(walk, replace(each, person="A. Sample"), AT.format(number))
        return [each.kind for each in store.events("at-work")]


class Server:
    """`spindleside serve` in a process of its own, on a journal in a folder."""

    def __init__(
        self, home: Path, *arguments: str, away: float | None = None, before: Path | None = None
    ) -> None:
        """`away` as `serve` takes it; in `before` lies a `sitecustomize` for all its processes."""
        self.home = home
        script = SHORT.format(away=away) if away else COMMAND.format(arguments=arguments)
        env = {**os.environ, "SPINDLESIDE_HOME": str(home), "PYTHONPATH": str(TOP)}
        env |= {"PYTHONPATH": f"{before}{os.pathsep}{TOP}"} if before else {}
        env |= {"TEXTUAL_LOG": str(home / "log.txt"), "TEXTUAL": "debug"}
        self.process = subprocess.Popen(
            [sys.executable, "-c", script], env=env, text=True, bufsize=1,
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        )  # fmt: skip
        self.said: list[str] = []
        self.url = self._url()
        self.base = self.url.split("/?")[0]

    def _url(self) -> str:
        """The link, once it is printed."""
        assert self.process.stdout
        for line in self.process.stdout:
            self.said.append(line.rstrip("\n"))
            if "http://" in line:
                return line.strip()
        raise AssertionError(self.said)

    @property
    def programs(self) -> list[int]:
        """The processes that it has started."""
        listed = Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children")
        return [int(each) for each in listed.read_text().split()] if listed.exists() else []

    def kill(self) -> None:
        """As a power cut would."""
        self.process.kill()
        self.process.wait()

    def end(self) -> tuple[int, list[str]]:
        """As Ctrl+C does; its exit code and everything that it said."""
        self.process.send_signal(signal.SIGINT)
        assert self.process.stdout
        self.said += self.process.stdout.read().splitlines()
        return self.process.wait(PATIENCE), self.said

    def close(self) -> None:
        """Gone, whatever it was doing."""
        if self.process.poll() is None:
            self.kill()
        if self.process.stdout:
            self.process.stdout.close()

    def events(self) -> list[str]:
        """The kinds of all events of its one setup, in order."""
        with Store.read(self.home / "journal.sqlite3") as store:
            names = store.names()
            return [each.kind for each in store.events(names[0])] if names else []


def gone(process: int) -> bool:
    """Whether a process has ended, or ends within a time."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        state = Path(f"/proc/{process}/stat")
        with suppress(OSError):
            if state.read_text().rsplit(")", 1)[1].split()[0] != "Z":
                time.sleep(0.05)
                continue
        return True
    return False


def browser() -> aiohttp.ClientSession:
    """A browser without a page: it keeps cookies, for an address in numbers too."""
    return aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True))


class Page:
    """One page: what is drawn on it, and keys."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse) -> None:
        self.socket, self.screen = socket, pyte.Screen(COLUMNS, ROWS)
        self.stream = pyte.ByteStream(self.screen)
        self.code: int | None = None
        """Why the server closed it, once it did."""
        self.reading = asyncio.create_task(self._read())

    @classmethod
    async def of(cls, server: Server, client: aiohttp.ClientSession) -> Page:
        """The page of a browser that has its cookie."""
        url = f"{server.base}/socket?width={COLUMNS}&height={ROWS}"
        return cls(await client.ws_connect(url, headers={"Origin": server.base}))

    @classmethod
    async def opened(cls, server: Server, client: aiohttp.ClientSession) -> Page:
        """The page of a browser that opens the link."""
        async with client.get(server.url) as answer:
            assert answer.status == 200, await answer.text()
        return await cls.of(server, client)

    async def _read(self) -> None:
        async for message in self.socket:
            if message.type == aiohttp.WSMsgType.BINARY:
                self.stream.feed(message.data)
        self.code = self.socket.close_code

    @property
    def text(self) -> str:
        """What stands on it."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    async def until(self, words: str) -> None:
        """Wait for words."""
        end = time.monotonic() + PATIENCE
        while not re.search(words, self.text):
            assert time.monotonic() < end, f"no “{words}” ({self.code}) in\n{self.text}"
            await asyncio.sleep(0.02)

    async def closed(self) -> int | None:
        """Wait for the server to close it; why it did."""
        await asyncio.wait_for(self.reading, PATIENCE)
        return self.code

    async def type(self, keys: str) -> None:
        """Keys, as the page sends them."""
        await self.socket.send_str(json.dumps(["stdin", keys]))

    async def in_mid_setup(self) -> None:
        """A new removal by keys, as far as its first answer that is in the journal."""
        await self.until(START)
        await self.type("4")
        await self.until("Begin another procedure")
        await self.type("3")
        await self.until("▸ Your name")
        await self.type("A. Sample\r")
        await self.until("▸ Which lathe")
        await self.type("Lathe 2 (invented)\r")
        await asyncio.sleep(QUIET)
        await self.type("\r")
        for question, keys in ANSWERS.items():
            await self.until(question)
            await self.type(keys)
        await asyncio.sleep(QUIET)
        await self.type("\r")
        await self.until(NEXT)
