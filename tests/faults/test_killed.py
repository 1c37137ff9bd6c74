"""A process killed before any of its writes: what it was told is written is there, and whole.

Before each kill the journal is as a killed process leaves it, log and all. After it a new process
finds every acknowledged event byte for byte, the next one whole or not at all, nothing to hold
against the journal, and can go on. `tests/studies/faults.py` does it at every write there is.
"""

from __future__ import annotations

import pytest

WRITES = ("byte", "pwrite64", "pwritev", "write", "fsync", "fdatasync", "ftruncate", "unlink")


def at_writes(report: dict[str, dict[str, int]]) -> int:
    """How many of the kills were at a write, and not before a folder that is made."""
    return sum(report["calls"].get(name, 0) for name in WRITES)


def test_a_rehearsal_loses_nothing_wherever_it_is_killed(harness) -> None:
    """Every event of a whole rehearsal, two kills each, other places of the append each time."""
    found = harness("killing", "appending", "--points", 2, "--deeply", 6)
    assert found["wrong"] == []
    assert at_writes(found) >= 200
    assert found["resumed"] >= 40


@pytest.mark.parametrize(
    ("scene", "points", "least"),
    [("making", 60, 50), ("checkpointing", 40, 60), ("closing", 40, 30), ("forward", 60, 40)],
)
def test_nothing_is_lost_when_the_file_itself_is_worked_on(
    harness, scene: str, points: int, least: int
) -> None:
    """A new journal made, its log brought into the file, closed, a journal of version 1 brought
    forward."""
    told = ("--answers", "chuck-recheck-inch", "--points", points, "--deeply", 4)
    found = harness("killing", scene, *told)
    assert found["wrong"] == []
    assert at_writes(found) >= least


@pytest.mark.parametrize("scene", ["appending", "making", "checkpointing", "closing", "forward"])
def test_a_write_cut_short_at_any_byte_loses_nothing(harness, scene: str) -> None:
    """Killed in the midst of a write by a limit on file sizes: the way without ptrace as well."""
    points = {"appending": 2}.get(scene, 25)
    told = ("--answers", "chuck-recheck-inch", "--points", points, "--deeply", 5)
    found = harness("killing", scene, *told, "--way", "RLIMIT_FSIZE")
    assert found["wrong"] == []
    assert found["calls"]["byte"] >= 24


@pytest.mark.parametrize("way", ["", "RLIMIT_FSIZE"])
def test_the_kills_would_find_a_journal_that_is_written_carelessly(harness, way: str) -> None:
    """An event written apart from what is noted of it: some kill falls between the two."""
    told = ("--answers", "chuck-recheck-inch", "--points", 4, "--deeply", 99)
    found = harness("killing", "appending", *told, "--careless", *(["--way", way] if way else []))
    assert any("was not written through the journal" in each for each in found["wrong"])
