"""A line and a text that lay out the page anew only where their size changes."""

from __future__ import annotations

from textual.geometry import Size
from textual.reactive import Reactive
from textual.visual import VisualType
from textual.widgets import Input, Static


class SteadyLine(Input):
    """A line as wide as its place, whatever is typed: no sign lays out the page."""

    virtual_size: Reactive[Size] = Reactive(Size(0, 0))


class SteadyText(Static):
    """A text that is told anew: as long as it takes up as many lines, it is painted and no more."""

    def update(self, content: VisualType = "", *, layout: bool = True) -> None:
        """Other words, wrapped in the width that there is."""
        width = self.content_size.width
        super().update(content, layout=False)
        if not (content or self.display):
            return
        if layout and not (width and self._lines(width) == self.content_size.height):
            self.refresh(layout=True)

    def _lines(self, width: int) -> int:
        """How many lines the words take up in a width."""
        return self.visual.get_height(self.styles, width)  # type: ignore[arg-type]
