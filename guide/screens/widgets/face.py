"""The chuck face beside the readings."""

from __future__ import annotations

from collections.abc import Mapping

from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.present.chuck_face import HIGH, PLUNGER, drawing, under_plunger
from guide.screens.tongue import say


class Face(Static):
    """A small drawing as seen from the tailstock, with what is under the plunger in words."""

    DEFAULT_CSS = """
    Face { width: 32; height: auto; padding: 0 0 0 2; color: $primary; text-wrap: nowrap; }
    """

    def __init__(self, marks: Mapping[float, str], noun: str, way: str) -> None:
        super().__init__(markup=False)
        self.marks, self.noun, self.way = marks, noun, way

    def turn_to(self, turned: float, high: float | None = None) -> None:
        """Show the face turned so far, with the high spot if it is known."""
        under = under_plunger(self.marks, turned)
        here = say(N_("{noun} {mark} under it"), noun=self.noun, mark=under) if under else ""
        lines = [
            *drawing(self.marks, turned, high, self.way),
            say(N_("{plunger} plunger, at {angle}°"), plunger=PLUNGER, angle=f"{turned:g}"),
            here,
            say(N_("{sign} high spot at {angle}°"), sign=HIGH, angle=f"{high:.0f}")
            if high is not None
            else "",
            say(N_("seen from the tailstock")),
        ]
        self.update(Content("\n".join(line for line in lines if line.strip())))
