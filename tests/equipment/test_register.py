"""Equipment is what its events say; what may not be is refused, and nothing is ever taken out."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.equipment.belongs import BELONGS, DUE, KINDS, NAMED_BY
from guide.equipment.equipment import Equipment
from guide.equipment.register import MADE, Register, register_of
from guide.journal.event import Event
from guide.journal.standing import EQUIPMENT
from guide.journal.store import Store
from guide.people.people import People
from guide.plain import BadInput, NotAllowed, Refusal
from guide.procedure.shelf import find

AT = "2030-05-25T09:00:00.000Z"
LATER = "2031-05-25T09:00:00.000Z"
BY = "A. Sample"
DIAL = {"unit": "in", "graduation": "0.0001 in", DUE: "2031-01-31", "error-limit": "0.0002 in"}


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A journal."""
    with Store(tmp_path / "journal.sqlite3") as journal:
        yield journal


@pytest.fixture
def shop(store: Store) -> Equipment:
    """Its equipment."""
    return Equipment(store)


def test_what_was_added_is_there_by_any_spelling(shop: Equipment) -> None:
    """With its answers, and to whoever reads the journal afresh."""
    shop.add(BY, "indicator", "Indicator 3 (invented)", DIAL, AT)
    found = Equipment(shop.journal).register().named("indicator", " indicator 3  (INVENTED)")
    assert found is not None
    assert dict(found.facts) == DIAL
    assert found.due == date(2031, 1, 31)


def test_an_answer_is_changed_taken_back_and_the_others_stay(shop: Equipment) -> None:
    """A blank takes back."""
    shop.add(BY, "chuck", "C 7", {"mass": "50 lb", "bore": "2 in"}, AT)
    found = shop.change(BY, "chuck", "c 7", {"mass": "", "screw-count": "4"}, LATER)
    assert dict(found.facts) == {"bore": "2 in", "screw-count": "4"}
    with pytest.raises(BadInput):
        shop.change(BY, "chuck", "C 7", {}, LATER)


def test_a_calibration_moves_the_day_and_is_kept(shop: Equipment) -> None:
    """The old one stays beside it."""
    shop.add(BY, "indicator", "I 3", DIAL, AT)
    assert shop.register().overdue(date(2031, 2, 1))[0].name == "I 3"
    assert shop.register().overdue(date(2031, 1, 31)) == ()
    for due in ("2032-01-01", "2033-01-01"):
        found = shop.calibrate(
            BY, "I 3", LATER, day="2031-05-25", due=due, certificate="No. 12 (invented)",
            limit="0.0003 in",
        )  # fmt: skip
    assert [each.due.year for each in found.calibrations] == [2032, 2033]
    assert (found.facts[DUE], found.facts["error-limit"]) == ("2033-01-01", "0.0003 in")
    assert shop.register().overdue(date(2031, 6, 1)) == ()


def test_what_is_retired_is_offered_no_more_and_its_name_stays_taken(shop: Equipment) -> None:
    """It can still be found, and nothing more happens to it."""
    shop.add(BY, "bar", "Bar 1", {"bar-diameter": "1 in"}, AT)
    shop.retire(BY, "bar", "Bar 1", LATER)
    register = shop.register()
    assert (register.of("bar"), register.named("bar", "Bar 1")) == ((), None)
    assert register.find("bar", "Bar 1").retired == LATER
    for what in (
        lambda: shop.retire(BY, "bar", "Bar 1", LATER),
        lambda: shop.change(BY, "bar", "Bar 1", {"bar-length": "8 in"}, LATER),
        lambda: shop.add(BY, "bar", "bar 1", {}, LATER),
    ):
        with pytest.raises(Refusal):
            what()


def test_something_that_happened_to_a_chuck_is_marked(shop: Equipment) -> None:
    """With who said so and why; a chuck need not be kept here for that."""
    (mark,) = shop.voided(BY, "C 9", "a crash (invented)", AT).voided
    assert (mark.chuck, mark.at, mark.why, mark.person) == ("C 9", AT, "a crash (invented)", BY)
    with pytest.raises(BadInput):
        shop.voided(BY, "C 9", "  ", AT)


def test_two_who_change_it_at_once_do_not_overwrite_each_other(shop: Equipment) -> None:
    """An event that does not take up the last one is refused."""
    shop.add(BY, "chuck", "C 7", {}, AT)
    with pytest.raises(NotAllowed):
        shop.register().after(next(iter(shop.journal.events(EQUIPMENT))))


def test_a_hand_signs_it(store: Store) -> None:
    """The event holds the key, and the signature beside it is that of the body."""
    from guide.journal.keys import signed_by

    hand = People(store).first("A. Sample", "274916", AT)
    Equipment(store).add(hand, "chuck", "C 7", {}, AT)
    (row,) = store.rows(EQUIPMENT)
    assert signed_by(hand.key, row.signature, row.body)
    assert store.events(EQUIPMENT)[0].key == hand.key


