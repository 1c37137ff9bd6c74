"""A record as one HTML file that prints: everything escaped, nothing fetched."""

from __future__ import annotations

from html import escape

from guide.records.chuck_picture import caption, chuck, pictured
from guide.records.coded import coded
from guide.records.qr import qr
from guide.records.record import Record
from guide.records.section import Section
from guide.records.sections import heading, sections
from guide.records.to_svg import to_svg

STYLE = """
@page { size: A4 landscape; margin: 14mm 12mm; }
body { font: 10pt/1.35 sans-serif; color: #000; background: #fff; margin: 1.5em; }
h1 { font-size: 15pt; margin: 0 0 .4em; }
h2 { font-size: 12pt; margin: 1.4em 0 .3em; break-after: avoid; }
p { margin: .3em 0; max-width: 60em; break-after: avoid; }
figure { margin: .4em 0; break-inside: avoid; break-after: avoid; }
figcaption { font-size: 9pt; max-width: 40em; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #767676; padding: .15em .4em; text-align: left; vertical-align: top; }
td.long { overflow-wrap: anywhere; min-width: 12em; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.mark { border: 3px solid #000; font-weight: bold; }
@media print { body { margin: 0; font-size: 8.5pt; line-height: 1.25; } }
"""
"""A table's head is set again on every page that the table runs over, and the marks with it."""
FACE, CODE = 240.0, 110.0
"""Points along a side."""
POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def to_html(record: Record, language: str = "en") -> str:
    """The whole record as one HTML document."""
    title, *marks = heading(record, language)
    told = "\n".join(_section(each, marks, record, language) for each in sections(record, language))
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n'
        '<meta name="viewport" content="width=device-width">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n"
        f"<body>\n<h1>{escape(title)}</h1>\n{told}\n</body>\n</html>\n"
    )


def _section(section: Section, marks: list[str], record: Record, language: str) -> str:
    """A heading, a sentence, perhaps a picture, and a table."""
    said = f"<p>{escape(section.said)}</p>\n" if section.said else ""
    rows = "\n".join(_row(row, "td") for row in section.rows)
    head = _marked(marks, len(section.columns)) + _heads(section.columns)
    return (
        f"<section>\n<h2>{escape(section.title)}</h2>\n{said}"
        f"{_picture(section.picture, record, language)}<table>\n"
        f"<thead>{head}</thead>\n<tbody>\n{rows}\n</tbody></table>\n</section>"
    )


def _picture(name: str, record: Record, language: str) -> str:
    """The face of the chuck with its caption, or the square code; blank where there is none."""
    if name == "face" and pictured(record):
        told = caption(record, language)
        drawn = to_svg(chuck(record, FACE), told)
        return f"<figure>{drawn}<figcaption>{escape(told)}</figcaption></figure>\n"
    if name == "code":
        text = coded(record)
        return f"<figure>{to_svg(qr(text, CODE), text)}</figure>\n"
    return ""


def _marked(marks: list[str], columns: int) -> str:
    """The marks as the first line of a table's head, which is set again on every page."""
    told = escape(" · ".join(marks))
    return f'<tr><th class="mark" colspan="{columns}">{told}</th></tr>' if marks else ""


def _heads(columns: tuple[str, ...]) -> str:
    """The heads of the columns, where they have some."""
    return _row(columns, "th") if any(columns) else ""


def _row(cells: tuple[str, ...], tag: str) -> str:
    """One row."""
    return f"<tr>{''.join(_cell(each, tag) for each in cells)}</tr>"


LONG = 24
"""Signs without a gap that are cut rather than widen the table."""


def _cell(told: str, tag: str) -> str:
    """One cell; one with a very long word may cut it."""
    long = any(len(word) > LONG for word in told.split(" "))
    return f"<{tag}{LONG_CLASS if long else ''}>{escape(told)}</{tag}>"


LONG_CLASS = ' class="long"'
