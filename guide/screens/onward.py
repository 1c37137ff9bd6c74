"""Moving about with the plus and minus of a numeric keypad, one hand free."""

from __future__ import annotations

from typing import Any, Protocol

from textual.errors import NoWidget
from textual.screen import Screen
from textual.widget import Widget

from guide.screens.widgets.choices import Choices
from guide.screens.widgets.press import Press

WAYS = {"plus": 1, "minus": -1}
"""The keys, and the way that each goes."""


class Turns(Protocol):
    """What can be read page by page."""

    def action_page(self, by: int) -> None:
        """Pages on, or back."""


def move(screen: Screen[Any], turns: Turns, way: int) -> None:
    """The focus from tile to tile; where it is on none, or out of sight, a page on or back."""
    focused: Widget | None = screen.focused
    if not isinstance(focused, (Press, Choices)) or not in_sight(screen, focused):
        turns.action_page(way)
    elif way > 0:
        screen.focus_next()
    else:
        screen.focus_previous()


def in_sight(screen: Screen[Any], widget: Widget) -> bool:
    """Whether any of a widget is drawn; of one whose page is going nothing is."""
    try:
        return screen.find_widget(widget).visible_region.height > 0
    except NoWidget:
        return False
