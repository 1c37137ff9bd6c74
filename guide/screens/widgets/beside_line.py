"""Tiles beside a line to type on: usual answers, units, `not known here`."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.widgets import Input

from guide.screens.messages import Chosen
from guide.screens.widgets.choices import Choices, Option
from guide.screens.widgets.tiles import Piece, tiled

USUAL, UNITS = "usual", "units"
"""Rows of answers and of units."""
SIGN = "▸ "
"""Where the focus is."""


class BesideLine(Choices):
    """Part of a question and none of its own; what is typed here goes on the line."""

    DEFAULT_CSS = "BesideLine { margin: 0; }"

    def __init__(self, name: str, options: Sequence[Option], line: Input) -> None:
        super().__init__(name, "", options, classes="tight")
        self.line = line
        self.passing = False
        """Whether an answer is being typed whose first signs came here."""

    def _lines(self, width: int) -> list[list[Piece]]:
        """Tiles alone: the question stands above the line. The sign of the focus is beside them."""
        rows = [*tiled(list(self._tiles()), width)]
        if self.has_focus and rows:
            rows[1][0] = Piece(SIGN, "bold")
        return rows

    def choose(self, place: int, onward: bool) -> None:
        """A tile is pressed, and stands for nothing afterwards: the line has the answer."""
        if 0 <= place < len(self.options):
            self.post_message(Chosen(self.name or "", self.options[place][0], onward))

    def action_step(self, by: int) -> None:
        """Nothing is chosen by the way."""

    def action_onward(self) -> None:
        """To the line, or on from it."""
        self.post_message(Chosen(self.name or "", "", True))

    def on_key(self, event: events.Key) -> None:
        """A number presses a tile; a letter begins an answer of one's own, and more may follow."""
        begins = bool(event.character) and str(event.character).isalpha()
        if begins or (self.passing and event.is_printable):
            event.stop()
            event.prevent_default()
            self.passing = True
            self.line.select_on_focus = False
            self.screen.set_focus(self.line)
            self.line.insert_text_at_cursor(str(event.character))

    def on_focus(self) -> None:
        """Nothing is on its way to the line."""
        self.passing = False
