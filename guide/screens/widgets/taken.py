"""What was read so far, below the drawings."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.widgets import Static

from guide.front.turn import Turn
from guide.plain import N_
from guide.present.readings_list import aligned, in_columns
from guide.screens.tongue import say

EDGE, INDENT = 6, 2
"""Columns of the page beside this list; those before its first reading."""


class Taken(Static):
    """Every reading with its position and screw, in as many columns as there is room for."""

    DEFAULT_CSS = "Taken { height: auto; text-wrap: nowrap; padding: 0 0 0 2; }"

    def __init__(self, turn: Turn) -> None:
        super().__init__(markup=False)
        self.turn = turn
        self.angles: tuple[str, ...] = ()
        self.values: tuple[str, ...] = ()

    def show(self, angles: Sequence[str], values: Sequence[str]) -> None:
        """Show these values; one more than there are angles is the first position again."""
        self.angles, self.values = tuple(angles), tuple(values)
        self._write()

    def on_resize(self, event: events.Resize) -> None:
        """Another width."""
        self._write()

    def _write(self) -> None:
        """The lines, as many as there will be: nothing moves while others come."""
        entries = aligned([self._entry(place) for place in range(len(self.values))])
        width = (self.size.width or self.app.size.width - EDGE) - INDENT
        lines = in_columns(entries, width, max(len(self.angles), len(entries)))
        self.styles.height = len(lines)
        self.update(Content("\n".join(lines)), layout=False)

    def _entry(self, place: int) -> tuple[str, str, str]:
        """The position, the screw and the value of one reading."""
        back = place == len(self.angles)
        angle = 0.0 if back else float(self.angles[place])
        mark = self.turn.marks.get(angle)
        name = self.turn.say(N_("screw {mark}"), mark=mark) if mark else ""
        return f"{angle:g}°", say(N_("again")) if back else name, self.values[place]
