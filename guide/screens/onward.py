"""Moving about with the plus and minus of a numeric keypad, one hand free."""

from __future__ import annotations

from typing import Any, Protocol

from textual.containers import VerticalScroll
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
    """The focus from tile to tile; where it is on none, or more is to be read first, a page on."""
    focused: Widget | None = screen.focused
    if not isinstance(focused, (Press, Choices)) or _reads_on(screen, focused, way):
        turns.action_page(way)
    elif way > 0:
        screen.focus_next()
    else:
        screen.focus_previous()


def _reads_on(screen: Screen[Any], focused: Widget, way: int) -> bool:
    """Whether more of the page lies that way, and the focus is out of sight or its last stop there.

    What is told to lie below comes before the focus leaves the page.
    """
    page = _page_of(focused)
    if page is None or not _more(page, way):
        return False
    chain = screen.focus_chain
    beside = chain[(chain.index(focused) + way) % len(chain)] if focused in chain else focused
    return not in_sight(screen, focused) or _page_of(beside) is not page


def _page_of(widget: Widget) -> VerticalScroll | None:
    """What scrolls a widget, where anything does."""
    return next((each for each in widget.ancestors if isinstance(each, VerticalScroll)), None)


def _more(page: VerticalScroll, way: int) -> bool:
    """Whether a page can be turned that way."""
    return page.scroll_offset.y < page.max_scroll_y if way > 0 else page.scroll_offset.y > 0


def in_sight(screen: Screen[Any], widget: Widget) -> bool:
    """Whether any of a widget is drawn; of one whose page is going nothing is."""
    try:
        return screen.find_widget(widget).visible_region.height > 0
    except NoWidget:
        return False
