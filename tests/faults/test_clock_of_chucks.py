"""What a chuck's result is worth rests on what was written last, not on what the clock said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from guide.equipment.equipment import Equipment
from guide.journal.store import Store
from guide.people.people import People
from guide.people.rules import Rules
from guide.procedure.shelf import find
from guide.records.history import standing
from guide.records.recheck import DATED, MOVED, VOIDED
from guide.rehearse import Answer, Answers, go_on, read_answers
from guide.walk.setup import open_setup

ANSWERS = Path(__file__).parents[1] / "answers" / "chuck-recheck-inch.yaml"
PERSON = "A. Sample"
LATHES = ("Lathe 2 (invented)", "Lathe 3 (invented)")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """The journal of somebody alone who signs nothing."""
    with Store(tmp_path / "home" / "journal.sqlite3") as store:
        People(store).set_rules(PERSON, Rules(sign_on=False), "2026-01-01T00:00:00.000Z")
        yield store


def at_lathe(answer: Answer, lathe: str) -> Answer:
    """The answer, given at another lathe."""
    facts = answer.data.get("facts")
    if not facts or "lathe" not in facts:
        return answer
    return replace(answer, data={**answer.data, "facts": {**facts, "lathe": lathe}})


def trued(store: Store, setup: str, lathe: str = LATHES[0], days: int = 0) -> Answers:
    """A chuck that was looked at, so many days after that of the answers file."""
    answers = read_answers(ANSWERS)
    begins = answers.begins + timedelta(days=days)
    told = tuple(at_lathe(each, lathe) for each in answers.answers)
    answers = replace(answers, begins=begins, answers=told)
    walk = open_setup(
        store, find(answers.procedure), setup=setup, person=PERSON, at=answers.at(0), lathe=lathe
    )
    go_on(walk, answers, answers.answers)
    return answers


def states(store: Store) -> dict[str, str]:
    """Where the chuck stands, by lathe."""
    return {each.lathe: each.state for each in standing(store)}


@pytest.mark.parametrize("days", [1, 0, -1, -400])
def test_a_crash_ends_a_result_by_whatever_clock_it_was_written(store: Store, days: int) -> None:
    """Else a chuck that has had a crash would be shown as true until its date."""
    answers = trued(store, "before")
    assert states(store) == {LATHES[0]: DATED}
    (chuck,) = {each.chuck for each in standing(store)}
    later = replace(answers, begins=answers.begins + timedelta(days=days))
    Equipment(store).voided(PERSON, chuck, "a crash (invented)", later.at(999 * (days >= 0)))
    assert states(store) == {LATHES[0]: VOIDED}


@pytest.mark.parametrize("days", [1, -1, -400])
def test_a_result_after_a_crash_counts_by_whatever_clock_it_was_read(
    store: Store, days: int
) -> None:
    """The chuck was looked at again and a day was given."""
    answers = trued(store, "before")
    (chuck,) = {each.chuck for each in standing(store)}
    Equipment(store).voided(PERSON, chuck, "a crash (invented)", answers.at(999))
    trued(store, "after", days=days)
    assert states(store) == {LATHES[0]: DATED}


@pytest.mark.parametrize("days", [1, -1, -400])
def test_a_chuck_is_where_it_was_written_last(store: Store, days: int) -> None:
    """On another lathe, by a clock that was set back: it is not on the first any more."""
    trued(store, "one", LATHES[0])
    trued(store, "other", LATHES[1], days)
    assert states(store) == {LATHES[0]: MOVED, LATHES[1]: DATED}
