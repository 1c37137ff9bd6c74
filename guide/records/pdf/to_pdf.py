"""A record as one or two pages to keep with the chuck, on A4 and on US Letter alike."""

from __future__ import annotations

from guide.plain import N_
from guide.present.words import say
from guide.records.drawing import BLACK, WHITE, Drawing, Shape, box, moved, rule
from guide.records.pdf.blocks import WIDE
from guide.records.pdf.draw import pdf
from guide.records.pdf.flow import laid
from guide.records.pdf.setting import Piece, Style, beside, padded, text
from guide.records.pdf.sheet import blocks
from guide.records.record import Record
from guide.records.sections import heading

A4 = (595.276, 841.89)
LEFT = 50.0
EDGE = 62.0
"""Above and below: US Letter is 50 pt lower, so 12 pt stay even where a printer cuts one side."""
FOOT = 20.0
BAND = Style(10.5, bold=True, ink=WHITE)


def to_pdf(record: Record, language: str = "en") -> bytes:
    """The pages as a PDF file."""
    pages = pages_of(record, language)
    title, *marks = heading(record, language)
    return pdf(pages, title, " · ".join(marks), record.last_at, language)


def pages_of(record: Record, language: str) -> list[Drawing]:
    """Each page as a drawing."""
    _, *marks = heading(record, language)
    band = _band(marks)
    room = A4[1] - 2 * EDGE - FOOT - band.height
    laid_out = laid(blocks(record, language), room)
    count = len(laid_out)
    return [
        _page(shapes, band, _foot(record, number, count, language))
        for number, shapes in enumerate(laid_out, start=1)
    ]


def _page(shapes: list[Shape], band: Piece, foot: Piece) -> Drawing:
    """Marks above, the foot below, and between them what the page holds."""
    below = A4[1] - EDGE - FOOT
    placed = (
        *moved(band.shapes, LEFT, EDGE),
        *moved(shapes, LEFT, EDGE + band.height),
        *moved(foot.shapes, LEFT, below),
    )
    return Drawing(*A4, placed)


def _band(marks: list[str]) -> Piece:
    """The marks in white on black over the whole width, never cut."""
    if not marks:
        return Piece(0.0, ())
    told = beside((6.0, padded(text(" · ".join(marks), WIDE - 12, BAND), 3.5, 4.5)))
    ground = box(0, 0, WIDE, told.height, BLACK)
    return Piece(told.height + 8.0, (ground, *told.shapes))


def _foot(record: Record, number: int, count: int, language: str) -> Piece:
    """Which record, which page of how many, and the digest that stands for all of it."""
    told = say(
        N_("Setup {setup} · page {number} of {count}"),
        language,
        setup=record.setup,
        number=number,
        count=count,
    )
    return beside(
        (0.0, Piece(0.0, (rule(0, 4, WIDE, 0.5),))),
        (0.0, padded(text(told, 225, Style(7.4)), 8.0)),
        (0.0, padded(text(record.head, WIDE, Style(7.0, even=True), at="end"), 8.0)),
    )
