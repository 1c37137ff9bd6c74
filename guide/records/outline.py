"""Text as outlines, for a drawing that looks the same where the fonts are not installed.

The one door to fontTools (MIT); the fonts are those of `pdf.type`.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from guide.records.drawing import Words
from guide.records.pdf.type import file_of, runs, width


@cache
def _opened(name: str) -> Any:
    """A font file, its table of signs, and its outlines."""
    from fontTools.ttLib import TTFont

    made = TTFont(file_of(name))
    return made, made.getBestCmap(), made.getGlyphSet()


def outline(words: Words) -> str:
    """The data of an SVG path that is the text, where it stands; blank for gaps alone."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    wide = width(words.text, words.size, bold=words.bold, even=words.even)
    x = words.x - {"start": 0.0, "middle": wide / 2, "end": wide}[words.at]
    told = []
    for name, piece in runs(words.text, bold=words.bold, even=words.even):
        made, signs, glyphs = _opened(name)
        pen = SVGPathPen(glyphs, ntos=_short)
        scale = words.size / made["head"].unitsPerEm
        for sign in piece:
            glyph = glyphs[signs.get(ord(sign), ".notdef")]
            glyph.draw(TransformPen(pen, (scale, 0, 0, -scale, x, words.y)))
            x += glyph.width * scale
        told.append(str(pen.getCommands()))
    return "".join(told)


def _short(number: float) -> str:
    """A length to a hundredth of a point."""
    return f"{number:.2f}".rstrip("0").rstrip(".") if round(number, 2) else "0"
