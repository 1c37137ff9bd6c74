"""Before a lesson: what it teaches, and how the bench is worked."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.practice.lesson import Lesson
from guide.screens.modals.window import Window
from guide.screens.tongue import say

KEYS = (
    ("*", N_("from the sheet to the bench and back, wherever you are")),
    ("4 5 6", N_("turn the spindle back, to the next place, on; + and − two degrees")),
    ("7", N_("the key into the screw, or out; never turn the spindle with it in")),
    ("8 2", N_("tighten, ease; 9 and 3 by a hair; 1: key to the next screw")),
    ("0 .", N_("ease the bolts one stage; bring them to their torque")),
    ("/", N_("more: zero, push and pull, what else lies on the bench")),
    ("F7", N_("a hint; it is counted")),
)


class IntroScreen(Window[str]):
    """One screen of words; Enter begins."""

    yes = N_("Begin   ⏎")

    def __init__(self, one: Lesson) -> None:
        super().__init__()
        self.title_text, self.told_text = one.title, one.learn
        self.digital = one.digital

    def questions(self) -> ComposeResult:
        """The keys, a line each."""
        parts = [(say(N_("The bench opens beside the sheet when you come to the dial.")), "$quiet")]
        for key, words in KEYS:
            parts += [(f"\n {key:<6}", "bold $accent"), (say(words), "")]
        more = N_("Read the needle, and type what you read: nobody types it for you.")
        digital = N_("The display types what it shows when you press Enter at the bench.")
        parts.append((f"\n\n{say(digital if self.digital else more)}", "bold"))
        yield Static(Content.assemble(*parts), markup=False)

    def first(self) -> Widget:
        """Enter begins."""
        return self.query("ActionBar Press").first()

    def confirm(self) -> None:
        """Begin."""
        self.dismiss("")
