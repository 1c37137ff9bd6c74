"""One lathe, one state."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

from guide.journal.store import Store
from guide.plain import NotAllowed
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.setup import Setup, open_setup, resume_setup
from guide.walk.world import as_dict

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


def test_a_setup_abandoned_with_a_load_hanging_says_what_hangs_where(
    store: Store, driver: ModuleType, memory: ModuleType
) -> None:
    """The next setup on that lathe is shown it, and begins at its own first look all the same."""
    mounting = find("adjustable-chuck")
    case = next(iter(driver.cases(mounting)))
    walk = driver.opened(memory.Memory(), mounting, mode="real")
    while as_dict(walk.state.world)["carried"] != "chuck":
        driver.do(walk, driver.usual(walk, case.facts))
    hanging = as_dict(walk.state.world)
    driver.do(walk, ("abandon", {"why": "called away (invented)"}))
    store.keep_text(mounting.text)
    for event in walk.journal.events("walk"):
        store.append(event)
    opened_next = opened(store, mounting, "next", driver.LATHE, "real")
    told = opened_next.state.opening["lathe_before"]
    assert dict(told["world"]) == hanging
    assert (told["world"]["carried"], told["ends"]) == ("chuck", "abandoned")
    assert set(opened_next.state.world) == {"unknown"}
    assert opened_next.state.place == mounting.steps[0].name


def test_a_real_setup_is_shown_no_rehearsed_lathe(
    store: Store, removal: Procedure, driver: ModuleType
) -> None:
    """What was rehearsed or practised on a lathe says nothing about how it stands."""
    for mode in ("rehearsal", "practice"):
        tried = opened(store, removal, mode, "Lathe 2", mode)
        driver.do(tried, ("abandon", {"why": "invented"}))
    assert "lathe_before" not in opened(store, removal, "real", "Lathe 2", "real").state.opening


def test_a_lathe_is_free_again_once_its_setup_has_ended(
    store: Store, removal: Procedure, driver: ModuleType
) -> None:
    """Finished or abandoned by a branch, the next setup opens and is shown how it was left."""
    case = next(iter(driver.cases(removal)))
    first = opened(store, removal, "first", driver.LATHE, "real")
    driver.walked(first, case.facts)
    assert first.state.place == "finished"
    second = opened(store, removal, "second", driver.LATHE, "real")
    assert second.state.opening["lathe_before"]["ends"] == "finished"
    driver.walked(second, {**case.facts, "on-nose": "unknown"})
    assert second.state.place == "abandoned"
    third = opened(store, removal, "third", driver.LATHE, "real")
    assert third.state.opening["lathe_before"]["setup"] == "second"


def test_a_setup_that_is_paused_or_left_open_still_holds_its_lathe(
    store: Store, removal: Procedure, driver: ModuleType
) -> None:
    """Neither a pause nor the end of a process frees it; resuming it does not need it free."""
    first = opened(store, removal, "first", "Lathe 2", "real")
    driver.do(first, ("pause", {"why": "invented"}))
    with pytest.raises(NotAllowed, match="first"):
        opened(store, removal, "second", "Lathe 2", "real")
    again = resume_setup(store, "first", person="A. Sample", at=AT)
    assert again.state.place == removal.steps[0].name
    with pytest.raises(NotAllowed, match="first"):
        opened(store, removal, "second", "Lathe 2", "real")


def test_a_lathe_is_one_however_its_name_is_spaced(store: Store, removal: Procedure) -> None:
    """Two blanks for one open no second setup, and the name can be answered as it was opened."""
    first = opened(store, removal, "first", "Lathe  2", "real")
    with pytest.raises(NotAllowed, match="first"):
        opened(store, removal, "second", "Lathe 2", "real")
    facts = {"lathe": "Lathe  2", "nose": "long", "nose-size": "unknown", "guard-fitted": "yes"}
    first.act("record", {"facts": facts}, person="A. Sample", at=AT)


def test_a_rehearsal_is_shown_no_lathe_before(
    store: Store, removal: Procedure, driver: ModuleType
) -> None:
    """Rehearsed twice into one journal, a setup's record is the same."""
    for setup in ("first", "second"):
        walk = opened(store, removal, setup, "Lathe 2", "rehearsal")
        assert "lathe_before" not in walk.state.opening
        driver.do(walk, ("abandon", {"why": "invented"}))
