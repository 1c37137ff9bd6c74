"""The keys of the commands that can be given now, in one line at the foot; the tile has all."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widget import Widget

ROOMY = 30
"""Lines of a terminal that has room for it."""
Shown = tuple[str, str, str]
"""Name, key as printed on the keyboard, words."""


class CommandLine(Widget):
    """One line; what does not fit is still on the menu."""

    DEFAULT_CSS = """
    CommandLine { height: 1; dock: bottom; background: $panel; text-wrap: nowrap; display: none; }
    CommandLine.roomy { display: block; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.offered: tuple[Shown, ...] = ()
        self.rare: tuple[str, ...] = ()

    def on_mount(self) -> None:
        """Where lines are few, the page has this one: the tile that shows everything else stays."""
        self.resized(self.app.size.height)

    def resized(self, high: int) -> None:
        """The terminal has so many lines now."""
        self.set_class(high >= ROOMY, "roomy")

    def offer(self, commands: Sequence[Shown], rare: Sequence[str] = ()) -> None:
        """Show these from now on, as far as they fit."""
        self.offered, self.rare = tuple(commands), tuple(rare)
        self.refresh()

    @property
    def commands(self) -> tuple[Shown, ...]:
        """Those that are shown."""
        return fitting(self.offered, self.rare, self.size.width)

    def render(self) -> Content:
        """Key and words of each."""
        parts: list[tuple[str, str]] = []
        for _, key, words in self.commands:
            parts += [(key, "bold $accent"), (f" {words}{' ' * self.gap}", "")]
        return Content.assemble(*parts)

    @property
    def gap(self) -> int:
        """Columns between commands: two where they fit."""
        return 2 if _wide(self.commands, 2) <= self.size.width else 1


def fitting(offered: Sequence[Shown], rare: Sequence[str], width: int) -> tuple[Shown, ...]:
    """The commands that fit beside each other, the first of them always.

    What does not fit is left out whole: the rare ones, the rarest first, then from the end.
    """
    shown = list(offered)
    for name in (*rare, *(name for name, _, _ in reversed(offered[1:]))):
        if _wide(shown, 1) <= width:
            break
        shown = [each for each in shown if each[0] != name]
    return tuple(shown)


def _wide(shown: Sequence[Shown], gap: int) -> int:
    """Columns that commands take with such gaps between them."""
    return sum(_width(key, words) + gap for _, key, words in shown) - gap


def _width(key: str, words: str) -> int:
    """Columns of one command."""
    return Content(f"{key} {words}").cell_length
