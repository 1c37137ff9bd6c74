"""A clock that is set back, stands still or is thrown about: nothing right is refused, and first is
what was written first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from random import Random
from typing import Any

import pytest

from guide.journal import keys
from guide.journal.event import Event
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.present.entered import CLOCK_SET_BACK
from guide.procedure.shelf import find
from guide.records.evidence import faults
from guide.records.of_setup import record_of
from guide.records.to_text import to_text
from guide.rehearse import Answers, give, go_on, read_answers, stamp
from guide.walk.setup import Setup, open_setup, replayed, resume_setup

ANSWERS = Path(__file__).parents[1] / "answers"
BEGUN = datetime(2031, 3, 2, 8, tzinfo=UTC)
FIRST, LAST = "0001-01-01T00:00:00.000Z", "9999-12-31T23:59:59.999Z"


def thrown(number: int) -> str:
    """Any moment within a hundred years."""
    return stamp(BEGUN + timedelta(seconds=Random(number).randint(-(10**9), 10**9)))


def once(number: int) -> str:
    """Set back by a year after some events."""
    return stamp(BEGUN + timedelta(minutes=number - 525_600 * (number > 9)))


CLOCKS: dict[str, Callable[[int], str]] = {
    "going on": lambda number: stamp(BEGUN + timedelta(minutes=number)),
    "backwards": lambda number: stamp(BEGUN - timedelta(minutes=number)),
    "standing still": lambda _: stamp(BEGUN),
    "set back once": once,
    "thrown about": thrown,
    "to both ends of time": lambda number: (FIRST, LAST)[number % 2],
}


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "home" / "journal.sqlite3") as store:
        yield store


def opened(store: Store, answers: Answers, setup: str, at: str, mode: str = "rehearsal") -> Setup:
    """A setup of a rehearsal's, opened at some moment."""
    return open_setup(
        store, find(answers.procedure), setup=setup, person=answers.person, at=at,
        lathe=answers.lathe, mode=mode, typed_at="file",
    )  # fmt: skip


def walked(store: Store, answers: Answers, setup: str, clock: Callable[[int], str]) -> Setup:
    """A whole rehearsal by some clock."""
    walk = opened(store, answers, setup, clock(0))
    for number, answer in enumerate(answers.answers, start=1):
        give(walk, answer, clock(number))
    return walk


SOUND: dict[str, list[Any]] = {}


def sound(place: pytest.TempPathFactory, name: str) -> list[Any]:
    """What is said by a clock that goes on as it should, walked once."""
    if name not in SOUND:
        with Store(place.mktemp("sound") / "journal.sqlite3") as store:
            walked(store, read_answers(ANSWERS / f"{name}.yaml"), "tried", CLOCKS["going on"])
            SOUND[name] = list(map(said, store.events("tried")))
    return SOUND[name]


def said(event: Event) -> tuple[str, str, str, int, Mapping[str, object]]:
    """What an event says besides its time and its place in the chain."""
    data = {name: each for name, each in event.data.items() if name != "outcome"}
    return event.person, event.step, event.kind, event.sequence, data


@pytest.mark.parametrize("clock", CLOCKS)
@pytest.mark.parametrize(
    "name", ["chuck-recheck-inch", "adjustable-chuck-metric", "quick-centring-inch"]
)
def test_a_walk_is_the_same_by_any_clock(
    store: Store, tmp_path_factory: pytest.TempPathFactory, name: str, clock: str
) -> None:
    """Every event is taken and says the same, nothing is held against it, and its record shows each
    event in order and tells where the clock was set back.
    """
    answers = read_answers(ANSWERS / f"{name}.yaml")
    walk = walked(store, answers, "tried", CLOCKS[clock])
    other = store.events("tried")
    assert list(map(said, other)) == sound(tmp_path_factory, name)
    assert len(other) >= 28
    assert list(faults(store)) == []
    assert replayed(store, "tried").state == walk.state
    record = record_of(walk, store)
    assert record.events == len(other)
    set_back = any(after.at < before.at for before, after in pairwise(other))
    assert (CLOCK_SET_BACK in to_text(record, "en")) == set_back


