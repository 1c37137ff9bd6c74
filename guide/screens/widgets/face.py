"""The chuck face beside the readings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from textual import events
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.present.chuck_face import LARGE, SIGNS, SMALL, Face, bare, face, under_plunger
from guide.screens.tongue import say
from guide.screens.widgets.inks import content

TALL = 32
"""Lines of a terminal that has room for the large drawing."""
ONE_FRAME = 1 / 60
"""Seconds after which what was changed has been painted and there is time to draw ahead."""


class FaceView(Static):
    """A drawing as seen from the tailstock, with what it shows in words below it.

    It is drawn when what a key changed has been painted, never in between; then the places that
    come next are drawn ahead, one a frame, so that a turned face only has to be put together.
    """

    DEFAULT_CSS = """
    FaceView { width: 31; height: auto; padding: 0 0 0 2; text-wrap: nowrap; }
    FaceView.large { width: 36; }
    """

    def __init__(self, picture: Face, noun: str, ahead: Iterable[float] = ()) -> None:
        super().__init__(markup=False)
        self.picture, self.noun = picture, noun
        self.shown: tuple[Face, int] | None = None
        """The picture that stands on the screen, and the columns that its words had."""
        self.ahead = [*ahead]
        """Places that will be turned to and are not drawn yet, in order."""
        self.least = 0
        """Lines of what was drawn last."""
        self.styles.height = self._lines

    def on_mount(self) -> None:
        """The size that this terminal has room for."""
        self._fit(self.app.size.height)

    def on_resize(self, event: events.Resize) -> None:
        """Another size of the terminal."""
        self._fit(self.app.size.height)

    def _fit(self, height: int) -> None:
        """The large drawing where there is room for it."""
        large = height >= TALL
        self.set_class(large, "large")
        self.picture = replace(self.picture, across=LARGE if large else SMALL)
        self.styles.height = self._lines
        self._later()

    @property
    def _lines(self) -> int:
        """Lines of the drawing and of the words below it."""
        return max(self.least, (self.picture.across + 3) // 2 + 3 + (not self.picture.marks))

    def expect(self, places: Iterable[float]) -> None:
        """Other places will be turned to from now on."""
        self.ahead = [*places]
        self._later()

    def turn_to(self, turned: float, high: float | None = None) -> None:
        """Show the face turned so far, with the high spot if it is known."""
        self.picture = replace(self.picture, turned=turned, high=high)
        self._later()

    def _later(self) -> None:
        """Draw when what was changed has been painted."""
        if self.is_attached:
            self.set_timer(ONE_FRAME, self._draw)

    def _draw(self) -> None:
        """The present picture if it is not shown yet, else the dots of one that comes next."""
        width = self.content_size.width
        if not width:
            return
        if self.shown != (self.picture, width):
            self.shown = self.picture, width
            self.update(self._shown(width), layout=False)
        elif self.ahead:
            bare(replace(self.picture, turned=self.ahead.pop(0)))
        if self.ahead:
            self._later()

    def _shown(self, width: int) -> Content:
        """The drawing, and its words on as many lines as they need."""
        words = [line for each in self._words() for line in Content.assemble(each).wrap(width)]
        lines = [*content(face(self.picture)).split("\n", allow_blank=True), *words]
        self.least = len(lines)
        self.styles.height = self._lines
        return Content("\n").join(lines)

    def _words(self) -> list[tuple[str, str]]:
        """What the signs mean here, each with the sign before it."""
        picture, signs = self.picture, SIGNS[self.picture.style]
        under = under_plunger(picture.marks, picture.turned)
        here = say(N_(": {noun} {mark}"), noun=self.noun, mark=under) if under else ""
        at = say(N_("{sign} plunger at {angle}°"), sign=signs["plunger"],
                 angle=f"{picture.turned:g}")  # fmt: skip
        told = [(f"{at}{here}", "$accent")]
        if picture.high is not None:
            high = say(N_("{sign} high spot at {angle}°"), sign=signs["high"],
                       angle=f"{picture.high:.0f}")  # fmt: skip
            told.append((high, "$warning"))
        if not picture.marks:
            told.append((say(N_("{sign} first position"), sign=signs["start"]), ""))
        told.append((say(N_("seen from the tailstock")), "$quiet"))
        return told
