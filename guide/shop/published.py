"""Published tables: CSV files that name their source in line one."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

TABLES = Path(__file__).parent / "tables"


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of the table `name`, each a dict of column to text as printed."""
    return tuple(csv.DictReader(_lines(name)[1:]))


def source_line(name: str) -> str:
    """What line one of the table `name` says about where it comes from."""
    return _lines(name)[0].removeprefix("#").strip()


@cache
def _lines(name: str) -> tuple[str, ...]:
    """The lines of the file, in UTF-8."""
    return tuple((TABLES / f"{name}.csv").read_text(encoding="utf-8").splitlines())
