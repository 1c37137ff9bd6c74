"""Words on lines of so many columns, wide signs counted as the two columns they take."""

from __future__ import annotations

from rich.cells import cell_len, chop_cells

LEAST = 8
"""Columns below which nothing is wrapped any more."""


def wrapped(text: str, width: int, indent: str = "") -> list[str]:
    """The lines of a text, those after the first behind an indent; none for a blank text."""
    width = max(width, LEAST + len(indent))
    lines: list[str] = []
    for word in text.split():
        if lines and cell_len(lines[-1]) + 1 + cell_len(word) <= width:
            lines[-1] += f" {word}"
        else:
            behind = indent if lines else ""
            lines += (f"{behind}{each}" for each in _pieces(word, width - len(behind)))
    return lines


def _pieces(word: str, width: int) -> list[str]:
    """A word; one that is wider than a line in pieces."""
    return chop_cells(word, width) if cell_len(word) > width else [word]
