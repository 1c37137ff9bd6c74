"""What earlier setups answered is offered again, by lathe and by dial, and never taken as said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.walk.remembered import filled_in, left_by_the_last, remembered
from guide.walk.setup import Setup, open_setup

AT = "2031-03-02T08:00:00.000Z"
JOB = {
    "nose": "camlock", "guard-fitted": "yes", "chuck-kind": "independent", "unit": "in",
    "graduation": "0.0005 in", "tolerance": "0.002 in", "direction": "forward",
}  # fmt: skip
CENTRING = find("quick-centring")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "journal.sqlite3") as one:
        yield one


def told(store: Store, setup: str, lathe: str, mode: str = "real", **other: str) -> Setup:
    """A setup whose first page was answered and that was then given up."""
    walk = open_setup(
        store, CENTRING, setup=setup, person="A. Sample", at=AT, lathe=lathe, mode=mode
    )
    facts = {**JOB, **{n.replace("_", "-"): each for n, each in other.items()}, "lathe": lathe}
    walk.act("record", {"facts": facts}, person="A. Sample", at=AT)
    walk.act("abandon", {"why": "invented"}, person="A. Sample", at=AT)
    return walk


def test_nothing_is_remembered_where_nothing_was_answered(store: Store) -> None:
    """The first setup of a journal begins with blank lines."""
    assert remembered(store, CENTRING, "Lathe 2") == {}


def test_the_same_lathe_is_offered_all_that_was_answered_on_it(store: Store) -> None:
    """However its name is spelled."""
    told(store, "first", "Lathe 2")
    assert remembered(store, CENTRING, "  lathe  2") == JOB


def test_another_lathe_is_offered_the_dial_alone(store: Store) -> None:
    """Its nose, its guard and its chuck are its own."""
    told(store, "first", "Lathe 2")
    found = remembered(store, CENTRING, "Lathe 3")
    assert found == {n: JOB[n] for n in ("unit", "graduation", "tolerance", "direction")}


def test_the_latest_answer_counts_and_what_was_only_practised_does_not(store: Store) -> None:
    """The last real setup; a rehearsal on the same lathe says nothing."""
    told(store, "first", "Lathe 2", tolerance="0.005 in")
    told(store, "second", "Lathe 2", tolerance="0.003 in")
    told(store, "third", "Lathe 2", mode="rehearsal", tolerance="0.009 in")
    assert remembered(store, CENTRING, "Lathe 2")["tolerance"] == "0.003 in"


def test_a_corrected_answer_is_remembered_as_corrected(store: Store) -> None:
    """What was wrong is not offered again."""
    walk = open_setup(store, CENTRING, setup="one", person="A. Sample", at=AT, lathe="Lathe 2")
    walk.act("record", {"facts": {**JOB, "lathe": "Lathe 2"}}, person="A. Sample", at=AT)
    change = {"fact": "tolerance", "old": "0.002 in", "new": "0.004 in", "why": "misread"}
    walk.act("correct", change, person="A. Sample", at=AT)
    assert remembered(store, CENTRING, "Lathe 2")["tolerance"] == "0.004 in"


def test_what_no_longer_fits_is_asked_anew(store: Store) -> None:
    """An answer that the procedure does not take, or that was not known."""
    told(store, "first", "Lathe 2")
    nose = CENTRING.facts["nose"]
    narrower = replace(nose, of={"long": nose.of["long"]})
    other = replace(CENTRING, facts={**CENTRING.facts, "nose": narrower})
    assert "nose" not in remembered(store, other, "Lathe 2")


def test_what_is_remembered_is_shown_and_not_answered(store: Store) -> None:
    """It stands on the page, and the setup knows nothing until a person enters it."""
    offered = {"nose": "camlock"}
    walk = open_setup(
        store, CENTRING, setup="one", person="A. Sample", at=AT, lathe="Lathe 2",
        remembered=offered,
    )  # fmt: skip
    assert "nose" not in walk.state.facts
    assert filled_in(CENTRING.facts["nose"], walk.state) == "camlock"
    assert filled_in(CENTRING.facts["direction"], walk.state) == "forward"
    assert filled_in(CENTRING.facts["tolerance"], walk.state) == ""
    assert store.events("one")[0].data["remembered"] == offered


def test_an_answer_that_was_given_stands_before_what_is_remembered(store: Store) -> None:
    """The page comes back with what was entered on it."""
    walk = open_setup(
        store, CENTRING, setup="one", person="A. Sample", at=AT, lathe="Lathe 2",
        remembered={"nose": "camlock"},
    )  # fmt: skip
    facts = {**JOB, "nose": "long", "lathe": "Lathe 2"}
    walk.act("record", {"facts": facts}, person="A. Sample", at=AT)
    assert filled_in(CENTRING.facts["nose"], walk.state) == "long"


@pytest.mark.parametrize(("now", "stands"), [("chuck 7", "toward"), ("Chuck 9", "")])
def test_what_was_told_of_one_chuck_is_not_offered_for_another(
    store: Store, now: str, stands: str
) -> None:
    """Which way its screws push was said of the chuck that was named with it."""
    job = find("adjustable-chuck")
    walk = open_setup(
        store, job, setup="one", person="A. Sample", at=AT, lathe="Lathe 2",
        remembered={"chuck": "Chuck 7", "sense": "toward", "nose": "camlock"},
    )  # fmt: skip
    assert filled_in(job.facts["sense"], walk.state) == "toward"
    state = replace(walk.state, facts={**walk.state.facts, "chuck": now})
    assert filled_in(job.facts["sense"], state) == stands
    assert filled_in(job.facts["nose"], state) == "camlock"


def test_how_the_last_setup_left_the_lathe_is_shown_and_not_recorded(store: Store) -> None:
    """The first look shows it; the new setup's own state stays unknown."""
    told(store, "first", "Lathe 2")
    walk = open_setup(store, CENTRING, setup="two", person="A. Sample", at=AT, lathe="Lathe 2")
    before = {"world": {"body": "apart", "seat": "nonsense"}}
    state = replace(walk.state, opening={**walk.state.opening, "lathe_before": before})
    assert left_by_the_last("body", state) == "apart"
    assert left_by_the_last("seat", state) == "unknown"
    assert left_by_the_last("bolts", state) == "unknown"
    assert set(state.world) == {"unknown"}


