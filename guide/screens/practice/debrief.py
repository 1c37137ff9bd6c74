"""The debrief on the screen: what was done against what was hidden, with the way the chuck went."""

from __future__ import annotations

from textwrap import wrap
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.practice.debrief import Debrief
from guide.practice.path import path
from guide.practice.telling import title, told
from guide.present.labels import MODE
from guide.screens.page import Page
from guide.screens.practice.dial_face import dial_style
from guide.screens.tongue import language, say
from guide.screens.widgets.inks import content, style_here

MARGINS = 12
"""Columns beside the words."""


class DebriefScreen(Page[None]):
    """Nothing can be entered here."""

    DEFAULT_CSS = """
    DebriefScreen #told { height: auto; padding: 0 1; }
    DebriefScreen #path { height: auto; margin: 1 0 0 2; text-wrap: nowrap; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "back", show=False)]

    def __init__(self, one: Debrief) -> None:
        super().__init__()
        self.one = one

    def title_line(self) -> str:
        """That it is practice, and which."""
        return f"! {say(MODE['practice'])} · {title(self.one, language())}"

    def body(self) -> ComposeResult:
        """Parts, drawing."""
        yield Static(self._told(), id="told", markup=False)
        yield Static(self._path(), id="path", markup=False)

    def _told(self) -> Content:
        """Every part with its lines."""
        parts: list[tuple[str, str]] = []
        for heading, lines in told(self.one, language()):
            parts.append((f"{heading}\n", "bold $secondary"))
            for sign, words in lines:
                style = {"✓": "$success", "✗": "$error"}.get(sign, "$quiet")
                told_in = "\n    ".join(wrap(words, self.app.size.width - MARGINS))
                parts += [(f"  {sign or '·'} ", f"bold {style}"), (f"{told_in}\n", "")]
        return Content.assemble(*parts)

    def _path(self) -> Content:
        """The way that the middle of the jaws went."""
        rows = path(self.one.path, self.one.tolerance / 2, dial_style(style_here()))
        words = say(N_("Where the middle of the jaws was, in order from 0; screw 1 is at the top."
                       "\nInside the ring it runs within what is allowed."))  # fmt: skip
        return Content.assemble(content(rows), "\n", (words, "$quiet"))
