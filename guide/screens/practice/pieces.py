"""Lines made of pieces, some of which can be pressed: what is drawn is what a click finds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a line; `does` names what a click on it does, blank for nothing."""

    text: str
    style: str = ""
    does: str = ""


PieceLine = Sequence[Piece]


def drawn(line: PieceLine) -> Content:
    """The pieces beside each other."""
    return Content.assemble(*((piece.text, piece.style) for piece in line))


def hit(line: PieceLine, x: int) -> str:
    """What a click at a column does."""
    column = 0
    for piece in line:
        column += len(piece.text)
        if x < column:
            return piece.does
    return ""


def spot(line: PieceLine, does: str) -> int | None:
    """The column at which a piece that does something stands, or None."""
    column = 0
    for piece in line:
        if piece.does == does:
            return column + 1
        column += len(piece.text)
    return None