ODD: list[tuple[str, dict[str, Any]]] = [
    ("melt", {"kind": "chuck", "name": "C 7"}),
    ("add", {}),
    ("add", {"kind": "anvil", "name": "A 1"}),
    ("add", {"kind": "chuck", "name": " "}),
    ("add", {"kind": "chuck", "name": "a\x07b"}),
    ("add", {"kind": "chuck", "name": "C" * 201}),
    ("add", {"kind": "chuck", "name": 7}),
    ("add", {"kind": "chuck", "name": "C 8", "facts": "none"}),
    ("add", {"kind": "chuck", "name": "C 8", "facts": {"mass": 50}}),
    ("add", {"kind": "chuck", "name": "C 8", "facts": {"graduation": "0.001 in"}}),
    ("add", {"kind": "indicator", "name": "I 1", "facts": {DUE: "soon"}}),
    ("add", {"kind": "indicator", "name": "I 1", "facts": {DUE: "20310131"}}),
    ("add", {"kind": "indicator", "name": "I 1", "facts": {"error-limit": "0.0002"}}),
    ("add", {"kind": "indicator", "name": "I 1", "facts": {"error-limit": "-1 in"}}),
    ("change", {"kind": "chuck", "name": "nobody's", "facts": {"mass": "1 kg"}}),
    ("calibrate", {"kind": "chuck", "name": "C 7", "day": "2030-01-01", "due": "2031-01-01",
                   "by": "x"}),
    ("calibrate", {"kind": "indicator", "name": "I 7", "day": "2030-01-01", "due": "2030-01-01",
                   "by": "x"}),
    ("calibrate", {"kind": "indicator", "name": "I 7", "day": "2030-06-01", "due": "2031-01-01",
                   "by": "x"}),
    ("calibrate", {"kind": "indicator", "name": "I 7", "day": "2030-01-01", "due": "2031-01-01"}),
    ("retire", {"kind": "lathe", "name": "L 1"}),
    ("voided", {"kind": "lathe", "name": "L 1", "why": "x"}),
    ("voided", {"kind": "chuck", "name": "C 7"}),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "data"), ODD, ids=lambda each: str(each)[:40])
def test_what_may_not_be_is_refused(kind: str, data: dict[str, Any]) -> None:
    """By whoever folds the chain, so also where somebody wrote past this program."""
    begun = register_of(chain(("add", {"kind": "chuck", "name": "C 7"}),
                              ("add", {"kind": "indicator", "name": "I 7"})))  # fmt: skip
    event = Event(EQUIPMENT, 3, AT, BY, "", kind, data, begun.head)
    with pytest.raises(Refusal):
        begun.after(event)


def test_a_bar_of_an_odd_event_is_refused_where_it_stands() -> None:
    """Everything before it is as it was."""
    events = list(chain(("add", {"kind": "chuck", "name": "C 7"}),
                        ("retire", {"kind": "chuck", "name": "C 8"})))  # fmt: skip
    with pytest.raises(Refusal):
        register_of(events)
    assert register_of(events[:1]).named("chuck", "C 7")


def test_every_answer_that_belongs_to_something_is_one_that_a_procedure_asks() -> None:
    """And to one kind only; the largest error alone is asked nowhere."""
    asked = find("adjustable-chuck").facts.keys()
    all_names = [name for names in BELONGS.values() for name in names]
    assert len(all_names) == len(set(all_names))
    assert set(all_names) - asked == {"error-limit"}
    assert set(NAMED_BY) == set(KINDS) == set(BELONGS)
    assert set(NAMED_BY.values()) <= asked


NAMES = st.sampled_from(["C 1", "c  1", "C 2", ""])
DATA = st.fixed_dictionaries(
    {"kind": st.sampled_from([*KINDS, "anvil"]), "name": NAMES},
    optional={"facts": st.sampled_from([{}, {"mass": "1 kg"}, {DUE: "2031-01-31"}, {"mass": ""}]),
              "why": st.just("x"), "day": st.just("2030-01-01"), "due": st.just("2031-01-01"),
              "by": st.just("x")},
)  # fmt: skip


@given(st.lists(st.tuples(st.sampled_from([*MADE, "melt"]), DATA), max_size=12))
def test_nothing_that_was_there_is_ever_gone(told: list[tuple[str, dict[str, Any]]]) -> None:
    """Whatever is tried in whatever order; what is refused changes nothing."""
    register, seen = Register(), dict[tuple[str, str], str]()
    for kind, data in told:
        event = Event(EQUIPMENT, register.sequence + 1, AT, BY, "", kind, data, register.head)
        try:
            register = register.after(event)
        except Refusal:
            continue
        assert seen.keys() <= register.things.keys()
        assert all(register.things[key].since == since for key, since in seen.items())
        seen = {key: each.since for key, each in register.things.items()}


def chain(*told: tuple[str, dict[str, Any]]) -> Iterator[Event]:
    """Events that follow one another, right or wrong."""
    from guide.journal.event import GENESIS

    previous = GENESIS
    for number, (kind, data) in enumerate(told, start=1):
        event = Event(EQUIPMENT, number, AT, BY, "", kind, data, previous)
        previous = event.digest
        yield event
