"""What every key does."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.screens.modals.window import Window
from guide.screens.tongue import say

MOVING = (
    ("↑ ↓", N_("From one question to the next; the sheet itself where there is none.")),
    ("PgUp PgDn", N_("Back through what is done, and on to what comes.")),
    ("1 – 9", N_("Choose an answer; at a gate, confirm that check.")),
    ("Enter", N_("Go on, or press the button that is lit. It never opens a gate.")),
)


class HelpScreen(Window[str]):
    """Commands and how to move about."""

    title_text = N_("Keys")
    told_text = N_("Everything can be clicked as well. Letters work where nothing is typed.")
    yes = N_("Good   ⏎")

    def __init__(self, commands: Sequence[tuple[str, str, str]]) -> None:
        super().__init__()
        self.commands = tuple(commands)

    def questions(self) -> ComposeResult:
        """One line each."""
        parts: list[tuple[str, str]] = []
        for key, letter, told in self.commands:
            letter = "?" if letter == "question_mark" else letter
            parts += [(f" {key:<4}", "bold $accent"), (f" {letter}   {say(told)}\n", "")]
        for key, told in MOVING:
            parts += [(f" {key:<10}", "bold $accent"), (f"{say(told)}\n", "")]
        yield Static(Content.assemble(*parts), markup=False)

    def confirm(self) -> None:
        """Close it."""
        self.dismiss(None)
