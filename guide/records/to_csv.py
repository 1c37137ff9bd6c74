"""The readings as a table that a spreadsheet reads (RFC 4180, UTF-8, CRLF): a dial value a row.

The figures of a turn stand again in each of its rows, so that every row can be sorted and counted
by itself. `typed` is as it was typed, `value` the same number with a decimal point. What people
typed as text never becomes a formula: a cell that would begin one gets an apostrophe before it.
"""

from __future__ import annotations

import csv
import re
from io import StringIO

from guide.measure.numerals import parse_number
from guide.plain import BadInput
from guide.records.record import Dial, Record, Result

FIGURES = (
    "judged", "expanded_uncertainty", "at_most", "fitted_tir", "observed_tir", "eccentricity",
    "high_at_deg", "form", "play", "along", "set_over", "grips", "range", "middle_moved", "verdict",
    "rule", "factor",
)  # fmt: skip
COLUMNS = (
    "setup", "sequence", "at", "person", "what", "read", "station", "angle_deg", "screw", "typed",
    "value", "unit", *FIGURES, "tolerance", "stands", "lathe", "chuck", "marks",
)  # fmt: skip
"""Heads; they stay as they are in every language, for programs."""

BEGINS_A_FORMULA = re.compile(r"\s*[=+\-@\uff1d\uff0b\uff0d\uff20|%]")
"""By what spreadsheets tell a formula, also in full width."""
NUMBER = re.compile(r"[-+]?(\d+([.,]\d*)?|[.,]\d+)", re.ASCII)


def to_csv(record: Record, language: str = "en") -> str:
    """Every value of a dial, one a row, under one row of heads."""
    by_event = {each.sequence: each for each in record.results}
    told = {each.name: each.answer for each in record.answers}
    tail = (told.get("lathe", ""), told.get("chuck", ""), " · ".join(record.marks))
    file = StringIO(newline="")
    rows = csv.writer(file, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for each in record.dials:
        cells = (*_row(record, each), *_figures(by_event.get(each.sequence)), *tail)
        rows.writerow(map(harmless, cells))
    return file.getvalue()


def harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; a number stays a number."""
    return f"'{cell}" if BEGINS_A_FORMULA.match(cell) and not NUMBER.fullmatch(cell) else cell


def _row(record: Record, each: Dial) -> tuple[str, ...]:
    """One value and where it was read."""
    return (
        record.setup, str(each.sequence), each.at, each.person, each.what, each.read, each.station,
        each.angle, each.screw, each.typed, _value(each.typed), each.unit,
    )  # fmt: skip


def _value(typed: str) -> str:
    """The number that was typed, with a decimal point; blank where it is none."""
    try:
        return f"{parse_number(typed):f}"
    except BadInput:
        return ""


def _figures(result: Result | None) -> tuple[str, ...]:
    """What the turn came to, in the unit of the row."""
    if result is None:
        return ("",) * (len(FIGURES) + 2)
    figures = (result.figures.get(name, "") for name in FIGURES)
    return (*figures, result.tolerance, result.stands)
