"""A drawing as SVG: well-formed XML with shapes and text, nothing that runs and nothing fetched.

In a page the text is text. In a file of its own it is outlines, since a viewer without the fonts
would set it wider and cut what must be read; the words stand in its description.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from guide.records.drawing import Disc, Drawing, Path, Shape, Words

SPACE = "http://www.w3.org/2000/svg"
SANS = "'Fira Sans', 'Noto Sans', 'DejaVu Sans', sans-serif"
MONO = "'Fira Code', 'Noto Sans Mono', 'DejaVu Sans Mono', monospace"


def to_svg(drawing: Drawing, title: str) -> str:
    """The drawing as one `svg` element of its true size, for a page."""
    return _element(drawing, title, "", map(_shape, drawing.shapes))


def to_svg_file(drawing: Drawing, title: str) -> str:
    """The drawing as an SVG file, all text as outlines."""
    said = "\n".join(each.text for each in drawing.shapes if isinstance(each, Words))
    shapes = (
        _outlined(each) if isinstance(each, Words) else _shape(each) for each in drawing.shapes
    )
    begin = '<?xml version="1.0" encoding="UTF-8"?>\n'
    return begin + _element(drawing, title, f"<desc>{escape(said)}</desc>\n", shapes)


def _element(drawing: Drawing, title: str, described: str, shapes: Iterable[str]) -> str:
    """The `svg` element."""
    width, height = (f"{_short(side / 72)}in" for side in (drawing.width, drawing.height))
    inside = "\n".join(shapes)
    return (
        f'<svg xmlns="{SPACE}" width="{width}" height="{height}"'
        f' viewBox="0 0 {_short(drawing.width)} {_short(drawing.height)}" role="img"'
        f' aria-label="{escape(title)}">\n<title>{escape(title)}</title>\n'
        f"{described}{inside}\n</svg>\n"
    )


def _outlined(each: Words) -> str:
    """Text as a filled path."""
    from guide.records.outline import outline

    return f'<path d="{outline(each)}" fill="{each.ink}"/>'


def _shape(each: Shape) -> str:
    """One shape as an element."""
    if isinstance(each, Words):
        return _words(each)
    return _disc(each) if isinstance(each, Disc) else _path(each)


def _disc(each: Disc) -> str:
    """A circle."""
    where = f'cx="{_short(each.x)}" cy="{_short(each.y)}" r="{_short(each.radius)}"'
    return f"<circle {where} {_paint(each.fill, each.line, each.ink)}/>"


def _path(each: Path) -> str:
    """Straight lines, open or closed."""
    steps = " ".join(f"{_short(x)},{_short(y)}" for x, y in each.places)
    name = "polygon" if each.closed else "polyline"
    return f'<{name} points="{steps}" {_paint(each.fill, each.line, each.ink)}/>'


def _paint(fill: str, line: float, ink: str) -> str:
    """Fill and line."""
    drawn = f' stroke="{ink}" stroke-width="{_short(line)}"' if line else ""
    return f'fill="{fill or "none"}"{drawn}'


def _words(each: Words) -> str:
    """One line of text."""
    bold = ' font-weight="bold"' if each.bold else ""
    family = MONO if each.even else SANS
    return (
        f'<text x="{_short(each.x)}" y="{_short(each.y)}" font-family="{family}"'
        f' font-size="{_short(each.size)}"{bold} text-anchor="{each.at}" fill="{each.ink}">'
        f"{escape(each.text)}</text>"
    )


def _short(number: float) -> str:
    """A length to a thousandth of a point, without idle zeros."""
    text = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
