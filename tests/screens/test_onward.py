"""Plus and minus read a page to both its ends before they leave it, question or not."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual.app import App, ComposeResult
from textual.containers import VerticalScroll
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Static

from guide.screens.onward import WAYS, move
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.press import Press

LINES = 40
"""Lines above the question and below it: more than are in sight at once."""


class Paged(Screen[None]):
    """Words, a question between them, and a key below the page."""

    def compose(self) -> ComposeResult:
        """One question and one key."""
        with VerticalScroll(can_focus=False):
            yield Static("\n".join(map(str, range(LINES))))
            yield Choices("said", "What is decided?", [("yes", "yes"), ("no", "no")])
            yield Static("\n".join(map(str, range(LINES))))
        yield Press("record", "Record this")

    @property
    def page(self) -> VerticalScroll:
        """What is read."""
        return self.query_one(VerticalScroll)

    def action_page(self, by: int) -> None:
        """A page on or back."""
        self.page.scroll_relative(y=by * (self.page.size.height - 2), animate=False)


class Pages(App[None]):
    """Only that page."""

    def on_mount(self) -> None:
        """Show it."""
        self.push_screen(Paged())


@asynccontextmanager
async def paged() -> AsyncIterator[tuple[Paged, Pilot[None]]]:
    """The page with the focus on its question, read from the top."""
    async with Pages().run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        screen = pilot.app.screen
        assert isinstance(screen, Paged)
        screen.query_one(Choices).focus(scroll_visible=False)
        await pilot.pause()
        yield screen, pilot


async def pressed(screen: Paged, pilot: Pilot[None], key: str) -> None:
    """One of the two keys."""
    move(screen, screen, WAYS[key])
    await pilot.pause()


async def test_plus_shows_all_that_lies_below_before_it_leaves_the_page() -> None:
    """The question is no end of the page: what lies below it comes, and the key only then."""
    async with paged() as (screen, pilot):
        for _ in range(20):
            if isinstance(screen.focused, Press):
                break
            await pressed(screen, pilot, "plus")
        assert isinstance(screen.focused, Press)
        assert screen.page.scroll_offset.y == screen.page.max_scroll_y > 0


async def test_minus_comes_back_to_the_top_of_the_page() -> None:
    """From the key below the page back to its first line."""
    async with paged() as (screen, pilot):
        screen.query_one(Press).focus()
        screen.page.scroll_end(animate=False)
        await pilot.pause()
        for _ in range(20):
            await pressed(screen, pilot, "minus")
            if not screen.page.scroll_offset.y:
                break
        assert screen.page.scroll_offset.y == 0
        assert isinstance(screen.focused, Choices)