def by(answers: Answers, days: int) -> Answers:
    """The same answers, begun so many days later."""
    return replace(answers, begins=answers.begins + timedelta(days=days))


DAYS = (0, -1, -4000, 30, -1)
"""When each run begins, in days after the day of the answers file."""


def test_runs_are_listed_in_the_order_in_which_they_were_written(store: Store) -> None:
    """Five real setups of one chuck on one lathe, each by another clock: what the lathe was left
    like, which setup is the latest and which is the chuck's last result is by order alone.
    """
    answers = read_answers(ANSWERS / "chuck-recheck-inch.yaml")
    names = [f"run-{number}" for number in range(len(DAYS))]
    for name, days in zip(names, DAYS, strict=True):
        told = by(answers, days)
        go_on(opened(store, told, name, told.at(0), "real"), told, told.answers)
    newest_first = names[::-1]
    assert [each.setup for each in store.setups()] == newest_first
    assert [each.setup for each in store.ended_setups()] == newest_first
    assert [each.setup for each in store.outcomes()] == names
    assert [each.setup for each in store.latest_outcomes()] == names[-1:]
    before = [store.events(name)[0].data.get("lathe_before", {}).get("setup") for name in names]
    assert before == [None, *names[:-1]]
    assert [link.setup for link in store.links()] == [n for n in names for _ in range(28)]
    assert list(faults(store)) == []


def test_a_setup_is_gone_on_with_by_a_clock_that_was_set_back(store: Store) -> None:
    """At each of 28 events in turn the program is left and the clock set back a day: the setup is
    resumed, and taken over, and stands where it stood."""
    answers = read_answers(ANSWERS / "chuck-recheck-inch.yaml")
    for last in range(1, 28):
        setup = f"left-{last}"
        walk = opened(store, answers, setup, answers.at(0))
        for number, answer in enumerate(answers.answers[: last - 1], start=1):
            give(walk, answer, answers.at(number))
        earlier = by(answers, -last).at(0)
        resume_setup(store, setup, person=walk.state.person, at=earlier)
        taken = resume_setup(store, setup, person="C. Sample", at=by(answers, -2 * last).at(0))
        assert taken.state.facts == walk.state.facts
        assert [each.sequence for each in store.events(setup)] == list(range(1, last + 3))
    assert store.open_setups()[0].setup == "left-27"
    assert list(faults(store)) == []


@pytest.fixture
def hands(store: Store, monkeypatch: pytest.MonkeyPatch) -> dict[str, Hand]:
    """Invented people, of whom the second was added by a clock that was a year behind."""
    monkeypatch.setattr(keys, "COST", 2**4)
    people, pin = People(store), "four tin horses"
    first = people.first("A. Sample", pin, stamp(BEGUN))
    people.add(first, "B. Sample", "machinist", pin, stamp(BEGUN - timedelta(days=365)))
    return {name: people.sign_on(name, pin, FIRST) for name in ("A. Sample", "B. Sample")}


@pytest.mark.parametrize("clock", CLOCKS)
def test_a_signature_counts_by_order_and_not_by_the_clock(
    store: Store, hands: dict[str, Hand], clock: str
) -> None:
    """Signed years before the key was given out, by the clock: nothing is held against it; and
    after somebody was retired years in the future their signatures of before are good still.
    """
    answers = read_answers(ANSWERS / "chuck-recheck-inch.yaml")
    person = hands["A. Sample"]
    walk = open_setup(
        store, find(answers.procedure), setup="signed", person=person.name, at=CLOCKS[clock](0),
        lathe=answers.lathe, hand=person, typed_at="file",
    )  # fmt: skip
    walk.hands |= hands
    for number, answer in enumerate(answers.answers, start=1):
        give(walk, answer, CLOCKS[clock](number))
    assert all(row.signature for row in store.rows("signed"))
    People(store).retire(person, "B. Sample", FIRST)
    assert list(faults(store)) == []
