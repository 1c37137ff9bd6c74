"""A square code that any general reader reads back as text (ISO/IEC 18004, made by segno)."""

from __future__ import annotations

from guide.records.drawing import BLACK, WHITE, Drawing, box

QUIET = 4
"""Light modules on every side (ISO/IEC 18004)."""


def modules(text: str) -> tuple[tuple[int, ...], ...]:
    """The code's rows without a quiet zone, 1 where a module is dark.

    Error correction level M; the mask is the one that the standard's rules choose, so that the same
    text always gives the same code.
    """
    import segno

    rows = segno.make(text, error="m", micro=False).matrix
    return tuple(tuple(map(int, row)) for row in rows)


def qr(text: str, side: float) -> Drawing:
    """The code of a text as a drawing with so long a side, its quiet zone included."""
    rows = modules(text)
    module = side / (len(rows) + 2 * QUIET)
    runs = tuple(
        box((QUIET + start) * module, (QUIET + line) * module, count * module, module, BLACK)
        for line, row in enumerate(rows)
        for start, count in _runs(row)
    )
    return Drawing(side, side, (box(0, 0, side, side, WHITE), *runs))


def _runs(row: tuple[int, ...]) -> list[tuple[int, int]]:
    """Where dark modules begin in a row, and how many stand side by side."""
    found: list[tuple[int, int]] = []
    for place, dark in enumerate(row):
        if dark and found and sum(found[-1]) == place:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        elif dark:
            found.append((place, 1))
    return found
