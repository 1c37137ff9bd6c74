"""A titled table, and the heads of the columns that the tables have."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guide.plain import N_
from guide.present.words import say

Rows = tuple[tuple[str, ...], ...]

RESULTS = (
    N_("No."),
    N_("What"),
    N_("When"),
    N_("Who"),
    N_("Readings"),
    N_("Runout or play"),
    N_("U (k = 2)"),
    N_("Below, at 95 %"),
    N_("Tolerance"),
    N_("Verdict"),
    N_("High at"),
    N_("Stands"),
    N_("Rule"),
    N_("Flags"),
)
LINES = (N_("No."), N_("When"), N_("Who"), N_("Stage"), N_("Step"), N_("Entered"), N_("Note"))
GATES = (
    N_("No."),
    N_("When"),
    N_("Who"),
    N_("Gate"),
    N_("Each confirmed by its own number"),
    N_("Seconds"),
    N_("Note"),
)
SIGNATURES = (
    N_("No."),
    N_("When"),
    N_("Printed name"),
    N_("Role"),
    N_("Under"),
    N_("Meaning"),
    N_("Key"),
)
PEOPLE = (N_("Name"), N_("Role"), N_("Public key"))
DEVIATIONS = (N_("No."), N_("When"), N_("Who"), N_("Step"), N_("Why"), N_("Allowed by"))
ANSWERS = (N_("Name"), N_("Asked"), N_("Answer"), N_("Before"))
"""The heads of the columns of each table."""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, perhaps a sentence under it, and a table."""

    title: str
    columns: tuple[str, ...]
    rows: Rows
    said: str = ""
    plain: int = 2
    """How many cells of a row tell by themselves what they are."""
    picture: str = ""
    """What a form that can draw shows with it: `face` or `code`."""


def when(at: str) -> str:
    """A stored time as people read it, to the second, still UTC."""
    return f"{at[:10]} {at[11:19]}Z"


def used(section: Section) -> Section:
    """The section without the columns behind the plain ones that no row fills."""
    kept = [
        number
        for number in range(len(section.columns))
        if number < section.plain or any(row[number] for row in section.rows)
    ]
    return replace(
        section,
        columns=tuple(section.columns[number] for number in kept),
        rows=tuple(tuple(row[number] for number in kept) for row in section.rows),
    )


def heads(columns: Iterable[str], language: str) -> tuple[str, ...]:
    """Column heads in the reader's language."""
    return tuple(say(each, language) for each in columns)
