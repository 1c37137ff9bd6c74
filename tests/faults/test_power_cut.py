"""The power cut at any moment: what was acknowledged is on the disk, whatever else is not.

A kill takes nothing from the system's own memory; a power cut takes everything that was not synced.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.journal.store import Store


def durable(folder: Path) -> list[object]:
    """What a journal is opened with, where writes cannot be watched: 2 is FULL."""
    with Store(folder / "journal.sqlite3") as store:
        asked = ("PRAGMA synchronous", "PRAGMA journal_mode")
        return [store._base.execute(each).fetchone()[0] for each in asked]


LONG, SHORT = "wal_autocheckpoint=1000", "wal_autocheckpoint=8"


@pytest.mark.parametrize("pragmas", [[], [SHORT], [LONG]], ids=["as it is", "short", "long"])
def test_no_acknowledged_event_is_lost_in_a_power_cut(
    harness, tmp_path: Path, pragmas: list[str]
) -> None:
    """From the making of the file to its closing, at 150 places, unsynced writes lost and torn."""
    found = harness("cutting", "--cuts", 150, "--pragmas", *pragmas)
    assert durable(tmp_path) == [2, "wal"]
    assert found["wrong"] == []
    if found["way"] == "ptrace":
        assert found["cuts"] >= 145
        assert found["with_something_unsynced"] >= 110


def test_the_cuts_would_find_a_journal_that_is_not_synced(harness) -> None:
    """With SQLite's next lower level of syncing, acknowledged events go."""
    found = harness("cutting", "--cuts", 60, "--pragmas", LONG, "synchronous=NORMAL")
    lost = [each for each in found["wrong"] if "that were acknowledged" in each]
    assert lost or found["way"] != "ptrace"
