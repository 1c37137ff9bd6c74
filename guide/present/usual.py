"""Words that are usual where an answer is free: picked with one touch, so that nobody has to type.

What is usual at a lathe is common practice, no source.
"""

from __future__ import annotations

from guide.plain import N_
from guide.walk.answers import KIND

USUAL: dict[str, tuple[str, ...]] = {
    "chuck": (
        N_("the only adjustable chuck of this lathe"),
        N_("the only three-jaw chuck of this lathe"),
    ),
    "bolt-thread": ("M8", "M10", "M12", "3/8-16", "1/2-13"),
    "bolt-class": ("8.8", "10.9", "12.9", "grade 5", "grade 8"),
    "bolt-reach": (N_("from the front, through the body"), N_("from behind, through the plate")),
    "bolt-torque-source": (N_("the maker's sheet"), N_("marked on the plate or the body")),
    "indicator-name": (N_("it has no number"),),
    "marks": (
        N_("dots or numbers at the joints, lined up"),
        N_("a line scribed across the joints, lined up"),
        N_("no marks found"),
    ),
    "work": (N_("a bar"), N_("a workpiece")),
    "overhang": (
        N_("less than three times its thickness"),
        N_("three times its thickness or more"),
    ),
    "for-chuck": (
        N_("the only adjustable chuck of this lathe"),
        N_("the only three-jaw chuck of this lathe"),
    ),
    "clearance-from": (
        N_("the maker's sheet"),
        N_("the shop's own rule"),
        N_("common practice"),
    ),
    "limits-from": (
        N_("the maker's sheet"),
        N_("the last record"),
        N_("the shop's own rule"),
        N_("not known"),
    ),
    "lever-force": (
        N_("by hand on a bar, firmly, without body weight"),
        N_("by a spring balance, the maker's force"),
    ),
    "bar-number": (N_("it has no number"),),
    "told-whom": (
        N_("the supervisor, in person"),
        N_("who answers for the lathe, in person"),
    ),
    "jaw-set": (
        N_("the same set, put back"),
        N_("outside jaws out, inside jaws in"),
        N_("inside jaws out, outside jaws in"),
    ),
    "pinion": (N_("a dot or a number beside it"), N_("none is marked")),
    "projection": (
        N_("the mark on the jaw may not pass the rim"),
        N_("not known, no jaw passes the rim"),
    ),
    "grease": (
        N_("the maker's, by the manual"),
        N_("the shop's own, the maker's is not known"),
    ),
    "wear": (N_("none was seen"),),
    "findings": (
        N_("nothing"),
        N_("jaws worn at the front"),
        N_("dirt or a chip behind a jaw"),
    ),
    **dict.fromkeys(
        ("crash-notes", "plate-notes", "spindle-notes", "tail-notes"),
        (N_("nothing besides what is recorded"),),
    ),
}
"""Answers to facts by the fact's name."""
STOPPED = (
    N_("it does not come within tolerance"),
    N_("something is damaged or worn"),
    N_("something is missing"),
    N_("somebody else has to decide"),
)
"""Why work is stopped at a verdict."""
CORRECTED = (N_("mistyped"), N_("misread"), N_("looked again, it is otherwise"))
"""Why an answer is corrected."""
ABANDONED = (
    N_("the job is called off"),
    N_("something is damaged or worn"),
    N_("something is missing"),
    N_("opened by mistake"),
)
"""Why a setup is ended unfinished."""
PAUSED_FOR = (
    N_("a break"),
    N_("end of the shift"),
    N_("fetching something"),
    N_("asking somebody"),
)
"""Why a setup is paused."""
NOT_AS_WRITTEN = (
    N_("the lathe or the chuck is built differently"),
    N_("the tool for it is not here"),
    N_("the maker's manual says otherwise"),
)
"""Why a task is not done as written."""
SOURCES = (
    N_("the maker's sheet"),
    N_("marked on the plate or the body"),
    N_("the shop's own rule"),
)
"""Where a torque comes from."""
OFFERED = (*(each for words in USUAL.values() for each in words), *STOPPED, *CORRECTED, *ABANDONED,
           *PAUSED_FOR, *NOT_AS_WRITTEN, *SOURCES)  # fmt: skip
"""All that is picked and then stands in a record: kept as it is written, shown in any language."""
PEOPLE = (N_("Person 1"), N_("Person 2"))
LATHES = (N_("Lathe 1"), N_("Lathe 2"))
"""Names where none is known yet."""
UNITS: dict[str, tuple[str, ...]] = {
    "length": ("in", "mm"),
    "mass": ("lb", "kg"),
    "speed": (N_("rpm"),),
    "torque": ("lbf·ft", "N·m"),
}
"""The units that are picked, by the kind of an answer; others can be typed."""


def units(kind: str) -> tuple[str, ...]:
    """Units to pick for a kind of answer; none for what has no unit."""
    return UNITS[kind] if kind in KIND else ()
