"""A grid of dots becomes cells of a terminal, and what is round in units is round there."""

from __future__ import annotations

import pytest

from guide.present.canvas import BLOCKS, BRAILLE, PLAIN, STYLES, Canvas, Cell, text_of, written


def test_two_dots_of_a_cell_become_one_sign_in_two_inks() -> None:
    """Upper, lower, both alike, both different, and none."""
    canvas = Canvas(5, 1, BLOCKS)
    for column, (upper, lower) in enumerate((("a", ""), ("", "a"), ("a", "a"), ("a", "b"))):
        canvas.dots[0][column], canvas.dots[1][column] = upper, lower
    cells = [Cell("▀", "a"), Cell("▄", "a"), Cell("█", "a", "a"), Cell("▀", "a", "b"), Cell()]
    assert list(canvas.cells()[0]) == cells


def test_eight_dots_of_a_cell_become_one_braille_sign() -> None:
    """Dots 1 to 8 have the bits of the Unicode Standard (U+2800 and up), in its own order."""
    for number, (line, column) in enumerate(
        ((0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (2, 1), (3, 0), (3, 1))
    ):
        canvas = Canvas(1, 1, BRAILLE)
        canvas.dots[line][column] = "a"
        assert canvas.cells()[0][0] == Cell(chr(0x2800 + (1 << number)), "a")


def test_the_plain_style_has_a_sign_for_every_ink() -> None:
    """One dot, one sign of ASCII."""
    canvas = Canvas(2, 1, PLAIN)
    canvas.dots[0][0] = "rim"
    assert text_of(canvas.cells({"rim": "."})) == (". ",)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("radius", [6.5, 9.5, 13.5])
def test_a_disc_is_as_wide_as_it_is_high(style: str, radius: float) -> None:
    """In units, where a cell is one wide and two high, to within one dot."""
    canvas = Canvas(30, 15, style)
    canvas.disc(15, 15, radius, "a")
    lines = [j for j, row in enumerate(canvas.dots) if any(row)]
    columns = [i for i in range(len(canvas.dots[0])) if any(row[i] for row in canvas.dots)]
    wide, high = len(columns) / canvas.across, len(lines) * 2 / canvas.down
    assert abs(wide - 2 * radius) <= 1
    assert abs(high - 2 * radius) <= canvas.size + 1e-9


@pytest.mark.parametrize("style", STYLES)
def test_what_is_drawn_later_covers_what_was_there(style: str) -> None:
    """The last ink stands."""
    canvas = Canvas(9, 5, style)
    canvas.disc(4.5, 5, 4, "under")
    canvas.disc(4.5, 5, 2, "over")
    assert canvas.cells({"over": "o", "under": "u"})[2][4].ink == "over"


def test_a_text_stands_on_the_ink_that_was_there() -> None:
    """The ground of a written cell is the filled one's ink, or the one it is given."""
    canvas = Canvas(3, 1, BLOCKS)
    canvas.paint(lambda x, y: True, "body")
    assert written(canvas.cells(), 1, 0, "4", "screw")[0][1] == Cell("4", "screw", "body")
    assert written(canvas.cells(), 1, 0, "4", "screw", "rim")[0][1] == Cell("4", "screw", "rim")


def test_a_text_beside_the_drawing_is_left_out() -> None:
    """Nothing grows."""
    rows = Canvas(3, 1).cells()
    assert written(rows, 2, 0, "ab", "x")[0][2].sign == "a"
    assert written(rows, 0, 5, "ab", "x") == rows
