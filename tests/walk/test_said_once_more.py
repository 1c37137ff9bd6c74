"""What is odd is refused once, nothing is written, and it is taken and marked when said again."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.plain import BadInput
from guide.present.sheet import lines
from guide.procedure.shelf import find
from guide.walk.setup import Setup, open_setup, replayed

AT = "2031-03-02T08:00:00.000Z"
JOB = {
    "nose": "camlock", "guard-fitted": "yes", "chuck-kind": "independent", "unit": "in",
    "graduation": "0.0005 in", "tolerance": "0.002 in", "direction": "forward",
    "lathe": "Lathe 2 (invented)",
}  # fmt: skip
CENTRING = find("quick-centring")
ODD = {**JOB, "graduation": ".0005 mm"}
SENTENCE = "another unit"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "journal.sqlite3") as one:
        yield one


def opened(store: Store, typed_at: str = "terminal") -> Setup:
    """A setup at its first page."""
    return open_setup(
        store, CENTRING, setup="one", person="A. Sample", at=AT, lathe=JOB["lathe"],
        typed_at=typed_at,
    )  # fmt: skip


def answer(walk: Setup, facts: dict[str, str]) -> None:
    """Record the page."""
    walk.act("record", {"facts": facts}, person="A. Sample", at=AT)


def note(walk: Setup) -> str:
    """What stands beside the latest line of the sheet."""
    return lines(walk.state, walk.procedure)[-1].note


def test_an_odd_answer_is_refused_the_first_time_and_nothing_is_written(store: Store) -> None:
    """A division in millimetres on a dial in inches would make U 25 times too small."""
    walk = opened(store)
    with pytest.raises(BadInput, match=SENTENCE):
        answer(walk, ODD)
    assert walk.state.sequence == 1
    assert len(store.events("one")) == 1


def test_said_once_more_it_is_taken_and_the_sheet_says_so_for_ever(store: Store) -> None:
    """Whoever reads the record sees it too, whenever it is read."""
    walk = opened(store)
    with pytest.raises(BadInput):
        answer(walk, ODD)
    answer(walk, ODD)
    assert walk.state.facts["graduation"] == ".0005 mm"
    assert SENTENCE in note(walk)
    assert SENTENCE in note(replayed(store, "one"))


def test_put_right_instead_it_is_taken_at_once_without_a_mark(store: Store) -> None:
    """Nothing of the refusal stays."""
    walk = opened(store)
    with pytest.raises(BadInput):
        answer(walk, ODD)
    answer(walk, JOB)
    assert note(walk) == ""


def test_each_odd_answer_of_a_page_is_said_by_itself(store: Store) -> None:
    """One sentence at a time is read; two are not."""
    walk = opened(store)
    both = {**ODD, "tolerance": "4 in"}
    with pytest.raises(BadInput, match=SENTENCE):
        answer(walk, both)
    with pytest.raises(BadInput, match="far more than runout"):
        answer(walk, both)
    answer(walk, both)


def test_a_correction_that_makes_an_answer_odd_is_asked_once_more(store: Store) -> None:
    """The unit is changed, and the division stands in the other."""
    walk = opened(store)
    answer(walk, JOB)
    change = {"fact": "unit", "old": "in", "new": "mm", "why": "misread"}
    with pytest.raises(BadInput, match=SENTENCE):
        walk.act("correct", change, person="A. Sample", at=AT)
    walk.act("correct", change, person="A. Sample", at=AT)
    assert SENTENCE in note(walk)


def test_an_answers_file_is_taken_as_it_is_and_marked(store: Store) -> None:
    """Nobody is there to say it once more."""
    walk = opened(store, typed_at="a file")
    answer(walk, ODD)
    assert SENTENCE in note(walk)
