"""A whole setup from a numeric keypad alone: digits, + − . / * and Enter, gates included."""

from __future__ import annotations

import re
from typing import Any

import pyte
import pytest
from textual.app import App
from textual.events import Key

from guide.journal.store import Store
from guide.screens.widgets.field import ALONE as ALONE_ON_A_LINE

KEYPAD = {**{str(n): str(n) for n in range(10)}, "+": "plus", "-": "minus", ".": "full_stop",
          "/": "slash", "*": "asterisk", "\r": "enter"}  # fmt: skip
"""The keys there are, and what the terminal calls them."""
TOLD = {"body-length": "3.375 in", "nose-size": "unknown"}
"""Facts that the one at the lathe writes so that a keypad has the signs."""
ALONE, TAKEN = 0.31, 0.45
"""Seconds before and after a key that counts at a gate."""
BEHIND = ALONE_ON_A_LINE + 0.1
"""Seconds after which nothing came behind a number."""
PATIENCE = 24
"""Looks until a tile whose number was pressed is taken."""
SEEN = 20
"""Looks within which what keys did is drawn."""
STILL = 12
"""Looks after which a screen that is the same has hung."""


class Terminal:
    """A terminal that is told what the program paints, and nothing else."""

    def __init__(self) -> None:
        self.drawn = pyte.Screen(80, 24)
        self.stream = pyte.Stream(self.drawn)

    def paint(self, app: App[Any], _: Any, changes: Any) -> None:
        """What would be written to a terminal."""
        if changes is not None and app._running and not app._batch_count:
            self.stream.feed(changes.render_segments(app.console))

    async def shows(self, at: Any) -> None:
        """That every line of the page stands on it, and no older one, once all is painted."""
        for _ in range(SEEN):
            page, glass = ([line.rstrip() for line in each] for each in (at.lines, self.lines))
            if page == glass:
                return
            await at.pilot.pause(0.1)
        assert glass == page

    @property
    def lines(self) -> list[str]:
        """What is seen."""
        return list(self.drawn.display)


@pytest.fixture
def glass(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """A terminal that the program under test paints on."""
    terminal = Terminal()
    monkeypatch.setattr(App, "_display", lambda *told: terminal.paint(*told))
    return terminal


class Keypad:
    """Presses keys of a keypad by what is drawn on the screen, and touches nothing else."""

    def __init__(self, pointer: Any, reader: Any, glass: Any = None) -> None:
        self.screen, self.reader, self.glass = pointer, reader, glass
        self.pressed: list[str] = []

    @property
    def text(self) -> str:
        """What stands on the screen."""
        return self.screen.text

    async def press(self, signs: str) -> None:
        """Keys, one after the other."""
        before = self.text
        for sign in signs:
            self.pressed.append(sign)
            await self.screen.pilot.press(KEYPAD[sign])
        await self.screen.settle()
        for _ in range(SEEN):
            if self.text != before:
                break
            await self.screen.pilot.pause(0.02)
        await self.screen.settle()
        if self.glass:
            await self.glass.shows(self.screen)

    async def walk(self, most: int = 2500) -> None:
        """To the end."""
        last, same = "", 0
        for _ in range(most):
            if "Close this sheet" in self.text:
                return
            same = same + 1 if self.text == last else 0
            last = self.text
            assert same < STILL, last
            await self.page()
        raise AssertionError(self.text)

    async def page(self) -> None:
        """One thing that the screen asks for."""
        self.reader.chuck.look(self.text)
        here = self.reader.focused(self.screen.lines)
        if re.search(r"[○✓…] \d  ", self.text) and "⏎" not in self.text:
            await self.gate()
        elif here:
            await self.answer(here)
        else:
            await self.press("\r" if "⏎" in self.text else "+")

    async def gate(self) -> None:
        """The first check in sight that is open, by its number alone; else the page is turned."""
        found = re.search(r"○ (\d)  ", self.text)
        if not found:
            await self.press("+")
            return
        await self.screen.pilot.pause(ALONE)
        await self.press(found[1])
        await self.screen.pilot.pause(TAKEN)

    async def answer(self, here: list[str]) -> None:
        """A number for a tile, figures for a line."""
        kind, text = self.reader.answer(here)
        if kind == "choose":
            await self.press(text)
        elif kind == "scroll":
            await self.press("+")
        elif text == "unknown":
            await self.press(".\r")
        elif re.match(r"[-\d.]*$", text):
            await self.press(f"{text}\r")
        else:
            await self.words(here, text)

    async def words(self, here: list[str], text: str) -> None:
        """A tile with these words or the first one; a figure, then the tile of its unit."""
        figure = re.match(r"([-\d.]+) (\S+)$", text)
        if figure:
            await self.press(f"{figure[1]}\r")
            here, text = self.reader.focused(self.screen.lines), figure[2]
        tiles = [each for line in here for each in re.findall(r"○ (\d) (.*?)(?=\s\s|$)", line)]
        assert tiles, self.text
        number = next((n for n, words in tiles if words.strip() == text), tiles[0][0])
        await self.press(number)
        await self._goes_on(here[0])

    async def _goes_on(self, question: str) -> None:
        """A number that nothing comes behind is that of a tile a moment later."""
        await self.screen.pilot.pause(BEHIND)
        for _ in range(PATIENCE):
            if self.reader.focused(self.screen.lines)[:1] != [question]:
                return
            await self.screen.pilot.pause(ALONE / 4)


@pytest.mark.long
async def test_a_chuck_is_trued_to_its_end_by_keypad(
    opened, pointer, reader, trued, tmp_path, glass
) -> None:
    """Names, facts, gates, readings, corrections, torque, verdicts and signature: sixteen keys.

    After each key a terminal that was told only what changed shows the page and nothing old.
    """
    one = reader("adjustable-chuck")
    one.told |= TOLD
    async with opened(pointer) as at:
        hands = Keypad(at, one, glass)
        await at.until("Begin at the lathe")
        await at.settle()
        await hands.press("2")
        await at.until("Your name")
        await at.settle()
        await hands.walk()
        assert "Finished" in at.text
    assert {*hands.pressed} <= {*KEYPAD}
    with Store.read(tmp_path / "journal.sqlite3") as store:
        (told,) = store.setups()
    assert told.opened_by == "Person 1"
    trued(tmp_path, "Person 1")


async def test_words_typed_at_once_on_the_row_of_usual_answers_all_reach_the_line(
    opened, pointer
) -> None:
    """A hand that writes a name without looking for the line loses none of its letters."""
    async with opened(pointer) as at:
        await at.until("Begin at the lathe")
        await at.settle()
        await at.pilot.press("2")
        await at.until("Your name")
        await at.settle()
        for each in "A. Sample 2":
            at.app.post_message(Key({" ": "space", ".": "full_stop"}.get(each, each), each))
        await at.until("A. Sample 2")
