"""Everything that can be done at a setup besides its present step, each on a tile with its key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widget import Widget

from guide.plain import N_
from guide.screens.messages import Picked
from guide.screens.modals.window import Window
from guide.screens.page import TileGrid
from guide.screens.widgets.press import Press

NARROW = 22
"""Columns of a tile here: its words are few."""
Shown = tuple[str, str, str]
"""Name, the sign that gives it, and words."""


class Menu(Window[str]):
    """Gives back the name of what is to be done."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("q", "nothing", show=False)]
    title_text = N_("What else can be done")
    told_text = N_("Press a number, or touch a tile.")
    yes = ""

    def __init__(self, offered: Sequence[Shown]) -> None:
        super().__init__()
        self.offered = tuple(offered)

    def questions(self) -> ComposeResult:
        """A tile each."""
        with TileGrid(least=NARROW):
            for name, digit, words in self.offered:
                yield Press(name, f"{digit}  {words}")

    def first(self) -> Widget:
        """The first tile."""
        return self.query(Press).first()

    def on_key(self, event: events.Key) -> None:
        """A key gives what stands on its tile."""
        for name, digit, _ in self.offered:
            if digit in (event.key, event.character):
                event.stop()
                self.dismiss(name)

    def on_picked(self, event: Picked) -> None:
        """A tile was touched."""
        if event.name != "no":
            event.prevent_default()
            event.stop()
            self.dismiss(event.name)
