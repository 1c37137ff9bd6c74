"""Tiles stand side by side only as far as their words stay whole."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.screens.widgets.tiles import EDGE, INDENT, Piece, Tile, tiled

WORDS = st.lists(
    st.text("abcdefghij", min_size=1, max_size=16), min_size=1, max_size=4
).map(" ".join)  # fmt: skip


def words_of(option: int, lines: list[list[Piece]]) -> list[str]:
    """The words on one tile, read line by line."""
    faces = (each.text for line in lines for each in line if each.option == option)
    return [word for face in faces for word in face.replace("▁", " ").split()]


@given(st.lists(WORDS, min_size=1, max_size=8), st.integers(40, 120))
def test_no_word_is_broken_that_fits_on_a_line(said: list[str], width: int) -> None:
    """However many tiles there are."""
    lines = list(tiled([Tile(each, "face", "edge") for each in said], width))
    for option, each in enumerate(said):
        assert words_of(option, lines) == each.split()


def test_a_long_word_takes_a_place_from_its_neighbours() -> None:
    """Three would go beside each other, but for the middle of the word."""
    tiles = [
        Tile(each, "face", "edge") for each in ("1 Pause", "2 Schichtende", "3 Werkzeug holen")
    ]
    across = len("Schichtende") + INDENT + 2 * EDGE
    room = 2 + 3 * across + 2
    assert len([p for p in next(tiled(tiles, room)) if p.option is not None]) == 3
    assert len([p for p in next(tiled(tiles, room - 3)) if p.option is not None]) == 2
