"""The start page: open setups to go on with, procedures to begin, finished records to read.

Only what the first picture needs is imported here; the journal and the procedures are read after
it has been painted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widgets import Static

from guide.plain import N_
from guide.screens.messages import Picked
from guide.screens.tongue import say
from guide.screens.widgets.press import Press

if TYPE_CHECKING:
    from guide.screens.app import Spindleside
    from guide.screens.shelf import Row

SOON = 0.02
"""Seconds after which the first picture has been painted."""
ABOUT = N_("Walk a lathe setup step by step, true a chuck, and know who did what.")


class StartPage(Screen[None]):
    """The first screen."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("q,escape,f10", "app.quit", "quit")]
    app: Spindleside

    def compose(self) -> ComposeResult:
        """Title, what this is, and where the rows will be."""
        yield Static("spindleside", id="title", markup=False)
        yield Static(say(ABOUT), id="about", markup=False)
        with VerticalScroll(id="rows", can_focus=False):
            yield Static(say(N_("Reading the journal …")), classes="empty", markup=False)
        yield Static("", id="complaint", markup=False)
        keys = N_("↑ ↓ choose   Enter or 1–9 open   q quit   or click a line")
        yield Static(say(keys), id="keys", markup=False)

    def on_mount(self) -> None:
        """Read the journal once the first picture is there."""
        self.set_timer(SOON, self.fill)

    async def fill(self) -> None:
        """All rows afresh."""
        from guide.screens.shelf import sections

        rows = self.query_one("#rows")
        places = list(sections(self.app.settings))
        await rows.remove_children()
        number = 0
        for title, empty, listed in places:
            await rows.mount(Static(say(title), classes="section", markup=False))
            if not listed:
                await rows.mount(Static(say(empty), classes="empty", markup=False))
            for row in listed:
                number += 1
                await rows.mount(self._row(row, number))
        first = self.query("#rows Press")
        if first:
            first.first().focus()

    def _row(self, row: Row, number: int) -> Press:
        """One line to press, with its number as far as a key has one."""
        return Press(row.name, f"{number if number < 10 else ' '}  {row.label}")

    def complain_with(self, sentence: str) -> None:
        """One sentence in the line for it."""
        self.query_one("#complaint", Static).update(f"✗ {sentence}" if sentence else "")

    def on_key(self, event: object) -> None:
        """A number opens its row."""
        key = str(getattr(event, "key", ""))
        rows = list(self.query("#rows Press"))
        if key.isdecimal() and 1 <= int(key) <= len(rows):
            rows[int(key) - 1].action_press()  # type: ignore[attr-defined]

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        """Go on with a setup, begin one, or read a record."""
        event.stop()
        self.complain_with("")
        what, _, name = event.name.partition(":")
        self.app.open_row(what, name)
