"""What every screen stands on: no more is painted than has changed, and nothing old is left."""

from __future__ import annotations

from typing import TypeVar

from textual.geometry import Size
from textual.reactive import Reactive
from textual.screen import Screen
from textual.widget import Widget

from guide.screens.onward import question_before

Told = TypeVar("Told")


class Glass(Screen[Told]):
    """A move of the focus paints what lost it and what got it, and no other line."""

    focused: Reactive[Widget | None] = Reactive(None, repaint=False)

    def action_question_before(self) -> None:
        """To the question before the one that has the focus."""
        question_before(self)

    def paint_now(self, changed: Widget, moved: bool) -> None:
        """What has changed is painted before anything else is done, not at the next idle moment.

        Where the page was moved as well, all that moves is painted, and this with it.
        """
        if moved:
            self._scroll_required = True
        elif not (self._layout_required or self._scroll_required):
            self._dirty_widgets.add(changed)
        self._on_timer_update()

    def _refresh_layout(self, size: Size | None = None, scroll: bool = False) -> None:
        """What is laid out anew is painted whole.

        Where something asks for a place between a change and the next layout, Textual takes the new
        places for old ones, finds nothing moved, and leaves the old lines on the glass.
        """
        if self._layout_widgets or not scroll:
            self._compositor._dirty_regions.add(self.size.region)
        super()._refresh_layout(size, scroll)
