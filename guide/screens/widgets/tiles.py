"""Tiles to press, three lines tall at the least, side by side as far as their words fit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.cells import cell_len

from guide.screens.widgets.wrapped import wrapped

LEAST, EDGE = 3, 2
"""Lines of the lowest tile, and columns left free on either side of its words."""
NARROWEST, MOST = 12, 4
"""Columns of the narrowest tile, and how many stand side by side at most."""
INDENT = 4
"""Columns by which a second line of words stands in: sign and number stand before the first."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a drawn line; `option` is the number of the answer it belongs to, from 0."""

    text: str
    style: str
    option: int | None = None


@dataclass(frozen=True, slots=True)
class Tile:
    """What stands on a tile, and the styles of its face and of the edge below it."""

    words: str
    face: str
    edge: str


def tiled(tiles: Sequence[Tile], width: int) -> Iterator[list[Piece]]:
    """The lines of all tiles in a room of so many columns."""
    columns = _columns(tiles, width)
    across = _across(tiles, columns, width)
    for first in range(0, len(tiles), columns):
        yield from _row(tiles[first : first + columns], first, across)


def _columns(tiles: Sequence[Tile], width: int) -> int:
    """As many side by side as leave each at most two lines of whole words."""
    for columns in range(min(len(tiles), MOST), 1, -1):
        across = _room(columns, width)
        if across >= NARROWEST and all(_fits(each, across) for each in tiles):
            return columns
    return 1


def _fits(tile: Tile, across: int) -> bool:
    """Whether words stand on a tile of so many columns, on two lines at most and none broken."""
    longest = max(map(cell_len, tile.words.split()), default=0)
    return longest <= across - 2 * EDGE - INDENT and len(_lines(tile, across)) < LEAST


def _room(columns: int, width: int) -> int:
    """Columns of each of so many tiles, with one free between two."""
    return (width - 2 - (columns - 1)) // columns


def _across(tiles: Sequence[Tile], columns: int, width: int) -> int:
    """No tile is wider than the longest words want."""
    longest = max((cell_len(each.words) for each in tiles), default=0)
    return max(min(_room(columns, width), longest + 2 * EDGE), min(NARROWEST, width - 2))


def _lines(tile: Tile, across: int) -> list[str]:
    """The words on lines; those after the first stand in."""
    return wrapped(tile.words, across - 2 * EDGE, " " * INDENT) or [""]


def _row(tiles: Sequence[Tile], first: int, across: int) -> Iterator[list[Piece]]:
    """Tiles side by side, all as tall as the tallest."""
    words = [_lines(each, across) for each in tiles]
    tall = max(LEAST, *(len(each) + 1 for each in words)) - 1
    for line in range(tall):
        yield list(_pieces(tiles, first, [_text(each, line, tall) for each in words], across))
    yield list(_edges(tiles, first, across))


def _text(words: Sequence[str], line: int, tall: int) -> str:
    """The words of one line, in the middle of the tile's height."""
    place = line - (tall - len(words) + 1) // 2
    return words[place] if 0 <= place < len(words) else ""


def _pieces(
    tiles: Sequence[Tile], first: int, texts: Sequence[str], across: int
) -> Iterator[Piece]:
    """One line of every tile's face."""
    for place, (tile, text) in enumerate(zip(tiles, texts, strict=True)):
        rest = across - EDGE - cell_len(text)
        yield Piece("  " if place == 0 else " ", "")
        yield Piece(f"{' ' * EDGE}{text}{' ' * rest}", tile.face, first + place)


def _edges(tiles: Sequence[Tile], first: int, across: int) -> Iterator[Piece]:
    """The last line of every tile, which ends it."""
    for place, tile in enumerate(tiles):
        yield Piece("  " if place == 0 else " ", "")
        yield Piece("▁" * across, tile.edge, first + place)
