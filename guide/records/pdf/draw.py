"""Drawings as the pages of a PDF file: vector shapes and text with its fonts inside."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import md5
from io import BytesIO
from typing import Any

from guide.records.drawing import Disc, Drawing, Path, Shape, Words
from guide.records.pdf.type import REGULAR, font, runs, width

MAKER = "spindleside"


def pdf(pages: Sequence[Drawing], title: str, about: str, at: str, language: str) -> bytes:
    """The file, the same bytes for the same drawings; dated `at`, the time of the last event.

    The id that PDF wants of a file would else be taken from SOURCE_DATE_EPOCH, where that is set.
    """
    from reportlab.pdfgen.canvas import Canvas

    file = BytesIO()
    font(REGULAR)
    canvas = Canvas(file, invariant=1, pageCompression=1, lang=language, initialFontName=REGULAR)
    canvas.setTitle(title)
    canvas.setSubject(about)
    canvas.setAuthor(MAKER)
    canvas.setCreator(MAKER)
    canvas.setDateFormatter(lambda *_: _stamp(at))
    canvas._doc.signature = md5(at.encode(), usedforsecurity=False)
    for page in pages:
        canvas.setPageSize((page.width, page.height))
        for shape in page.shapes:
            _drawn(canvas, shape, page.height)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _stamp(at: str) -> str:
    """A stored time as PDF dates are written, UTC."""
    digits = "".join(filter(str.isdigit, at[:19]))
    return f"D:{digits}Z"


def _drawn(canvas: Any, shape: Shape, height: float) -> None:
    """One shape; PDF counts from the bottom."""
    if isinstance(shape, Words):
        _written(canvas, shape, height)
    elif isinstance(shape, Disc):
        _inks(canvas, shape)
        filled, line = int(bool(shape.fill)), int(bool(shape.line))
        canvas.circle(shape.x, height - shape.y, shape.radius, stroke=line, fill=filled)
    else:
        _path(canvas, shape, height)


def _path(canvas: Any, shape: Path, height: float) -> None:
    """Straight lines."""
    _inks(canvas, shape)
    drawn = canvas.beginPath()
    (x, y), *rest = shape.places
    drawn.moveTo(x, height - y)
    for x, y in rest:
        drawn.lineTo(x, height - y)
    if shape.closed:
        drawn.close()
    canvas.drawPath(drawn, stroke=int(bool(shape.line)), fill=int(bool(shape.fill)))


def _inks(canvas: Any, shape: Disc | Path) -> None:
    """Fill, line and its width."""
    canvas.setLineWidth(shape.line)
    canvas.setLineJoin(1)
    canvas.setStrokeColor(shape.ink)
    if shape.fill:
        canvas.setFillColor(shape.fill)


def _written(canvas: Any, words: Words, height: float) -> None:
    """One line of text, piece by piece where signs come from another font."""
    canvas.setFillColor(words.ink)
    wide = width(words.text, words.size, bold=words.bold, even=words.even)
    x = words.x - {"start": 0.0, "middle": wide / 2, "end": wide}[words.at]
    for name, piece in runs(words.text, bold=words.bold, even=words.even):
        canvas.setFont(name, words.size)
        canvas.drawString(x, height - words.y, piece)
        x += font(name).stringWidth(piece, words.size)
