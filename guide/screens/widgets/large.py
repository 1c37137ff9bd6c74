"""A figure to be read from some steps away, with the same in words below it for whoever is near."""

from __future__ import annotations

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from guide.present.large import can_be_large, large
from guide.screens.widgets.wrapped import wrapped

ROOMY = (100, 34)
"""Columns and lines of a terminal with room for figures twice as tall."""


class Large(Widget):
    """One figure or word in tall dots, and sentences below it that say the same."""

    DEFAULT_CSS = "Large { height: auto; color: $accent; text-wrap: nowrap; margin: 0 0 1 0; }"

    def __init__(self, figure: str, *words: str) -> None:
        super().__init__()
        self.figure, self.words = figure, words

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """The lines that are drawn at this width."""
        return len(self._lines(width))

    def render(self) -> Content:
        """Dots, then words."""
        return Content.assemble(("\n".join(self._lines(self.size.width)), "bold"))

    def _lines(self, width: int) -> list[str]:
        """The figure as tall as there is room for, else in words alone."""
        for scale in (2, 1) if self._is_roomy() else (1,):
            dots = large(self.figure, scale) if can_be_large(self.figure) else ()
            if dots and len(dots[0]) + 2 <= width:
                return [*(f"  {each}" for each in dots), *self._words(width)]
        return self._words(width)

    def _words(self, width: int) -> list[str]:
        """The sentences that say the same."""
        lines = [line for each in self.words for line in wrapped(each, width - 2)]
        return [f"  {each}" for each in lines]

    def _is_roomy(self) -> bool:
        """Whether the terminal is a large one."""
        return all(size >= least for size, least in zip(self.app.size, ROOMY, strict=True))
