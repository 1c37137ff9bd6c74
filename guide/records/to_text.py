"""A record as plain text, 80 columns wide: the setup sheet for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from textwrap import wrap as wrapped

from guide.records.record import Record
from guide.records.section import Section
from guide.records.sections import heading, sections

WIDTH = 80
INDENT = " " * 6
wrap = partial(wrapped, width=WIDTH, break_on_hyphens=False)


def to_text(record: Record, language: str = "en") -> str:
    """The whole record as lines of text."""
    title, *marks = heading(record, language)
    blocks = [title, *_marked(marks)]
    for each in sections(record, language):
        blocks += ["\n".join(_section(each)), *_marked(marks)]
    return "\n\n".join(blocks)


def _marked(marks: list[str]) -> Iterator[str]:
    """The marks, over the whole and under every section."""
    if marks:
        yield "\n".join(wrap(f"*** {' · '.join(marks)} ***"))


def _section(section: Section) -> Iterator[str]:
    """A heading and its rows."""
    yield section.title.upper()
    if section.said:
        yield from wrap(section.said)
    for row in section.rows:
        yield from _row(row, section) if any(section.columns) else _pair(row)


def _pair(row: tuple[str, ...]) -> list[str]:
    """A word and what is known of it; a digest stays in one piece, to be compared."""
    if " " not in row[1] and len(row[1]) > WIDTH - 27:
        return [f"{row[0]}:", INDENT + row[1]]
    return wrap(f"{row[0] + ':':<26} {row[1]}", subsequent_indent=" " * 27)


def _row(row: tuple[str, ...], section: Section) -> Iterator[str]:
    """What tells by itself what it is, and below it the other cells with their heads."""
    plain = section.plain
    yield from wrap("  ".join(filter(None, row[:plain])), subsequent_indent=INDENT)
    headed = zip(section.columns[plain:], row[plain:], strict=True)
    said = "; ".join(f"{head}: {cell}" for head, cell in headed if cell)
    yield from wrap(said, initial_indent=INDENT, subsequent_indent=INDENT)
