"""Screens without colour: what is lit is reversed, everything else is left to words and signs."""

from __future__ import annotations

from functools import lru_cache

from rich.color import Color as TerminalColour
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter

LIT = 0.5
"""Brightness above which a ground is lit; the look without colour has only black and white."""
DEFAULT = TerminalColour.parse("default")


class Colourless(LineFilter):
    """Takes every colour out of what is drawn."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The same signs, bold and underlined as before, reversed where the ground was lit."""
        return [
            Segment(text, None if style is None else without_colour(style), control)
            for text, style, control in segments
        ]


@lru_cache(maxsize=1024)
def without_colour(style: Style) -> Style:
    """A style of the terminal's own two colours."""
    ground = style.bgcolor
    lit = ground is not None and not ground.is_default and _bright(ground)
    return Style(color=DEFAULT, bgcolor=DEFAULT, bold=style.bold, underline=style.underline,
                 italic=style.italic, reverse=lit or None, meta=style.meta or None)  # fmt: skip


def _bright(colour: TerminalColour) -> bool:
    """Whether a colour is nearer to white than to black."""
    return Color.from_rich_color(colour).brightness > LIT
