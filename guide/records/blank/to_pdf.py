"""A blank setup sheet as pages to hang at the machine, on A4 and on US Letter alike."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.words import say, written
from guide.procedure.model import Procedure
from guide.records.blank.lines import ON_PAPER, Entry, entries
from guide.records.drawing import GREY, WHITE, Drawing, Path, Shape, box, moved, rule
from guide.records.pdf.blocks import BODY, SMALL, STRONG, WIDE, title
from guide.records.pdf.draw import pdf
from guide.records.pdf.setting import Piece, Style, beside, padded, stacked, text
from guide.records.pdf.to_pdf import A4, EDGE, FOOT, LEFT

HEAD = Style(15.0, bold=True)
WRITE, CELL, TICK = 20.0, 20.0, 8.0
"""Heights of a line and of a cell to write in, and the side of a box to tick."""
MADE = "2000-01-01"
"""A blank sheet has no time of its own; the same procedure gives the same bytes."""


def to_pdf(procedure: Procedure, language: str = "en") -> bytes:
    """The pages as a PDF file."""
    about = f"{procedure.name} · {say(N_('revision'), language)} {procedure.revision}"
    pages = list(_paged(_pieces(procedure, about, language), A4[1] - 2 * EDGE - FOOT))
    made = [
        Drawing(*A4, (*moved(each.shapes, LEFT, EDGE), *_foot(about, number, len(pages), language)))
        for number, each in enumerate(pages, start=1)
    ]
    return pdf(made, procedure.title, about, MADE, language)


def _paged(pieces: Iterator[Piece], room: float) -> Iterator[Piece]:
    """Pieces in order, as many on a page as there is room for."""
    page: list[Piece] = []
    for each in pieces:
        if page and sum(piece.height for piece in page) + each.height > room:
            yield stacked(*page)
            page = []
        page.append(each)
    yield stacked(*page)


def _foot(about: str, number: int, count: int, language: str) -> tuple[Shape, ...]:
    """Which procedure, and which page of how many."""
    told = say(N_("page {number} of {count}"), language, number=number, count=count)
    words = text(f"{about} · {told}", WIDE, SMALL)
    return moved((rule(0, 0, WIDE, 0.5), *padded(words, 4.0).shapes), LEFT, A4[1] - EDGE - FOOT)


def _pieces(procedure: Procedure, about: str, language: str) -> Iterator[Piece]:
    """The head, then every stage with its steps; a stage's title stays with its first step."""
    blank = say(N_("Setup sheet, blank"), language)
    warned = padded(text(say(ON_PAPER, language), WIDE - 16, STRONG), 6.0, 6.0)
    yield stacked(
        text(written(procedure.title, language), WIDE, HEAD),
        text(f"{blank} · {about}", WIDE, BODY),
        _framed(warned),
        padded(text(written(procedure.purpose, language), WIDE, BODY), 2.0, 8.0),
        gap=4.0,
    )
    for name, steps in entries(procedure, language):
        for number, each in enumerate(steps):
            told = _step(each, language)
            yield stacked(title(name), told) if number == 0 else told


def _step(step: Entry, language: str) -> Piece:
    """One step with room to write; a gate stands in a frame."""
    wide = WIDE - 16
    only = say(N_("Only where:"), language)
    parts = [
        text(f"{step.number}. {step.title}", wide, STRONG),
        *([text(f"{only} {step.where}", wide, SMALL)] if step.where else ()),
        *(text(line, wide, BODY) for line in step.say.splitlines()),
        *(text(f"! {each}", wide, STRONG) for each in step.cautions),
        *(_tick(number, each, wide) for number, each in enumerate(step.ticks, start=1)),
        *(_written(each, wide) for each in step.asks),
        *([_cells(step.cells, wide)] if step.cells else ()),
    ]
    told = padded(stacked(*parts, gap=2.0), 4.0, 6.0)
    return padded(_framed(told), 3.0, 3.0) if step.gate else _ruled(told)


def _framed(told: Piece) -> Piece:
    """In a frame over the whole width."""
    frame = box(0, 0, WIDE, told.height, WHITE, 1.2)
    return Piece(told.height, (frame, *moved(told.shapes, 8.0, 0)))


def _ruled(told: Piece) -> Piece:
    """With a thin line below."""
    return Piece(told.height, (*moved(told.shapes, 8.0, 0), rule(0, told.height, WIDE, 0.3, GREY)))


def _tick(number: int, told: str, wide: float) -> Piece:
    """A box, and what is looked at before it is ticked."""
    square: Path = box(0, 1.0, TICK, TICK, WHITE, 0.8)
    words = text(f"{number}. {told}", wide - TICK - 6, BODY)
    return padded(beside((0.0, Piece(TICK, (square,))), (TICK + 6, words)), 1.0, 1.0)


def _written(told: str, wide: float) -> Piece:
    """A question over half the width and a line to write on behind it."""
    left = wide * 0.55
    words = text(told, left, BODY)
    height = max(words.height + 4, WRITE)
    line = rule(0, height - 3, wide - left - 8, 0.6)
    return beside((0.0, padded(words, height - words.height)), (left + 8, Piece(height, (line,))))


def _cells(heads: tuple[str, ...], wide: float) -> Piece:
    """Boxes under their heads, in lines of nine at the most."""
    lines = [heads[first : first + 9] for first in range(0, len(heads), 9)]
    across = min(wide / 9, 54.0)
    return stacked(*(_line(each, across) for each in lines), gap=3.0)


def _line(heads: tuple[str, ...], across: float) -> Piece:
    """One line of boxes."""
    words = beside(*((n * across, text(e, across, SMALL, at="middle")) for n, e in _placed(heads)))
    boxes = (box(n * across, 0, across, CELL, WHITE, 0.6) for n, _ in _placed(heads))
    return stacked(words, Piece(CELL, tuple(boxes)), gap=1.0)


def _placed(heads: tuple[str, ...]) -> list[tuple[int, str]]:
    """Each head with its place."""
    return list(enumerate(heads))
