"""A record in lines: one a row, its cells with their heads."""

from __future__ import annotations

from guide.linear.lines import Lines
from guide.records.record import Record
from guide.records.section import Section
from guide.records.sections import heading, sections


def read_record(lines: Lines, record: Record, language: str) -> None:
    """The whole record, its marks first."""
    for each in heading(record, language):
        lines.tell(each)
    for section in sections(record, language):
        lines.tell()
        lines.tell(f"{section.title}:")
        if section.said:
            lines.tell(section.said)
        for row in section.rows:
            lines.tell(_row(row, section))


def _row(row: tuple[str, ...], section: Section) -> str:
    """A word and what is known of it, or the cells of a table."""
    if not any(section.columns):
        return f"{row[0]}: {row[1]}"
    plain = section.plain
    headed = zip(section.columns[plain:], row[plain:], strict=True)
    return "; ".join((*filter(None, row[:plain]), *(f"{h}: {c}" for h, c in headed if c)))
