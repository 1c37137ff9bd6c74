"""Bolt classes: the proof stress and yield strength that the mark on a bolt's head stands for."""

from __future__ import annotations

from dataclasses import dataclass

from guide.plain import N_, BadInput
from guide.shop.published import rows
from guide.shop.threads import MM_PER_IN, Thread

MPA_PER_KSI = 6.894757293168361
"""1000 lbf/in², from the exact pound, inch and standard gravity (`exact-units`)."""


@dataclass(frozen=True, slots=True)
class BoltClass:
    """One class at one diameter, in MPa."""

    name: str
    proof_mpa: float
    yield_mpa: float


def bolt_class(name: str, thread: Thread) -> BoltClass:
    """The class 8.8, 10.9 or 12.9 (ISO 898-1) or grade 5 or 8 (SAE J429) of a bolt of this thread.

    Sources `iso-898-1`, `iso-898-1-yield`, `sae-j429`. BadInput for any other, and for a metric
    class on an inch thread or the other way round.
    """
    size = thread.diameter_mm / (MM_PER_IN if thread.system == "inch" else 1)
    to_mpa = MPA_PER_KSI if thread.system == "inch" else 1
    for row in _rows(thread.system):
        if row["class"] == name.strip() and size <= float(row["up_to"]):
            return BoltClass(
                row["class"], float(row["proof"]) * to_mpa, float(row["yield"]) * to_mpa
            )
    raise BadInput(
        N_("{name} is not a class known here for {thread}."),
        N_("Read the mark on the bolt's head; known are {names}."),
        name=name,
        thread=thread.name,
        names=", ".join(dict.fromkeys(row["class"] for row in _rows(thread.system))),
    )


def _rows(system: str) -> list[dict[str, str]]:
    """The table's rows for metric or inch bolts, smallest diameter first."""
    return [row for row in rows("bolt_classes") if row["system"] == system]
