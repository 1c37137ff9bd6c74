"""Whatever happens to people in whatever order, what must never be never is."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.journal.event import Event
from guide.people.roster import Roster, known_as, roster_of
from guide.plain import Refusal
from guide.roles import SUPERVISOR

AT = "2031-03-02T08:00:00.000Z"
NAMES = ("A. Sample", "a.  sample", "B. Sample", "C. Sample")
ROLES = ("apprentice", "machinist", "supervisor", "boss")
KINDS = (
    "add", "add", "add", "retire", "retire", "role", "role", "new-key", "new-pin", "rules",
    "wrong-pin", "let-in", "open",
)  # fmt: skip
KEYS = tuple(sha256(bytes([number])).hexdigest() for number in range(6))

Happening = tuple[str, str, str, dict[str, Any]]
rules = st.fixed_dictionaries(
    {
        "sign_on": st.booleans(),
        "idle_minutes": st.sampled_from([0, 15, -1]),
        "witness": st.sampled_from([{}, {"gate": "machinist"}, {"task": "machinist"}]),
    }
)
data = st.fixed_dictionaries(
    {
        "name": st.sampled_from(NAMES),
        "role": st.sampled_from(ROLES),
        "key": st.sampled_from((*KEYS, "")),
        "seal": st.just(KEYS[0]),
    }
)
happenings = st.lists(
    st.tuples(
        st.sampled_from(NAMES),
        st.sampled_from(("own", "own", "own", "own", "", *KEYS)),
        st.sampled_from(KINDS),
        st.builds(lambda one, other: one | other, data, rules),
    ),
    max_size=25,
)
"""Who, with which key (mostly their own), does what, with which data."""


def event(roster: Roster, name: str, key: str, kind: str, told: Mapping[str, Any]) -> Event:
    """The next event in the chain of people."""
    person = roster.people.get(known_as(name))
    if key == "own":
        key = person.key if person else str(told["key"])
    return Event("people", roster.sequence + 1, AT, name, "", kind, dict(told), roster.head, key)


def walked(all_that_happens: list[Happening]) -> list[tuple[Roster, Event, Roster]]:
    """Each step that was allowed: before, what happened, after."""
    steps = []
    roster = Roster()
    for name, key, kind, told in all_that_happens:
        each = event(roster, name, key, kind, told)
        try:
            after = roster.after(each)
        except Refusal:
            continue
        steps.append((roster, each, after))
        roster = after
    return steps


BEGIN: Happening = (
    "A. Sample", "own", "add",
    {"name": "A. Sample", "role": "supervisor", "key": KEYS[5], "seal": KEYS[0]},
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(happenings, st.booleans())
def test_a_journal_that_had_a_supervisor_always_has_one(happens, begun: bool) -> None:
    """Whoever leaves, steps down or is given a new key."""
    for before, _, after in walked([BEGIN, *happens] if begun else happens):
        if before.people:
            assert any(each.role == SUPERVISOR for each in after.active)


@settings(max_examples=150, deadline=None)
@given(happenings)
def test_only_a_supervisor_with_their_own_key_changes_others(happens) -> None:
    """But for the first person, who comes alone, and for somebody alone who signs nothing."""
    for before, each, after in walked([BEGIN, *happens]):
        if each.kind in ("add", "retire", "role", "new-key", "rules") and before.people:
            by = before.find(each.person)
            assert (by.role, by.active, by.key) == (SUPERVISOR, True, each.key)
        if each.kind in ("new-pin", "let-in"):
            by = before.find(each.person)
            assert (by.active, by.key) == (True, each.key)
            assert after.people.keys() == before.people.keys()


@settings(max_examples=150, deadline=None)
@given(happenings)
def test_names_and_keys_are_one_persons_and_nobody_is_ever_taken_out(happens) -> None:
    """Nor changed in name, nor brought back."""
    for before, _, after in walked([BEGIN, *happens]):
        every = [key.key for person in after.people.values() for key in person.keys]
        assert len(every) == len(set(every))
        assert "" not in every
        for name, person in before.people.items():
            later = after.people[name]
            assert later.name == person.name
            assert later.keys[: len(person.keys) - 1] == person.keys[:-1]
            if not person.active:
                assert later == person


@settings(max_examples=100, deadline=None)
@given(happenings)
def test_without_people_the_one_rule_is_that_nobody_signs_on(happens) -> None:
    """The first person is a supervisor who names and signs with the own key."""
    for before, each, after in walked(happens):
        if not before.people and each.kind == "rules":
            assert not after.rules.sign_on
            assert each.key == ""
        if not before.people and after.people:
            (first,) = after.people.values()
            assert (first.role, first.key) == (SUPERVISOR, each.key)
            assert known_as(each.person) == known_as(first.name)


@settings(max_examples=100, deadline=None)
@given(happenings)
def test_the_same_events_make_the_same_people(happens) -> None:
    """State is a fold; nothing else is kept anywhere."""
    steps = walked([BEGIN, *happens])
    assert roster_of(each for _, each, _ in steps) == steps[-1][2]


@given(happenings, st.integers(0, 24))
def test_an_event_that_does_not_follow_is_refused(happens, left_out: int) -> None:
    """Left out anywhere but at the end, the rest has nothing to continue."""
    events = [each for _, each, _ in walked([BEGIN, *happens])]
    if left_out >= len(events) - 1:
        return
    with pytest.raises(Refusal, match="changed elsewhere"):
        roster_of(events[:left_out] + events[left_out + 1 :])
