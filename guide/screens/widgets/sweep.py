"""The sweep round the turn below the readings, with its fit and what is left."""

from __future__ import annotations

from collections.abc import Mapping

from textual import events
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Static

from guide.measure.numerals import signs
from guide.plain import N_
from guide.present.canvas import Rows
from guide.present.sweep import SIGNS, Sweep, axis, drawn, sweep, what_is_left
from guide.screens.tongue import language, say
from guide.screens.widgets.face import ONE_FRAME, TALL
from guide.screens.widgets.inks import line, style_here

MARGIN = 9
"""Columns left of the drawing, for the values at its top and bottom."""
WIDEST = 73
"""Columns of the drawing at the most: one for every five degrees."""
LEAST = 16
"""Columns below which nothing could be told from the drawing."""


class SweepView(Static):
    """Readings as points, the fitted curve, the screws below it, and what is left.

    It is drawn after the key that brought a value has been painted; values that come faster than
    that are drawn together.
    """

    DEFAULT_CSS = "SweepView { height: 11; width: 1fr; padding: 0 0 0 2; text-wrap: nowrap; }"

    def __init__(self, marks: Mapping[float, str], unit: str, style: str = "") -> None:
        super().__init__(markup=False)
        self.marks, self.unit, self.style_of_drawing = dict(marks), unit, style or style_here()
        self.told, self.of = sweep((), ()), 0
        self.places = 4
        self._waiting: Timer | None = None

    def show(self, told: Sweep, of: int, places: int) -> None:
        """Show these readings of so many, with so many decimals, as soon as there is time."""
        self.told, self.of, self.places = told, of, places
        self._later()

    def on_mount(self) -> None:
        """As many lines as the terminal has room for."""
        self._later()

    def on_resize(self, event: events.Resize) -> None:
        """Another width."""
        self._later()

    def _later(self) -> None:
        """Draw when what was changed has been painted."""
        if self._waiting is not None:
            self._waiting.stop()
        if self.is_attached:
            self._waiting = self.set_timer(ONE_FRAME, self._draw)

    @property
    def lines(self) -> tuple[int, int]:
        """Lines of the curve and of what is left."""
        return (9, 4) if self.app.size.height >= TALL else (5, 2)

    def _draw(self) -> None:
        """The drawing at this size, and its words."""
        columns = min(self.content_size.width - MARGIN, WIDEST)
        if columns < LEAST:
            self.styles.height = sum(self.lines) + 3
            self.update("")
            return
        up, left = self.lines
        above = self._wrapped(*self._caption())
        below = self._wrapped(self._left_over())
        self.styles.height = up + left + 1 + len(above) + len(below)
        parts = [
            *above,
            self._beside(drawn(self.told, columns, up, self.style_of_drawing), self.told.scale),
            Content(" " * MARGIN) + line(axis(self.marks, columns, self.style_of_drawing)),
            self._beside(what_is_left(self.told, columns, left, self.style_of_drawing),
                         self._most, 1),
            *below,
        ]  # fmt: skip
        self.update(Content("\n").join(parts), layout=False)

    def _wrapped(self, *words: Content) -> list[Content]:
        """Words beside each other where they have room, else each on as many lines as it needs."""
        width = self.content_size.width
        whole = Content("   ").join(words)
        if whole.cell_length <= width:
            return [whole]
        return [line for each in words for line in each.wrap(width)]

    @property
    def _most(self) -> tuple[float, float] | None:
        """The largest residual up and down, where anything is left."""
        largest = max(map(abs, self.told.left), default=0.0)
        return (-largest, largest) if largest else None

    def _beside(self, rows: Rows, ends: tuple[float, float] | None, more: int = 0) -> Content:
        """Rows with the values of their bottom and top before them."""
        names = [""] * len(rows)
        if ends:
            names[-1], names[0] = (self._number(each, more) for each in ends)
        margins = [Content.assemble((f"{name:>{MARGIN - 1}} ", "$quiet")) for name in names]
        return Content("\n").join(
            margin + line(row) for margin, row in zip(margins, rows, strict=True)
        )

    def _number(self, value: float, more: int = 0) -> str:
        """A value with as many decimals as the readings have, or some more."""
        return f"{value:.{self.places + more}f}".replace(".", signs(language())[0])

    def _caption(self) -> list[Content]:
        """How many of the readings are there, and what the curve says."""
        marks = SIGNS[self.style_of_drawing]
        read = say(N_("{sign} {count} of {all} read"), sign=marks["point"],
                   count=len(self.told.values), all=self.of)  # fmt: skip
        parts = [Content(read)]
        if self.told.can_be_told and self.told.fitted:
            tir = self._number(self.told.fitted.fitted_tir, 1)
            fitted = say(N_("{sign} fitted TIR {tir} {unit}"), sign=marks["curve"], tir=tir,
                         unit=self.unit)  # fmt: skip
            parts.append(Content.styled(fitted, "$primary"))
        return parts

    def _left_over(self) -> Content:
        """What is left in words."""
        if not self.told.can_be_told or not self.told.left:
            return Content.assemble((say(N_("what is left: more readings will tell")), "$quiet"))
        left = max(self.told.left) - min(self.told.left)
        told = say(N_("what is left: {left} {unit}, peak to valley"),
                   left=self._number(left, 1), unit=self.unit)  # fmt: skip
        return Content.assemble((told, "$secondary"))