@pytest.mark.parametrize("kind", ["independent", "adjustable"])
def test_the_sense_of_jaws_is_settled_and_that_of_screws_is_asked(store: Store, kind: str) -> None:
    """A jaw that is driven in pushes the work away, and there are four; screws are counted."""
    walk = open_setup(store, CENTRING, setup="one", person="A. Sample", at=AT, lathe="Lathe 2")
    facts = {**JOB, "chuck-kind": kind, "lathe": "Lathe 2"}
    state = walk.act("record", {"facts": facts}, person="A. Sample", at=AT)
    settled = {name: state.facts.get(name) for name in ("sense", "screw-count")}
    jaws = {"sense": "away", "screw-count": "4"}
    assert settled == (jaws if kind == "independent" else dict.fromkeys(jaws))
    assert state.place == ("cut" if kind == "independent" else "screws")


def test_what_jaws_settled_goes_when_they_turn_out_to_be_screws(store: Store) -> None:
    """The page done again with the other answer asks for the sense of the screws."""
    walk = open_setup(store, CENTRING, setup="one", person="A. Sample", at=AT, lathe="Lathe 2")
    facts = {**JOB, "lathe": "Lathe 2"}
    walk.act("record", {"facts": facts}, person="A. Sample", at=AT)
    walk.act("again", {"step": "job"}, person="A. Sample", at=AT)
    other = {**facts, "chuck-kind": "adjustable"}
    state = walk.act("record", {"facts": other}, person="A. Sample", at=AT)
    assert not {"sense", "screw-count"} & state.facts.keys()
