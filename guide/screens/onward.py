"""Moving about with the plus and minus of a numeric keypad, one hand free."""

from __future__ import annotations

from typing import Any, Protocol, TypeVar

from textual.containers import VerticalScroll
from textual.errors import NoWidget
from textual.screen import Screen
from textual.widget import Widget

from guide.screens.steps.form import Form
from guide.screens.widgets.beside_line import USUAL, BesideLine
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press

WAYS = {"plus": 1, "minus": -1}
"""The keys, and the way that each goes."""


Part = TypeVar("Part", Field, Form)


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


def question_before(screen: Screen[Any]) -> None:
    """The focus back one question: from a tile below a line to that line, from there on to others.

    From the tiles at the foot it goes to the last question.
    """
    focused = screen.focused
    if focused is None or any(form.one_back() for form in _round(focused, Form)):
        return
    here = next(iter(_round(focused, Field)), focused)
    if isinstance(here, Field) and isinstance(focused, BesideLine) and focused.name != USUAL:
        here.retype()
        return
    before = _before(screen, here)
    if before is None:
        screen.focus_previous()
    elif isinstance(before, Field) and before.value:
        before.retype()
    else:
        before.focus()


def _before(screen: Screen[Any], here: Widget) -> Choices | Field | None:
    """The question before a widget in the order of the focus, if one is right before it."""
    chain = screen.focus_chain
    inside = [place for place, each in enumerate(chain) if here in (each, *each.ancestors)]
    if not inside or inside[0] == 0:
        return None
    beside = chain[inside[0] - 1]
    return next(iter(_round(beside, Field)), beside if isinstance(beside, Choices) else None)


def _round(widget: Widget, kind: type[Part]) -> list[Part]:
    """What of a kind a widget lies in, the nearest first."""
    return [each for each in widget.ancestors if isinstance(each, kind)]


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
