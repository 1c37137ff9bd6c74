"""A record as Markdown (CommonMark with tables): every typed sign shown as it is, none obeyed."""

from __future__ import annotations

import re
from collections.abc import Iterator

from guide.records.record import Record
from guide.records.section import Section
from guide.records.sections import heading, sections

OBEYED = re.compile(r"""([\\`*_\[\]<>|&~$"])""")
"""Signs that mean something inside a line."""
LINKED = re.compile(r"(?i)(//|@|\bwww\.|\.(?=[^\W\d_]))")
"""What some readers turn into a link by itself."""


def to_markdown(record: Record, language: str = "en") -> str:
    """The whole record as Markdown text."""
    title, *marks = heading(record, language)
    blocks = [f"# {cell(title)}", *_marked(marks)]
    for each in sections(record, language):
        blocks += [f"## {cell(each.title)}", *_marked(marks), *_section(each)]
    return "\n\n".join(blocks) + "\n"


def cell(text: str) -> str:
    """Text that may stand in a table cell or a heading: shown, never obeyed."""
    shown = OBEYED.sub(r"\\\1", text)
    return LINKED.sub(lambda found: found[0][:-1] + "\\" + found[0][-1], shown)


def _marked(marks: list[str]) -> Iterator[str]:
    """The marks, on every page: a reader that cuts at headings finds them under each."""
    if marks:
        yield f"**{cell(' · '.join(marks))}**"


def _section(section: Section) -> Iterator[str]:
    """A sentence and a table."""
    if section.said:
        yield cell(section.said)
    rows = (section.columns, tuple("---" for _ in section.columns), *map(_cells, section.rows))
    yield "\n".join(f"| {' | '.join(row)} |" for row in rows)


def _cells(row: tuple[str, ...]) -> tuple[str, ...]:
    """The cells of one row."""
    return tuple(map(cell, row))
