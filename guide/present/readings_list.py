"""The readings of a turn as lines, in as many columns as there is room for."""

from __future__ import annotations

from collections.abc import Sequence

GAP = 3
"""Columns between two columns of readings."""


def aligned(entries: Sequence[tuple[str, str, str]]) -> tuple[str, ...]:
    """Position, name and value of each reading as one line, all of them alike."""
    wide = [max(map(len, column)) for column in zip(*entries, strict=True)]
    return tuple(
        f"{position:>{wide[0]}} {name:<{wide[1]}} {value:>{wide[2]}}"
        for position, name, value in entries
    )


def in_columns(entries: Sequence[str], width: int, places: int = 0) -> tuple[str, ...]:
    """Entries down the first column, then down the next, so that a turn is read in its order.

    There are lines for so many `places`, so that nothing moves while others come; an entry is never
    cut.
    """
    wide = max(map(len, entries), default=0)
    columns = max((width + GAP) // (wide + GAP), 1)
    lines = max(-(-max(places, len(entries)) // columns), 1)
    return tuple(
        (" " * GAP).join(f"{each:<{wide}}" for each in entries[line::lines]).rstrip()
        for line in range(lines)
    )
