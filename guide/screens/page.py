"""What every page beside the setup sheet has: its name above, its part, tiles at the foot."""

from __future__ import annotations

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Grid, VerticalScroll
from textual.widgets import Static

from guide.plain import N_
from guide.screens.glass import Glass, Told
from guide.screens.messages import Complaint, Picked
from guide.screens.onward import move
from guide.screens.tongue import say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.notice import Notice
from guide.screens.widgets.press import Press

Offer = tuple[str, str]
"""A tile's name and label."""
TILE = 38
"""Columns that a tile of a grid has at least."""
MORE = N_("▼ more below: +")


class TileGrid(Grid):
    """Tiles side by side, as many as have room, all of a row as tall as the tallest."""

    DEFAULT_CSS = """
    TileGrid { height: auto; grid-rows: auto; grid-gutter: 0 1; grid-size: 1; }
    TileGrid Press { height: 100%; }
    """

    def __init__(self, *tiles: Press, least: int = TILE) -> None:
        super().__init__(*tiles)
        self.least = least
        """Columns that a tile has at least."""

    def on_resize(self, event: events.Resize) -> None:
        """As many columns as fit, no more than there are tiles."""
        fit = max(event.size.width // self.least, 1)
        self.styles.grid_size_columns = max(min(fit, len(self.children)), 1)


def heading(words: str) -> Static:
    """A line above tiles that belong together."""
    return Static(words, classes="section", markup=False)


def quiet(words: str) -> Static:
    """Words that are read second."""
    return Static(words, classes="quiet", markup=False)


class Page(Glass[Told]):
    """A page to read and to press; `body` is its own part."""

    DEFAULT_CSS = """
    Page #title { height: auto; max-height: 4; padding: 0 2; text-style: bold; color: $accent;
        background: $panel; }
    Page #rows { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
    Page #more { height: 1; color: $accent; padding: 0 2; visibility: hidden; }
    Page #more.below { visibility: visible; }
    Page #complaint { height: auto; max-height: 3; color: $error; padding: 0 2; }
    Page .section { color: $accent; text-style: bold; margin: 1 0 0 0; padding: 0 1; }
    Page .quiet, Page .empty { color: $quiet; padding: 0 1; height: auto; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,f10", "back", show=False),
        Binding("f1,question_mark", "help", show=False),
        Binding("asterisk", "star", show=False),
        Binding("plus", "move(1)", show=False),
        Binding("minus", "move(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("down", "read_on(2)", show=False),
        Binding("up", "read_on(-2)", show=False),
    ]
    title_text = ""

    def compose(self) -> ComposeResult:
        """Name, part, what is below, notice, complaint, tiles."""
        yield Static(self.title_line(), id="title", markup=False)
        yield from self.above()
        with VerticalScroll(id="rows", can_focus=False):
            yield from self.body()
        yield Static(say(MORE), id="more", markup=False)
        yield Notice()
        yield Static("", id="complaint", markup=False)
        yield from self.below()
        yield ActionBar(self.foot())

    def title_line(self) -> str:
        """What stands at the top."""
        return say(self.title_text)

    def above(self) -> ComposeResult:
        """What stays between the name and the page's part."""
        yield from ()

    def body(self) -> ComposeResult:
        """The page's own part."""
        yield from ()

    def below(self) -> ComposeResult:
        """What stays between the page's part and the tiles."""
        yield from ()

    def foot(self) -> tuple[Offer, ...]:
        """The tiles at the foot, the way back last."""
        return (("back", say(N_("Back   *"))),)

    def on_screen_resume(self) -> None:
        """What is below the fold is said from the first look on."""
        rows = self.query_one("#rows")
        for name in ("scroll_y", "virtual_size"):
            self.watch(rows, name, self._look_below)

    def _look_below(self) -> None:
        """Once it is laid out."""
        self.call_after_refresh(self._tell_below)

    def _tell_below(self) -> None:
        """Say that the page goes on below, while it does; a page that was left has nothing left."""
        for rows in self.query("#rows"):
            self.query("#more").set_class(rows.scroll_y < rows.max_scroll_y, "below")

    def complain(self, sentence: str) -> None:
        """One sentence in the line for it; blank takes it away."""
        line = self.query_one("#complaint", Static)
        line.update(f"✗ {sentence}" if sentence else "")

    @on(Complaint)
    def _complaint(self, event: Complaint) -> None:
        """A question says what it does not take."""
        event.stop()
        self.complain(event.sentence)

    def on_key(self, event: events.Key) -> None:
        """A number presses its tile."""
        tiles = list(self.query("#rows Press").results(Press))
        if event.key.isdecimal() and 1 <= int(event.key) <= len(tiles):
            tiles[int(event.key) - 1].action_press()

    @on(Picked)
    async def _pressed(self, event: Picked) -> None:
        """A tile was pressed."""
        event.stop()
        if event.name == "back":
            self.action_back()
        else:
            await self.picked(event.name)

    async def picked(self, name: str) -> None:
        """What a tile of the page does."""

    def action_help(self) -> None:
        """Explain the words that stand here."""
        from guide.screens.modals.help import HelpScreen
        from guide.screens.said_here import said_here

        self.app.push_screen(HelpScreen((), said_here(self)))

    def action_star(self) -> None:
        """The way back, from a numeric keypad."""
        self.action_back()

    def action_back(self) -> None:
        """Leave the page."""
        self.dismiss(None)

    def action_move(self, way: int) -> None:
        """To the next tile, or the one before."""
        move(self, self, way)

    def action_page(self, way: int) -> None:
        """A page on or back."""
        rows = self.query_one("#rows")
        rows.scroll_relative(y=way * max(rows.size.height - 2, 1), animate=False)

    def action_read_on(self, lines: int) -> None:
        """Some lines on or back."""
        self.query_one("#rows").scroll_relative(y=lines, animate=False)


def numbered(place: int, words: str) -> str:
    """A tile's words behind the number of its key, from 1; without one where no key has it."""
    return f"{place}  {words}" if place < 10 else words
