"""Headings, tables and pairs, as blocks of a page's width."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from guide.plain import N_
from guide.present.words import say
from guide.records.drawing import GREY, rule
from guide.records.pdf.flow import Block, Row
from guide.records.pdf.setting import Piece, Style, beside, padded, stacked, text

WIDE = 502.0
"""The column: inside A4 and inside US Letter, with room to punch holes at its left."""
BODY, STRONG = Style(7.8), Style(7.8, bold=True)
SMALL, HEADS = Style(7.4), Style(7.0, ink=GREY)
NUMBER, TIME = 20.0, 79.0
"""How wide the number of an event is, and its time on one line."""
TITLE = Style(10.0, bold=True)
SPACE = 8.0
"""Between two columns of a table."""
MOST, MOST_UNDER = 4, 6
"""Lines of a cell and under a row; what is longer ends in an ellipsis, the record holds it whole.
"""

Cells = Sequence[str]


def title(told: str, said: str = "") -> Piece:
    """A heading with a line above it, and perhaps a sentence."""
    line = Piece(4.0, (rule(0, 0, WIDE, 0.9),))
    under = (text(said, WIDE, SMALL),) if said else ()
    return padded(stacked(line, text(told, WIDE, TITLE), *under, gap=1.0), below=2.5)


def table(
    told: Piece,
    heads: Cells,
    rows: Iterable[tuple[Cells, str, bool]],
    shares: Sequence[float],
    language: str,
    rank: float = 0,
    *,
    latest: bool = False,
) -> Block:
    """A list: number, time and other cells under heads, perhaps a line under them.

    The last of a row's three says whether it must stay. `shares` part the width that number and
    time leave; a column that no row fills is left out.
    """
    listed = list(rows)
    kept = [n for n in range(len(heads)) if n < 2 or any(cells[n] for cells, _, _ in listed)]
    widths = _widths([shares[n - 2] for n in kept[2:]])
    made = tuple(
        Row(_row([cells[n] for n in kept], under, widths), stays) for cells, under, stays in listed
    )
    head = padded(_cells([heads[n] for n in kept], widths, HEADS), below=1.0)
    return Block(told, made, head, rank, more=_more(language), latest=latest)


def _widths(shares: Sequence[float]) -> list[float]:
    """How wide each column is."""
    whole = WIDE - NUMBER - TIME - SPACE * (len(shares) + 1)
    return [NUMBER, TIME, *(whole * share / sum(shares) for share in shares)]


def _row(cells: Cells, under: str, widths: Sequence[float]) -> Piece:
    """A row with a thin line above it."""
    line = Piece(0.0, (rule(0, 0, WIDE, 0.3, GREY),))
    indent = NUMBER + SPACE
    below = (beside((indent, text(under, WIDE - indent, SMALL, most=MOST_UNDER))),) if under else ()
    return padded(stacked(line, padded(_cells(cells, widths, BODY), 1.2), *below), below=1.2)


def _cells(cells: Cells, widths: Sequence[float], style: Style) -> Piece:
    """Texts side by side."""
    lefts = [sum(widths[:number]) + SPACE * number for number in range(len(widths))]
    return beside(
        *(
            (left, text(cell, wide, style, most=MOST))
            for left, wide, cell in zip(lefts, widths, cells, strict=True)
        )
    )


def _more(language: str) -> Callable[[int], Piece]:
    """The row that tells how many more there are."""

    def row(count: int) -> Piece:
        line = Piece(0.0, (rule(0, 0, WIDE, 0.3, GREY),))
        told = say(N_("and {count} more in the record"), language, count=count)
        return stacked(line, padded(text(told, WIDE, STRONG), 1.2, 1.2))

    return row


def pairs(told: Piece, listed: Sequence[tuple[str, str]], language: str, rank: float = 0) -> Block:
    """Words and what is known of them, in two columns, read across."""
    half = (WIDE - 2 * SPACE) / 2
    rows = []
    for number in range(0, len(listed), 2):
        sides = (
            ((half + 2 * SPACE) * place, _pair(name, known, half))
            for place, (name, known) in enumerate(listed[number : number + 2])
        )
        line = Piece(0.0, (rule(0, 0, WIDE, 0.3, GREY),))
        rows.append(Row(padded(stacked(line, padded(beside(*sides), 1.0)), below=1.0)))
    return Block(told, tuple(rows), rank=rank, more=_more_pairs(language, len(listed)))


def _pair(name: str, known: str, wide: float) -> Piece:
    """A word at the left and what is known at the right."""
    left = wide * 0.56
    return beside(
        (0.0, text(name, left - SPACE, SMALL, most=MOST)),
        (left, text(known, wide - left, SMALL, most=MOST)),
    )


def _more_pairs(language: str, count: int) -> Callable[[int], Piece]:
    """The row that tells how many pairs are left out, counted one by one."""
    row = _more(language)
    return lambda out: row(2 * out - count % 2)
