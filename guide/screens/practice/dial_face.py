"""A dial drawn in cells: the round face with its needle, and a glass held over the needle."""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin
from os import environ

from guide.practice.dial import Dial
from guide.present.canvas import BLOCKS, BRAILLE, PLAIN, Canvas, Cell, Row, Rows, written
from guide.present.drawing_style import FEW_SIGNS

SIGNS = {"rim": ".", "zero": "'", "under": "*"}
"""The sign of each ink in the plain style."""
EVERY = 10
"""Divisions from one long tick to the next."""
WIDE = 2
"""Columns of a division under the glass."""
TICKS = {BLOCKS: ("│", "╵", "▲"), PLAIN: ("|", "'", "^")}
"""A fifth tick, the others, and the needle."""


def dial_style(style: str) -> str:
    """Braille is finer for a needle, wherever the terminal's font has it."""
    fine = style == BLOCKS and environ.get("TERM", "") not in FEW_SIGNS
    return BRAILLE if fine else style


def face(dial: Dial, pointer_deg: float, across: int, style: str) -> Rows:
    """The round face: numbered in divisions, the needle clockwise from zero at the top."""
    canvas = _empty(dial.divisions, across, style)
    middle = across / 2
    turn = radians(pointer_deg)
    tip = (middle + 0.86 * middle * sin(turn), middle - 0.86 * middle * cos(turn))
    tail = (middle - 0.2 * middle * sin(turn), middle + 0.2 * middle * cos(turn))
    canvas.bar(tail, tip, 0, "under")
    return _numbered(canvas.cells(SIGNS), dial, across)


def _empty(divisions: int, across: int, style: str) -> Canvas:
    """A canvas with the rim and its ticks, drawn once and copied."""
    canvas = Canvas(across, (across + 1) // 2, style)
    canvas.dots = [list(row) for row in _rim(divisions, across, style)]
    return canvas


@lru_cache(maxsize=8)
def _rim(divisions: int, across: int, style: str) -> tuple[tuple[str, ...], ...]:
    """The dots of rim and ticks."""
    canvas = Canvas(across, (across + 1) // 2, style)
    middle = across / 2
    canvas.ring(middle, middle, middle, "rim")
    if style != PLAIN:
        for step in range(0, divisions, EVERY):
            turn = radians(step * 360 / divisions)
            ends = [
                (middle + reach * middle * sin(turn), middle - reach * middle * cos(turn))
                for reach in (0.84, 0.98)
            ]
            canvas.bar(ends[0], ends[1], 0, "zero")
    return tuple(map(tuple, canvas.dots))


def _numbered(rows: Rows, dial: Dial, across: int) -> Rows:
    """Numbers at the quarters, and on a balanced face which side is which."""
    quarter = dial.divisions // 4
    middle, last = across // 2, len(rows) - 1
    places = ((middle, 1), (across - 4, last // 2), (middle - 1, last - 1), (2, last // 2))
    for number, (column, line) in enumerate(places):
        rows = written(rows, column, line, dial.mark(number * quarter), "zero")
    if dial.numbering == "balanced":
        rows = written(rows, across // 4 + 1, last // 4 + 1, "−", "zero")
        rows = written(rows, across - across // 4 - 2, last // 4 + 1, "+", "zero")
    return rows


def glass(dial: Dial, inches: float, width: int, style: str) -> Rows:
    """The scale about the needle, drawn straight: numbers, ticks, and the needle below them."""
    fifth, one, needle = TICKS.get(style, TICKS[BLOCKS])
    count = width // WIDE
    stands = dial.of_inches(inches) / float(dial.graduation)
    first = 5 * round((stands - count / 2) / 5)
    numbers, ticks = [" "] * width, [" "] * width
    for step in range(first, first + count):
        place = (step - first) * WIDE
        ticks[place] = one if step % 5 else fifth
        if step % 5 == 0:
            _write(numbers, place, _signed(dial, step))
    below = [" "] * width
    place = round((stands - first) * WIDE)
    if 0 <= place < width:
        below[place] = needle
    inks = ("zero", "rim", "under")
    return tuple(map(_row, (numbers, ticks, below), inks))


def _signed(dial: Dial, step: int) -> str:
    """The number at a division; under the glass a balanced face shows which side it is on."""
    half = dial.divisions // 2
    on_face = (step + half) % dial.divisions - half if dial.numbering == "balanced" else step
    mark = dial.mark(step)
    return f"−{mark}" if dial.numbering == "balanced" and on_face < 0 else mark


def _write(line: list[str], place: int, text: str) -> None:
    """A text centred on a place; one that would be cut off is left out, or it would mislead."""
    start = place - len(text) // 2
    if start >= 0 and start + len(text) <= len(line):
        line[start : start + len(text)] = text


def _row(signs: list[str], ink: str) -> Row:
    """A line of signs in one ink."""
    return tuple(Cell(sign, ink) for sign in signs)
