"""A whole setup on a tablet, by touch alone but for the texts that a hand writes."""

from __future__ import annotations

import re
from typing import Any

import pytest

UP = 260
"""CSS pixels that a finger moves to read on."""
MIDDRAWN = 20
"""Looks that may fall into a drawing."""
MOST = 2500
"""Touches after which it has hung."""


def finger(pointer: type[Any], tablet: Any) -> Any:
    """The pointer of the screens' tests, with a page of a browser in its place."""

    class Finger(pointer):  # type: ignore[misc]
        """Touches where words are seen; nothing of the program is in reach."""

        def __init__(self) -> None:
            self.now: list[str] = []
            self.clicks = self.unread = 0
            self.written = ("", "")

        @property
        def lines(self) -> list[str]:
            """What was seen last."""
            return self.now

        async def settle(self) -> None:
            """Until nothing is drawn any more."""
            self.now = await tablet.still("")

        async def until(self, words: str) -> None:
            """Wait for words."""
            await tablet.until(re.escape(words))
            await self.settle()

        async def click(self, pattern: str, below: int = 0) -> bool:
            """A touch on the first place that reads so, from a line on."""
            for row, line in enumerate(self.lines):
                found = re.search(pattern, line) if row >= below else None
                if found:
                    self.clicks += 1
                    await tablet.touch_at(found.start(), row)
                    await self.settle()
                    return True
            return False

        async def page(self, reader: Any) -> None:
            """One thing; what was seen in mid-draw asks nothing that is known, and is looked at
            again."""
            try:
                await super().page(reader)
            except (RuntimeError, StopIteration):
                self.unread += 1
                assert self.unread < MIDDRAWN, self.text
                await self.settle()

        async def wheel(self, times: int = 4) -> None:
            """A finger up the page, to read on."""
            await tablet.drag(upward=UP)
            await self.settle()

        async def passed(self, asked: str) -> None:
            """Until a question that was answered is asked no more: a tablet draws when it can."""
            for _ in range(MIDDRAWN):
                if asked not in self.lines or "✗" in self.text:
                    break
                await self.settle()

        async def write(self, asked: str, text: str) -> None:
            """A text on the line at hand, and what was written there before is rubbed out."""
            if self.written == (asked, text):
                await tablet.rub_out(len(text))
            self.written = asked, text
            await tablet.type(text)

        async def answer(self, kind: str, text: str, row: int) -> None:
            """A text is written by the tablet's keyboard, everything else is touched."""
            if kind == "type" and text != "unknown":
                asked = self.lines[row]
                await self.write(asked, text)
                await self.go_on()
                await self.passed(asked)
            else:
                await super().answer(kind, text, row)

    return Finger()


@pytest.mark.long
async def test_a_chuck_is_trued_to_its_end_by_touch(
    tablet: Any, server: Any, pointer: type[Any], reader: Any, trued: Any
) -> None:
    """Facts, gates, readings, corrections, torque, verdicts and signature on a page of `serve`."""
    one = reader("adjustable-chuck")
    await tablet.open(server.url)
    at = finger(pointer, tablet)
    await at.until("Begin at the lathe")
    await at.click("Mount an adjustable")
    await at.until("Your name")
    await at.walk(one, MOST)
    assert "Finished" in at.text
    server.close()
    trued(server.home)
