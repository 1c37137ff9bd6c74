"""A screen that paints no more than what changed, and keeps no part that is gone."""

from __future__ import annotations

from textual.reactive import Reactive
from textual.screen import Screen
from textual.widget import Widget


class LightScreen(Screen):  # type: ignore[type-arg]
    """Textual paints the whole screen anew when the focus moves; here both places paint themselves.

    What shows the focus does so by styles of its own, which are applied and painted as ever.
    """

    focused: Reactive[Widget | None] = Reactive(None, repaint=False)

    def forget_what_is_gone(self) -> None:
        """Textual remembers for each query what it found, and so keeps parts that were taken away:
        all pages of a long setup."""
        self._query_one_cache.clear()
