"""A line that is dated before the one before it says so; the order is that of the numbers."""

from __future__ import annotations

from pathlib import Path

from guide.journal.store import Store
from guide.present.sheet import lines
from guide.procedure.shelf import find
from guide.walk.setup import open_setup

NOTE = "the clock had been set back"


def test_only_the_line_after_which_the_clock_went_back_is_noted(tmp_path: Path) -> None:
    """Paused an hour before the setup was opened, then resumed a minute later."""
    with Store(tmp_path / "journal.sqlite3") as store:
        setup = open_setup(
            store, find("chuck-removal"), setup="a", person="A. Sample", lathe="Lathe 2",
            at="2030-01-31T07:05:00.000Z",
        )  # fmt: skip
        setup.act("pause", {"why": ""}, person="A. Sample", at="2030-01-31T06:05:00.000Z")
        setup.act("resume", {}, person="A. Sample", at="2030-01-31T06:06:00.000Z")
        told = lines(setup.state, setup.procedure)
    assert [each.sequence for each in told] == [1, 2, 3]
    assert [NOTE in each.note for each in told] == [False, True, False]
