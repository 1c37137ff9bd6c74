"""The commands that can be given now, in one line at the foot: a key or a click."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

Shown = tuple[str, str, str]
"""Name, key as printed on the keyboard, words."""


class Given(Message):
    """A command was clicked."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name


class CommandLine(Widget):
    """One line; what does not fit is still in the help."""

    DEFAULT_CSS = "CommandLine { height: 1; dock: bottom; background: $panel; text-wrap: nowrap; }"

    def __init__(self) -> None:
        super().__init__()
        self.commands: tuple[Shown, ...] = ()

    def offer(self, commands: Sequence[Shown]) -> None:
        """Show these from now on."""
        self.commands = tuple(commands)
        self.refresh()

    def render(self) -> Content:
        """Key and words of each."""
        parts: list[tuple[str, str]] = []
        for _, key, words in self.commands:
            parts += [(key, "bold $accent"), (f" {words}{' ' * self.gap}", "")]
        return Content.assemble(*parts)

    @property
    def gap(self) -> int:
        """Columns between commands: two where they fit."""
        wide = sum(len(key) + len(words) + 3 for _, key, words in self.commands)
        return 2 if wide <= self.size.width + 2 else 1

    def spot(self, name: str) -> int:
        """The column at which a command stands."""
        column = 0
        for each, key, words in self.commands:
            if each == name:
                return column
            column += len(key) + len(words) + 1 + self.gap
        raise KeyError(name)

    def on_click(self, event: events.Click) -> None:
        """The command under the pointer."""
        for name, key, words in self.commands:
            if self.spot(name) <= event.x < self.spot(name) + len(key) + len(words) + 1 + self.gap:
                self.post_message(Given(name))
