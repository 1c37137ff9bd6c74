"""A tablet: a browser without a window, touched and looked at through the DevTools protocol.

It knows nothing of the program but what stands on the page's terminal.
"""

from __future__ import annotations

import asyncio
import base64
import os
import re
import shutil
import signal
import subprocess
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from itertools import count
from pathlib import Path
from typing import Any

import aiohttp

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
WIDTH, HEIGHT = 1024, 768
FLAGS = (
    "--headless=new", "--remote-debugging-port=0", "--no-first-run", "--no-default-browser-check",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--disable-extensions", "--disable-gpu", "--mute-audio", "--hide-scrollbars",
    "--disable-dev-shm-usage", "--no-proxy-server",
)  # fmt: skip
ALONE = "--no-sandbox"
"""What Chromium wants where it is run as root, as in a container."""
STILL = 0.15
"""Seconds without a change after which a finger finds what the eye saw."""
TRIES = 20
KEEP = """
Object.defineProperty(Object.prototype, "fitAddon", {
  configurable: true,
  set(value) {
    Object.defineProperty(this, "fitAddon", { value, writable: true });
    window.seen = this.terminal;
    window.page = this;
  },
});
"""
"""Keeps the page's terminal in reach, which draws on a canvas that nobody can read."""
ROWS = """
(() => {
  const lines = window.seen?.buffer.active;
  if (!lines) return [];
  return [...Array(window.seen.rows).keys()].map((n) => lines.getLine(n).translateToString());
})()
"""
SAID = "document.body?.innerText ?? ''"
PLACE = """
(() => {
  const box = document.querySelector(".xterm-screen").getBoundingClientRect();
  return [box.x, box.y, box.width / window.seen.cols, box.height / window.seen.rows];
})()
"""


class BetweenPages(Exception):
    """The browser did not do it: most often one page is gone and the next is not there yet."""


