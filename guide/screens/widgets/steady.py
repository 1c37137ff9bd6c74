"""A line that never lays out the page anew."""

from __future__ import annotations

from textual.geometry import Size
from textual.reactive import Reactive
from textual.widgets import Input


class SteadyLine(Input):
    """A line as wide as its place, whatever is typed: no sign lays out the page."""

    virtual_size: Reactive[Size] = Reactive(Size(0, 0))
