"""The fonts that pages are set in: how wide a text is, and which font has each of its signs.

Fira Sans (regular and bold) and Fira Code, both under the SIL Open Font Licence 1.1, from the
packages `fontpkg-fira-sans` and `fontpkg-fira-code`. The second one has signs that the first one
lacks. A sign that neither has is spelled by its number, as `visible` does with one that is unseen.
"""

from __future__ import annotations

from functools import cache, lru_cache
from importlib.resources import files
from itertools import groupby
from typing import Any
from unicodedata import normalize

REGULAR, BOLD, EVEN = "Sans", "SansBold", "Mono"
FILES = {
    REGULAR: ("fontpkg_fira_sans", "FiraSans-Regular.ttf"),
    BOLD: ("fontpkg_fira_sans", "FiraSans-Bold.ttf"),
    EVEN: ("fontpkg_fira_code", "FiraCode[wght].ttf"),
}
HYPHEN = "\u2011"
"""A hyphen at which no line ends; shown as the plain one."""


def file_of(name: str) -> str:
    """Where the file of a font is."""
    package, file = FILES[name]
    return str(files(package).joinpath("files", file))


@cache
def font(name: str) -> Any:
    """One font, read once; registered with reportlab under its name."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    made = TTFont(name, file_of(name))
    registerFont(made)
    return made


def shown(text: str) -> str:
    """The text with every sign that no font has spelled as ⟨U+4E2D⟩; marks joined to letters."""
    joined = normalize("NFC", text).replace(HYPHEN, "-")
    return "".join(each if _has(each) else f"⟨U+{ord(each):04X}⟩" for each in joined)


@cache
def glyphs(name: str) -> frozenset[int]:
    """The code points that a font has a glyph for."""
    return frozenset(font(name).face.charToGlyph)


def _has(sign: str) -> bool:
    """Whether one of the fonts has the sign, whichever is tried first."""
    return ord(sign) in glyphs(EVEN) or ord(sign) in glyphs(REGULAR)


def runs(text: str, *, bold: bool = False, even: bool = False) -> list[tuple[str, str]]:
    """The text in pieces, each with the font that has all of its signs."""
    wanted = (EVEN if even else BOLD if bold else REGULAR, EVEN, REGULAR)

    def first(sign: str) -> str:
        return next((name for name in wanted if ord(sign) in glyphs(name)), wanted[0])

    return [(name, "".join(signs)) for name, signs in groupby(text, first)]


@lru_cache(maxsize=8192)
def width(text: str, size: float, *, bold: bool = False, even: bool = False) -> float:
    """How wide a text is, in points."""
    pieces = runs(text, bold=bold, even=even)
    return float(sum(font(name).stringWidth(piece, size) for name, piece in pieces))
