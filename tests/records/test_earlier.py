"""A record made before the advice was worked out otherwise is never called wrong for it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest

from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.records.evidence import Fault, faults, not_reckoned, partly_reckoned
from guide.walk.completed import RECKONING

STORED = Path(__file__).with_name("earlier") / "reckoning-1.jsonl"
"""An invented setup as the first reckoning wrote it: the procedure's text, then each event's body.
Its bar has form, so the move advised in event 21 is another one now."""
ADVISED = 21
Change = Callable[[dict[str, Any]], Mapping[str, Any]]


def bodies() -> Iterator[dict[str, Any]]:
    """Every event of it."""
    return map(json.loads, STORED.read_text(encoding="utf-8").splitlines()[1:])


def kept(store: Store, changed: Mapping[int, Change] = MappingProxyType({})) -> list[Fault]:
    """What is held against it, some events' data being otherwise and the chain worked out anew."""
    store.keep_text(json.loads(STORED.read_text(encoding="utf-8").splitlines()[0])["text"])
    last = GENESIS
    for body in bodies():
        data = changed.get(body["sequence"], dict)(body["data"])
        event = Event(**{**body, "data": data, "previous": last})
        store.append(event)
        last = event.digest
    return list(faults(store))


@pytest.mark.parametrize("mark", ["2", "3"])
def test_a_record_of_a_later_reckoning_than_the_first_stands_too(store: Store, mark: str) -> None:
    """Whatever it advised is not worked out again, and that is told."""
    assert kept(store, {1: lambda data: data | {"reckoning": mark}}) == []
    assert (partly_reckoned(store), not_reckoned(store)) == (("on-paper",), ())


def test_it_stands_as_it_was_written_and_nothing_is_held_against_it(store: Store) -> None:
    """Digest by digest, and it is told that its advice was not worked out again."""
    assert kept(store) == []
    written = [row.body for row in store.rows("on-paper")]
    assert written == STORED.read_text(encoding="utf-8").splitlines()[1:]
    assert (partly_reckoned(store), not_reckoned(store)) == (("on-paper",), ())


def test_the_same_advice_in_a_record_of_today_would_be_a_fault(store: Store) -> None:
    """The way of working it out has changed: without its mark the record would be accused."""
    (only,) = kept(store, {1: lambda data: data | {"reckoning": RECKONING}})
    assert (only.fault, only.sequence) == ("reckoned", ADVISED)
    assert "advised" in only.says


def test_a_mark_of_an_earlier_reckoning_hides_no_other_figure(store: Store) -> None:
    """The verdict of a turn is worked out again all the same."""
    number = next(each["sequence"] for each in bodies() if "verdict" in str(each["data"]))

    def bettered(data: dict[str, Any]) -> dict[str, Any]:
        return data | {"figures": data["figures"] | {"judged": "0.0001"}}

    (only,) = kept(store, {number: bettered})
    assert (only.fault, only.sequence) == ("reckoned", number)


@pytest.mark.parametrize("mark", ["", "0", "5"])
def test_a_mark_that_nobody_knows_leaves_every_figure_out_and_is_told(
    store: Store, mark: str
) -> None:
    """Of a later version or of none: it is named, not accused."""
    assert kept(store, {1: lambda data: data | {"reckoning": mark}}) == []
    assert not_reckoned(store) == ("on-paper",)
