"""Figures and verdicts as tall dots, for a page that is read from some steps away.

A sign that is seen at three metres wants to be about 15 mm tall (distance over 200, from memory);
four lines of a usual terminal are about 20 mm.
"""

from __future__ import annotations

TALL = 7
"""Rows of dots of each sign."""
DOTS: dict[str, str] = {
    "0": ".###.|#...#|#...#|#...#|#...#|#...#|.###.",
    "1": ".#.|##.|.#.|.#.|.#.|.#.|###",
    "2": ".###.|#...#|....#|...#.|..#..|.#...|#####",
    "3": ".###.|#...#|....#|..##.|....#|#...#|.###.",
    "4": "...#.|..##.|.#.#.|#..#.|#####|...#.|...#.",
    "5": "#####|#....|####.|....#|....#|#...#|.###.",
    "6": "..##.|.#...|#....|####.|#...#|#...#|.###.",
    "7": "#####|....#|...#.|...#.|..#..|..#..|..#..",
    "8": ".###.|#...#|#...#|.###.|#...#|#...#|.###.",
    "9": ".###.|#...#|#...#|.####|....#|...#.|.##..",
    "-": "....|....|....|####|....|....|....",
    "+": ".....|..#..|..#..|#####|..#..|..#..|.....",
    ".": ".|.|.|.|.|.|#",
    ",": "..|..|..|..|..|.#|#.",
    " ": "...|...|...|...|...|...|...",
    "A": ".###.|#...#|#...#|#####|#...#|#...#|#...#",
    "B": "####.|#...#|#...#|####.|#...#|#...#|####.",
    "C": ".####|#....|#....|#....|#....|#....|.####",
    "D": "####.|#...#|#...#|#...#|#...#|#...#|####.",
    "E": "#####|#....|#....|####.|#....|#....|#####",
    "F": "#####|#....|#....|####.|#....|#....|#....",
    "G": ".####|#....|#....|#..##|#...#|#...#|.####",
    "H": "#...#|#...#|#...#|#####|#...#|#...#|#...#",
    "I": "#|#|#|#|#|#|#",
    "J": "...#|...#|...#|...#|...#|#..#|.##.",
    "K": "#..#|#..#|#.#.|##..|#.#.|#..#|#..#",
    "L": "#...|#...|#...|#...|#...|#...|####",
    "M": "#...#|##.##|#.#.#|#...#|#...#|#...#|#...#",
    "N": "#...#|##..#|#.#.#|#.#.#|#..##|#...#|#...#",
    "O": ".###.|#...#|#...#|#...#|#...#|#...#|.###.",
    "P": "####.|#...#|#...#|####.|#....|#....|#....",
    "Q": ".###.|#...#|#...#|#...#|#.#.#|#..#.|.##.#",
    "R": "####.|#...#|#...#|####.|#.#..|#..#.|#...#",
    "S": ".####|#....|#....|.###.|....#|....#|####.",
    "T": "#####|..#..|..#..|..#..|..#..|..#..|..#..",
    "U": "#...#|#...#|#...#|#...#|#...#|#...#|.###.",
    "V": "#...#|#...#|#...#|#...#|.#.#.|.#.#.|..#..",
    "W": "#...#|#...#|#...#|#...#|#.#.#|##.##|#...#",
    "X": "#...#|#...#|.#.#.|..#..|.#.#.|#...#|#...#",
    "Y": "#...#|#...#|.#.#.|..#..|..#..|..#..|..#..",
    "Z": "#####|....#|...#.|..#..|.#...|#....|#####",
}
"""For each sign its rows of dots from the top, one behind the other."""
HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
"""Two dots above each other in one letter of a terminal."""


def can_be_large(text: str) -> bool:
    """Whether every sign of a text has dots."""
    return bool(text) and all(each in DOTS for each in text)


def large(text: str, scale: int = 1) -> tuple[str, ...]:
    """A text as lines of half blocks, all as wide as each other; `scale` doubles every dot.

    Raises KeyError for a sign without dots: look first whether it can be large.
    """
    rows = [_stretched(_row(text, row), scale) for row in range(TALL)]
    dots = [row for row in rows for _ in range(scale)]
    dots += ["." * len(dots[0])] * (len(dots) % 2)
    return tuple(_halved(*dots[at : at + 2]) for at in range(0, len(dots), 2))


def _row(text: str, row: int) -> str:
    """One row of dots of every sign, a gap between two."""
    return ".".join(DOTS[sign].split("|")[row] for sign in text)


def _stretched(row: str, scale: int) -> str:
    """Every dot so many times as wide."""
    return "".join(dot * scale for dot in row)


def _halved(upper: str, lower: str) -> str:
    """Two rows of dots in one line."""
    return "".join(HALVES[a == "#", b == "#"] for a, b in zip(upper, lower, strict=True))
