"""Blocks laid onto pages: what must be shown whole, and lists that may end in “and N more”."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from guide.records.drawing import Shape, moved
from guide.records.pdf.setting import Piece

PAGES = 2
GAP = 11.0
"""Between one block and the next."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a list; one that is `kept` is never left out."""

    piece: Piece
    kept: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """Something under a heading: set whole, or a list whose rows may be left out from its end."""

    title: Piece
    rows: tuple[Row, ...]
    head: Piece = field(default_factory=lambda: Piece(0.0, ()))
    """Set again where the rows go on on another page."""
    rank: float = 0
    """How readily each of its rows is left out, against those of other lists."""
    whole: bool = False
    """Whether it stays on one page."""
    more: Callable[[int], Piece] | None = None
    """The last row that tells how many were left out; without it every row is shown."""
    latest: bool = False
    """Whether the earliest rows are left out first, and not the last ones."""
    out: int = 0
    """How many rows are left out."""

    @property
    def could_go(self) -> int:
        """How many rows may still be left out."""
        return sum(not row.kept for row in self.rows) - self.out if self.more else 0

    def pieces(self) -> Iterator[Piece]:
        """The rows that are shown, and the one that tells what is not."""
        spare = [number for number, row in enumerate(self.rows) if not row.kept]
        gone = set(spare[: self.out] if self.latest else spare[len(spare) - self.out :])
        yield from (row.piece for number, row in enumerate(self.rows) if number not in gone)
        if self.out and self.more:
            yield self.more(self.out)


Page = list[Shape]
Placed = list[list[tuple[Piece, float]]]
"""For each page its pieces, each with how far down it begins."""


def laid(blocks: Sequence[Block], room: float) -> list[Page]:
    """The blocks on pages with so much room each: two pages if leaving rows out can do it.

    Rows go out of the list that has most left to go, each counted by its rank. What may not be left
    out is never left out: rather than cut it, more pages are made.
    """
    chosen = list(blocks)
    while len(_placed(chosen, room)) > PAGES:
        spare = [number for number, each in enumerate(chosen) if each.could_go]
        if not spare:
            break
        most = max(spare, key=lambda number: chosen[number].rank * chosen[number].could_go)
        chosen[most] = replace(chosen[most], out=chosen[most].out + 1)
    else:
        _put_back(chosen, room)
    return [
        [shape for piece, down in page for shape in moved(piece.shapes, 0, down)]
        for page in _placed(chosen, room)
    ]


def _put_back(chosen: list[Block], room: float) -> None:
    """Rows that went out for nothing come back, those of the lowest rank first."""
    for number in sorted(range(len(chosen)), key=lambda number: chosen[number].rank):
        while chosen[number].out:
            before = chosen[number]
            chosen[number] = replace(before, out=before.out - 1)
            if len(_placed(chosen, room)) > PAGES:
                chosen[number] = before
                break


def _placed(blocks: Sequence[Block], room: float) -> Placed:
    """The blocks one after the other."""
    pages: Placed = [[]]
    down = 0.0
    for block in blocks:
        pieces = list(block.pieces())
        if not pieces:
            continue
        first = block.title.height + block.head.height + pieces[0].height
        least = block.title.height + sum(p.height for p in pieces) if block.whole else first
        gap = GAP if down else 0.0
        if down and down + gap + least > room:
            pages.append([])
            down, gap = 0.0, 0.0
        down = _put(pages, block.title, down + gap)
        down = _put(pages, block.head, down)
        for piece in pieces:
            if down and down + piece.height > room:
                pages.append([])
                down = _put(pages, block.head, 0.0)
            down = _put(pages, piece, down)
    return pages


def _put(pages: Placed, piece: Piece, down: float) -> float:
    """A piece put on the last page; where the next one begins."""
    pages[-1].append((piece, down))
    return down + piece.height
