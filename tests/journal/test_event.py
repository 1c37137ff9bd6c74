"""Events: what may be one, that it cannot change, and that its text gives it back."""

from __future__ import annotations

import json
from dataclasses import FrozenInstanceError, replace
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.journal.canonical import LARGEST, canonical, digest
from guide.journal.event import FIELDS, GENESIS, Event, parse
from guide.journal.wellformed import is_stamp, stamp
from guide.plain import BadInput

EVENT = Event(
    "demo-1", 2, "2030-01-31T07:05:00.000Z", "A. Demo", "as-found", "record",
    {"readings": ["0.0012", "-0.0008"], "unit": "in"}, "a" * 64,
)  # fmt: skip

texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=8)
data = st.recursive(
    st.none() | st.booleans() | st.integers(-LARGEST, LARGEST) | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=8,
)
moments = st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1), timezones=st.just(UTC))  # noqa: DTZ001 - bounds of st.datetimes must have no zone
events = st.builds(
    Event,
    setup=st.text("abcdefghijklmnopqrstuvwxyz0123456789-", min_size=1, max_size=64),
    sequence=st.integers(1, LARGEST),
    at=moments.map(stamp),
    person=texts.filter(str.strip),
    step=texts,
    kind=texts.filter(str.strip),
    data=st.dictionaries(texts, data, max_size=3),
    previous=st.text("0123456789abcdef", min_size=64, max_size=64),
)


@given(events)
def test_an_event_comes_back_from_its_text(event: Event) -> None:
    """Equal in every field, with the same text and the same digest."""
    again = parse(event.body())
    assert again == event
    assert (again.body(), again.digest) == (event.body(), event.digest)


@given(events)
def test_a_body_holds_all_fields_and_is_canonical(event: Event) -> None:
    """The text is what RFC 8785 makes of exactly the eight fields."""
    fields = json.loads(event.body())
    assert set(fields) == set(FIELDS)
    assert canonical(fields) == event.body()
    assert digest(event.body()) == event.digest


def test_a_body_is_written_like_this() -> None:
    """One example in full, so that a change of format is seen."""
    assert EVENT.body() == (
        '{"at":"2030-01-31T07:05:00.000Z",'
        '"data":{"readings":["0.0012","-0.0008"],"unit":"in"},"kind":"record","person":"A. Demo",'
        f'"previous":"{"a" * 64}","sequence":2,"setup":"demo-1","step":"as-found"}}'
    )


def test_an_event_cannot_be_changed_even_deep_inside() -> None:
    """Neither a field, nor the data, nor the mapping it was made from."""
    given: dict[str, Any] = {"readings": ["0.001"], "more": {"a": 1}}
    event = replace(EVENT, data=given)
    given["readings"].append("0.002")
    with pytest.raises(FrozenInstanceError):
        event.person = "B. Demo"  # type: ignore[misc] # this is what must not go
    for part in (event.data, event.data["more"]):
        with pytest.raises(TypeError):
            part["a"] = 2
    assert event.data["readings"] == ("0.001",)
    assert parse(event.body()) == event


def test_true_and_one_are_two_different_entries() -> None:
    """Python calls them equal, a record must not."""
    assert replace(EVENT, data={"seen": True}) != replace(EVENT, data={"seen": 1})
    assert len({EVENT, replace(EVENT), replace(EVENT, sequence=3)}) == 2


@pytest.mark.parametrize("setup", ["", "Demo", "a/b", "..", "a.b", "ä", "a b", "a\n", "x" * 65, 7])
def test_a_setup_id_that_could_be_a_path_is_refused(setup: Any) -> None:
    """Small letters, digits and hyphens only, 1 to 64 of them."""
    with pytest.raises(BadInput, match="cannot name a setup"):
        replace(EVENT, setup=setup)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("sequence", 0), ("sequence", True), ("sequence", "2"), ("sequence", 2.0),
        ("sequence", LARGEST + 1),
        ("at", "2030-01-31T07:05:00Z"), ("at", "2030-01-31T07:05:00.000+00:00"),
        ("at", "2030-01-31 07:05:00.000Z"), ("at", "2030-02-30T07:05:00.000Z"),
        ("at", "2030-01-31T07:05:00.000000Z"), ("at", "2030-01-31T08:05:00.000+01:00"),
        ("at", ""), ("at", None), ("at", 0),
        ("person", ""), ("person", "  "), ("person", None), ("kind", ""), ("kind", 1),
        ("step", None), ("data", None), ("data", ["a"]), ("data", {"reading": 0.01}),
        ("data", {"text": "\ud800"}), ("data", {1: "a"}), ("person", "\udc00"),
        ("previous", ""), ("previous", "A" * 64), ("previous", "a" * 63), ("previous", None),
    ],
)  # fmt: skip
def test_a_field_that_is_not_as_it_must_be_is_refused(field: str, value: Any) -> None:
    """One sentence, and no event."""
    with pytest.raises(BadInput):
        replace(EVENT, **{field: value})


def changed(**fields: object) -> str:
    """The example's body with some fields replaced or, with `...`, taken out."""
    kept = json.loads(EVENT.body()) | fields
    return canonical({name: value for name, value in kept.items() if value is not ...})


@pytest.mark.parametrize(
    "body",
    [
        "", "null", "[]", "{}", "{", "\ud800", "[" * 100_000, EVENT.body() + " ",
        EVENT.body().replace(":", ": ", 1), EVENT.body().replace("A. Demo", r"\u0041. Demo"),
        EVENT.body().replace('"sequence":2', '"sequence":2.0'),
        EVENT.body().replace('"sequence":2', '"sequence":1,"sequence":2'),
        EVENT.body().replace('"sequence":2', '"sequence":' + "9" * 5000),
        EVENT.body().replace('"unit":"in"', '"unit":NaN'),
        EVENT.body().replace('"unit":"in"', r'"unit":"\ud800"'),
        EVENT.body().replace('"in"', "[" * 900 + "]" * 900),
        changed(step=...), changed(note="more"), changed(sequence="2"), changed(data=[]),
    ],
)  # fmt: skip
def test_a_text_that_is_not_exactly_an_event_is_refused(body: str) -> None:
    """Other keys, other types, another spelling of the same, or no JSON at all."""
    with pytest.raises(BadInput):
        parse(body)


def test_the_first_event_stands_on_sixty_four_zeros() -> None:
    """A digest's length, so that every event has the same shape."""
    assert GENESIS == "0" * 64
    assert replace(EVENT, sequence=1, previous=GENESIS).previous == GENESIS


def test_a_stamp_is_the_same_moment_in_utc() -> None:
    """RFC 3339, 5.8: 1996-12-19T16:39:57-08:00, which public libraries' tests give as
    851 042 397 s of Unix time (transcribed)."""
    west = datetime(1996, 12, 19, 16, 39, 57, 999_999, timezone(timedelta(hours=-8)))
    assert stamp(west) == "1996-12-20T00:39:57.999Z"
    assert int(datetime.fromisoformat(stamp(west)).timestamp()) == 851_042_397


@given(moments)
def test_a_stamp_keeps_the_order_of_moments_and_is_one(moment: datetime) -> None:
    """Sorting the text sorts the time."""
    assert is_stamp(stamp(moment))
    assert stamp(moment) < stamp(moment + timedelta(milliseconds=1))


def test_a_time_without_a_zone_is_refused() -> None:
    """Nobody could tell later which moment it was."""
    with pytest.raises(BadInput, match="no time zone"):
        stamp(datetime(2030, 1, 31))  # noqa: DTZ001 - this is what must not go
