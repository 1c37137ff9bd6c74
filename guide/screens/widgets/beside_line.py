"""Tiles beside a line to type on: usual answers, units, `not known here`."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.message import Message
from textual.widgets import Input

from guide.front.questions import none_of
from guide.plain import N_
from guide.screens.messages import Chosen, Complaint
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices, Option
from guide.screens.widgets.tiles import Piece, tiled

USUAL, UNITS = "usual", "units"
"""Rows of answers and of units."""
SIGN = "▸ "
"""Where the focus is."""


class Begun(Message):
    """The first sign of an answer came to a row of usual answers, and stands on the line now."""

    def __init__(self, sign: str) -> None:
        super().__init__()
        self.sign = sign


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
        """To the line, or on from it; the one unit that there is, is taken."""
        if self.name != UNITS:
            self.post_message(Chosen(self.name or "", "", True))
        elif len(self.options) == 1:
            self.choose(0, onward=True)
        else:
            self.post_message(Complaint(say(N_("Press the number of the unit."))))

    def on_key(self, event: events.Key) -> None:
        """A letter begins an answer of one's own, and so may a digit where answers are usual."""
        sign = str(event.character or "")
        if self._begins(sign) or (self.passing and event.is_printable):
            event.stop()
            event.prevent_default()
            self._on_the_line(sign)

    def _begins(self, sign: str) -> bool:
        """Whether a sign may be the first of an answer; beside a figure the tiles' numbers are not.

        Any other there begins another figure in the place of the one that stands on the line.
        """
        figure = sign.isdecimal() or sign == "."
        beside_a_figure = self.name == UNITS and self.place_of(sign) is None
        return sign.isalpha() or (figure and (self.name == USUAL or beside_a_figure))

    def _on_the_line(self, sign: str) -> None:
        """A sign goes to the line; the first one in the place of what stood there."""
        if not self.passing:
            self.line.value = ""
            if self.name == USUAL:
                self.post_message(Begun(sign))
        self.passing = True
        self.line.select_on_focus = False
        self.screen.set_focus(self.line)
        self.line.insert_text_at_cursor(sign)

    def press(self, sign: str, onward: bool = True) -> None:
        """A key of `not known`, or of a unit; a point that is neither is told what would be."""
        if sign == "." and self.place_of(sign) is None:
            self.post_message(Complaint(none_of(sign, self.keys)))
        else:
            super().press(sign, onward)

    def on_focus(self) -> None:
        """Nothing is on its way to the line."""
        self.passing = False
