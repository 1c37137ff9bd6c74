"""Lines as they are written: wrapped to a width or never, and no sign that a terminal obeys."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from shutil import get_terminal_size
from textwrap import wrap
from typing import TextIO

from guide.present.visible import visible

USUAL_WIDTH, NARROWEST = 80, 20
PROMPT = "> "
SPELLED = {
    "–": "-", "—": "-", "−": "-", "“": '"', "”": '"', "‘": "'", "’": "'", "…": "...", "°": " deg",
    "±": "+/-", "×": "x", "·": ".", "→": "->", "≥": ">=", "≤": "<=", "µ": "u", "μ": "u",
    "⟨": "<", "⟩": ">", "½": "1/2", "¼": "1/4", "¾": "3/4", "″": '"', "′": "'", "²": "2", "³": "3",
    "√": "root ", "✓": "+", "✗": "x", "§": "section ",
}  # fmt: skip
"""How signs are written where only ASCII can be shown."""


def in_ascii(text: str) -> str:
    """The text in ASCII: signs spelled, accents left out, what is then left as a question mark.

    >>> in_ascii("“5° ± 0.3 N·m” – déjà")
    '"5 deg +/- 0.3 N.m" - deja'
    """
    spelled = "".join(SPELLED.get(sign, sign) for sign in text)
    bare = unicodedata.normalize("NFKD", spelled)
    return "".join(each for each in bare if not unicodedata.combining(each)).encode(
        "ascii", "replace"
    ).decode("ascii")  # fmt: skip


class Lines:
    """Writes paragraphs; `width` 0 is never to wrap, None the terminal's own."""

    def __init__(self, out: TextIO, width: int | None = None, ascii_only: bool = False) -> None:
        self.out = out
        self.width = get_terminal_size((USUAL_WIDTH, 24)).columns if width is None else width
        self.shown: Callable[[str], str] = in_ascii if ascii_only else str

    def tell(self, text: str = "") -> None:
        """A paragraph for each line of a text; a blank one is a blank line."""
        for each in text.split("\n"):
            self._write(self.shown(visible(each)))

    def _write(self, line: str) -> None:
        """One paragraph, its words one gap apart: columns say nothing to an ear."""
        line = " ".join(line.split())
        if self.width and len(line) > self.width:
            for each in wrap(line, max(self.width, NARROWEST), break_on_hyphens=False):
                self.out.write(f"{each}\n")
        else:
            self.out.write(f"{line}\n")

    def prompt(self) -> None:
        """Show that something is waited for."""
        self.out.write(PROMPT)
        self.out.flush()

    def end_line(self) -> None:
        """End a line on which a terminal has shown nothing."""
        self.out.write("\n")
