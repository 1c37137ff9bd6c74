"""A record as one HTML file that prints: everything escaped, nothing fetched."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from guide.records.record import Record
from guide.records.sections import Section, heading, sections

STYLE = """
@page { size: A4 landscape; margin: 14mm 12mm; }
body { font: 10pt/1.35 sans-serif; color: #000; background: #fff; margin: 1.5em; }
h1 { font-size: 15pt; margin: 0 0 .4em; }
h2 { font-size: 12pt; margin: 1.4em 0 .3em; break-after: avoid; }
p { margin: .3em 0; max-width: 60em; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid #767676; padding: .15em .4em; text-align: left; vertical-align: top;
  overflow-wrap: anywhere; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
.mark { border: 3px solid #000; padding: .3em .6em; font-weight: bold; background: #fff; }
@media print {
  body { margin: 0; }
  body.marked { padding-top: 14mm; }
  .page { position: fixed; top: 0; left: 0; right: 0; }
}
"""
"""`.page` is fixed, so that a printer sets it on every page."""
POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def to_html(record: Record, language: str = "en") -> str:
    """The whole record as one HTML document."""
    title, *marks = heading(record, language)
    body = "\n".join(_body(record, title, marks, language))
    shown = ' class="marked"' if marks else ""
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n'
        '<meta name="viewport" content="width=device-width">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n"
        f"<body{shown}>\n{body}\n</body>\n</html>\n"
    )


def _body(record: Record, title: str, marks: list[str], language: str) -> Iterator[str]:
    """The mark of every page, the heading and the sections."""
    if marks:
        yield f'<p class="mark page">{escape(" · ".join(marks))}</p>'
    yield f"<h1>{escape(title)}</h1>"
    for each in sections(record, language):
        yield from _section(each)


def _section(section: Section) -> Iterator[str]:
    """A heading, a sentence and a table whose head is set again on every page."""
    yield f"<section>\n<h2>{escape(section.title)}</h2>"
    if section.said:
        yield f"<p>{escape(section.said)}</p>"
    yield "<table>"
    if any(section.columns):
        yield f"<thead>{_row(section.columns, 'th')}</thead>"
    yield "<tbody>"
    yield from (_row(row, "td") for row in section.rows)
    yield "</tbody></table>\n</section>"


def _row(cells: tuple[str, ...], tag: str) -> str:
    """One row."""
    return f"<tr>{''.join(f'<{tag}>{escape(each)}</{tag}>' for each in cells)}</tr>"
