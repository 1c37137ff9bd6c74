"""One lathe, one state."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.plain import NotAllowed
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.setup import Setup, open_setup

AT = "2031-03-02T08:00:00.000Z"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "journal.sqlite3") as one:
        yield one


@pytest.fixture(scope="module")
def removal() -> Procedure:
    """The shorter procedure."""
    return find("chuck-removal")


def opened(store: Store, procedure: Procedure, setup: str, lathe: str, mode: str) -> Setup:
    """A setup just opened."""
    return open_setup(
        store, procedure, setup=setup, person="A. Sample", at=AT, lathe=lathe, mode=mode
    )


def test_a_lathe_has_at_most_one_open_setup(store: Store, removal: Procedure) -> None:
    """The second one is refused by the name of the first, however the lathe is spelled."""
    opened(store, removal, "first", "Lathe 2", "real")
    with pytest.raises(NotAllowed, match="first"):
        opened(store, removal, "second", "  lathe 2 ", "real")
    assert store.events("second") == ()
    opened(store, removal, "third", "Lathe 3", "real")


def test_an_abandoned_setup_says_how_the_lathe_stands_to_the_next(
    store: Store, removal: Procedure
) -> None:
    """The world it was left in is the first thing that the next setup's record holds."""
    first = opened(store, removal, "first", "Lathe 2", "real")
    first.act("abandon", {"why": "called away (invented)"}, person="A. Sample", at=AT)
    left = store.events("first")[-1].data
    assert (left["ends"], left["world"]["carried"]) == ("abandoned", "unknown")
    before = opened(store, removal, "second", "Lathe 2", "real").state.opening["lathe_before"]
    assert (before["setup"], before["ends"]) == ("first", "abandoned")
    assert before["world"] == left["world"]


def test_a_setup_is_not_abandoned_without_a_reason(store: Store, removal: Procedure) -> None:
    """And nothing is added after it was."""
    first = opened(store, removal, "first", "Lathe 2", "real")
    for why in ("", "   "):
        with pytest.raises(Exception, match="reason"):
            first.act("abandon", {"why": why}, person="A. Sample", at=AT)
    first.act("abandon", {"why": "invented"}, person="A. Sample", at=AT)
    with pytest.raises(NotAllowed, match="ended"):
        first.act("resume", {}, person="A. Sample", at=AT)


def test_rehearsals_stand_in_no_real_lathes_way(store: Store, removal: Procedure) -> None:
    """Nor do real setups in theirs."""
    opened(store, removal, "rehearsed", "Lathe 2", "rehearsal")
    opened(store, removal, "real", "Lathe 2", "real")
    opened(store, removal, "again", "Lathe 2", "rehearsal")
