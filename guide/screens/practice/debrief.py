"""The debrief on the screen: what was done against what was hidden, with the way the chuck went."""

from __future__ import annotations

from textwrap import wrap
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from guide.plain import N_
from guide.practice.debrief import Debrief
from guide.practice.path import path
from guide.practice.telling import title, told
from guide.present.labels import MODE
from guide.screens.practice.dial_face import dial_style
from guide.screens.tongue import language, say
from guide.screens.widgets.command_line import CommandLine, Given
from guide.screens.widgets.inks import content, style_here

MARGINS = 12
"""Columns beside the words."""


class DebriefScreen(Screen[None]):
    """Nothing can be entered here."""

    DEFAULT_CSS = """
    DebriefScreen #head { height: 1; background: $panel; padding: 0 1; }
    DebriefScreen #debrief { padding: 0 2; height: 1fr; }
    DebriefScreen #told { height: auto; }
    DebriefScreen #path { height: auto; margin: 1 0 0 2; text-wrap: nowrap; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,f10,enter", "back", show=False),
        Binding("down", "scroll(1)", show=False),
        Binding("up", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(14)", show=False),
        Binding("pageup", "scroll(-14)", show=False),
    ]

    def __init__(self, one: Debrief) -> None:
        super().__init__()
        self.one = one

    def compose(self) -> ComposeResult:
        """Head, parts, drawing."""
        one = self.one
        foot = CommandLine()
        foot.offer([("leave", "F10", say(N_("back"))), ("scroll", "PgDn", say(N_("more below")))])
        head = Content.assemble((f"! {say(MODE['practice'])} · ", "bold $warning"),
                                title(one, language()))  # fmt: skip
        yield Static(head, id="head", markup=False)
        with VerticalScroll(id="debrief", can_focus=False):
            yield Static(self._told(), id="told", markup=False)
            yield Static(self._path(), id="path", markup=False)
        yield foot

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

    def action_scroll(self, by: int) -> None:
        """Lines on or back."""
        self.query_one("#debrief").scroll_relative(y=by, animate=False)

    @on(Given)
    def _given(self, event: Given) -> None:
        """A command at the foot was clicked."""
        event.stop()
        if event.name == "leave":
            self.action_back()
        else:
            self.action_scroll(14)

    def action_back(self) -> None:
        """Close it."""
        self.dismiss(None)
