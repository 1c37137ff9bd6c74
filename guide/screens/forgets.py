"""A screen that keeps no part that is gone."""

from __future__ import annotations

from textual.screen import Screen


class ForgetfulScreen(Screen):  # type: ignore[type-arg]
    """Textual remembers for each query what it found, and so keeps parts that were taken away: all
    pages of a long setup.
    """

    def forget_what_is_gone(self) -> None:
        """To be called when a part was taken away."""
        self._query_one_cache.clear()
