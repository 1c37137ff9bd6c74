"""The trade's words on the page explained, and what every key does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.present.glossary import words_in
from guide.screens.modals.window import Window
from guide.screens.tongue import say

MOVING = (
    ("↑ ↓", N_("From one question to the next; the sheet itself where there is none.")),
    ("PgUp PgDn", N_("Back through what is done, and on to what comes.")),
    ("1 – 9", N_("Choose the answer that has this number; at a gate, confirm that check.")),
    ("Enter", N_("Go on, or press the tile that is lit. It never opens a gate.")),
    ("+ -", N_("From tile to tile; a page on and back where none is lit.")),
    (".", N_("Not known here, where that is an answer; then Enter.")),
    ("/", N_("Back to the question before, or the last reading, where no answer is begun.")),
    ("*", N_("Everything else that can be done here; the way back from a page.")),
)
Part = tuple[str, str]
"""Words and their style."""
HEAD, NAMED = "bold underline", "bold $accent"


class HelpScreen(Window[str]):
    """The words of the page explained, then commands and how to move about."""

    title_text = N_("Words on this page, and keys")
    told_text = N_("Everything can be touched as well. Letters work where nothing is typed.")
    yes = N_("Back to the page   ⏎")

    def __init__(
        self,
        commands: Sequence[tuple[str, str, str]],
        page: str = "",
        moving: Sequence[tuple[str, str]] = MOVING,
    ) -> None:
        super().__init__()
        self.commands, self.words, self.moving = tuple(commands), words_in(page), tuple(moving)

    def questions(self) -> ComposeResult:
        """Words first, then a line for each key."""
        yield Static(Content.assemble(*self._explained(), *self._keys()), markup=False)

    def _explained(self) -> Iterator[Part]:
        """Each word and what it means; what can hurt has its sign."""
        head = N_("Words on this page") if self.words else N_("No word of the trade stands here.")
        yield f"{say(head)}\n", HEAD
        for word in self.words:
            sign = "! " if word.hurts else ""
            yield f"{sign}{say(word.name)}: ", "bold $warning" if word.hurts else NAMED
            yield f"{say(word.means)}\n", ""

    def _keys(self) -> Iterator[Part]:
        """Commands first, then how to move about."""
        keys = say(N_("Keys"))
        yield f"\n{keys}\n", HEAD
        for key, letter, told in self.commands:
            letter = "?" if letter == "question_mark" else letter
            yield f" {key:<4}", NAMED
            yield f" {letter}   {say(told)}\n", ""
        for key, told in self.moving:
            yield f" {key:<10}", NAMED
            yield f"{say(told)}\n", ""

    def first(self) -> Widget:
        """Enter closes it."""
        return self.query("ActionBar Press").first()

    def action_move(self, way: int) -> None:
        """It is there to be read: plus and minus are a page on and back."""
        self.action_page(way)

    def confirm(self) -> None:
        """Close it."""
        self.dismiss(None)