class Tablet:
    """One page of the browser."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse) -> None:
        self.requests: list[str] = []
        """Every address that the page asked for, sockets included, as the browser saw it."""
        self.trouble: list[str] = []
        """What the page's console complained of."""
        self._socket, self._numbers, self._session = socket, count(1), ""
        self._answers: dict[int, asyncio.Future[dict[str, Any]]] = {}
        self._listening = asyncio.create_task(self._listen())

    async def open(self, url: str) -> None:
        """Go to an address."""
        await self.ask("Page.navigate", url=url)

    async def begin(self) -> None:
        """A page of a tablet's size that is touched; its requests are noted from the first on."""
        fresh = await self.ask("Target.createBrowserContext", disposeOnDetach=True)
        page = await self.ask("Target.createTarget", url="about:blank", **fresh)
        told = await self.ask("Target.attachToTarget", targetId=page["targetId"], flatten=True)
        self._session = str(told["sessionId"])
        for each in ("Page", "Network", "Runtime", "Log"):
            await self.ask(f"{each}.enable")
        await self.ask("Page.addScriptToEvaluateOnNewDocument", source=KEEP)
        size = {"width": WIDTH, "height": HEIGHT, "deviceScaleFactor": 1, "mobile": True}
        await self.ask("Emulation.setDeviceMetricsOverride", **size)
        await self.ask("Emulation.setTouchEmulationEnabled", enabled=True, maxTouchPoints=1)

    async def rows(self) -> list[str]:
        """The lines of the page's terminal."""
        told: list[str] = await self.run(ROWS)
        return [each.rstrip() for each in told]

    async def until(self, words: str, seconds: float = 15) -> list[str]:
        """Wait for words on the terminal; gives its lines."""
        end = asyncio.get_running_loop().time() + seconds
        while True:
            lines = await self.rows()
            if any(re.search(words, each) for each in lines):
                return lines
            shown = "\n".join(lines) or await self.run(SAID)
            assert asyncio.get_running_loop().time() < end, f"no “{words}” in\n{shown}"
            await asyncio.sleep(0.05)

    async def still(self, words: str) -> list[str]:
        """Wait for words on a terminal that nothing is drawn on any more; gives its lines."""
        before: list[str] = []
        while (lines := await self.until(words)) != before:
            before = lines
            await asyncio.sleep(STILL)
        return lines

    async def says(self, words: str, seconds: float = 15) -> None:
        """Wait for words that the page says in place of its terminal."""
        end = asyncio.get_running_loop().time() + seconds
        while words not in (said := await self.run(SAID)):
            assert asyncio.get_running_loop().time() < end, f"no “{words}” in\n{said}"
            await asyncio.sleep(0.05)

    async def open_again(self, words: str) -> None:
        """Wait for words in place of the terminal, and touch the page's button below them."""
        await self.says(words)
        box = "document.getElementById('here').getBoundingClientRect()"
        x, y = await self.run(f"[{box}.x + {box}.width / 2, {box}.y + {box}.height / 2]")
        await self.press(x, y)

    async def cookies(self, url: str) -> dict[str, str]:
        """What the browser would send to an address, hidden from scripts or not."""
        told = await self.ask("Network.getCookies", urls=[url])
        return {each["name"]: each["value"] for each in told["cookies"]}

    async def touch(self, words: str, last: bool = False, below: int = 0) -> None:
        """Touch the first place where words stand, or the last one, or some lines below it."""
        lines = await self.still(words)
        found = [
            (column.start(), row)
            for row, each in enumerate(lines)
            for column in re.finditer(words, each)
        ]
        column, row = found[-1 if last else 0]
        await self.touch_at(column + 1, row + below)

    async def touch_at(self, column: int, row: int) -> None:
        """Touch the middle of a sign of the terminal."""
        x, y, width, height = await self.run(PLACE)
        await self.press(x + (column + 0.5) * width, y + (row + 0.5) * height)

    async def press(self, x: float, y: float) -> None:
        """One finger, down and up again, at a place of the page in CSS pixels."""
        finger = [{"x": x, "y": y}]
        await self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=finger)
        await asyncio.sleep(0.06)
        await self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    async def drag(self, upward: float) -> None:
        """A finger that moves up the middle of the page by so many CSS pixels, in steps."""
        x, start, steps = WIDTH / 2, HEIGHT * (0.7 if upward > 0 else 0.3), 12
        for number in range(steps + 1):
            point = [{"x": x, "y": start - upward * number / steps}]
            kind = "touchMove" if number else "touchStart"
            await self.ask("Input.dispatchTouchEvent", type=kind, touchPoints=point)
        await self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])

    async def type(self, text: str) -> None:
        """Text from the tablet's keyboard."""
        await self.ask("Input.insertText", text=text)

    async def rub_out(self, times: int) -> None:
        """The tablet's key that takes a character back, so many times."""
        key = {"key": "Backspace", "code": "Backspace", "windowsVirtualKeyCode": 8}
        for kind in ("keyDown", "keyUp") * times:
            await self.ask("Input.dispatchKeyEvent", type=kind, **key)

    async def screenshot(self, file: Path) -> None:
        """What is seen, as a PNG."""
        told = await self.ask("Page.captureScreenshot", format="png")
        file.write_bytes(base64.b64decode(told["data"]))

    async def run(self, script: str) -> Any:
        """What a script on the page comes to."""
        for _ in range(TRIES):
            with suppress(BetweenPages):
                told = await self.ask("Runtime.evaluate", expression=script, returnByValue=True)
                assert "exceptionDetails" not in told, told
                return told["result"].get("value")
            await asyncio.sleep(STILL)
        raise BetweenPages(script)

    async def ask(self, method: str, **parameters: object) -> dict[str, Any]:
        """One command of the protocol and its answer."""
        number = next(self._numbers)
        self._answers[number] = asyncio.get_running_loop().create_future()
        session = {"sessionId": self._session} if self._session else {}
        await self._socket.send_json(
            {"id": number, "method": method, "params": parameters, **session}
        )
        answer = await asyncio.wait_for(self._answers[number], 20)
        del self._answers[number]
        if "error" in answer:
            raise BetweenPages(method, answer["error"])
        result: dict[str, Any] = answer["result"]
        return result

    async def _listen(self) -> None:
        async for message in self._socket:
            told = message.json()
            if told.get("id") in self._answers:
                self._answers[told["id"]].set_result(told)
            elif "method" in told:
                self._note(told["method"], told["params"])

    def _note(self, method: str, told: dict[str, Any]) -> None:
        if method == "Network.requestWillBeSent":
            self.requests.append(told["request"]["url"])
        elif method == "Network.webSocketCreated":
            self.requests.append(told["url"])
        elif method == "Log.entryAdded":
            self.trouble.append(told["entry"]["text"])
        elif method == "Runtime.exceptionThrown":
            self.trouble.append(str(told["exceptionDetails"]))


class Browser:
    """Chromium without a window; each page of it is as new, with no cookie of another."""

    def __init__(self, profile: Path) -> None:
        assert CHROMIUM, "there is no Chromium to look at the page with"
        as_root = (ALONE,) if os.geteuid() == 0 else ()
        self.process = subprocess.Popen(
            [CHROMIUM, *FLAGS, *as_root, f"--user-data-dir={profile}", "about:blank"],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
            start_new_session=True,
        )  # fmt: skip
        self.url = self._devtools()

    def _devtools(self) -> str:
        """Where it listens, as it says on standard error."""
        assert self.process.stderr
        for line in self.process.stderr:
            if found := re.search(rb"DevTools listening on (ws://\S+)", line):
                return found[1].decode()
        raise AssertionError("the browser did not start")

    @asynccontextmanager
    async def tablet(self) -> AsyncIterator[Tablet]:
        """A page of a tablet's size, gone afterwards."""
        async with (
            aiohttp.ClientSession() as client,
            client.ws_connect(self.url, max_msg_size=2**26) as socket,
        ):
            page = Tablet(socket)
            await page.begin()
            yield page

    def close(self) -> None:
        """Gone, with every process of its own."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()
        if self.process.stderr:
            self.process.stderr.close()
