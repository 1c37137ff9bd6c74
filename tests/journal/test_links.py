"""The chain over all events: what a link is, and that each kind of change of it is found."""

from __future__ import annotations

import json
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.journal.canonical import canonical
from guide.journal.event import GENESIS
from guide.journal.link import head_of
from guide.journal.store import Store
from guide.journal.verify import of_links

HEX = st.text("0123456789abcdef", min_size=64, max_size=64)


@given(st.integers(1, 2**53 - 1), st.integers(1, 2**53 - 1), HEX, HEX)
def test_a_head_is_the_digest_of_the_canonical_text_of_a_link(
    number: int, sequence: int, event: str, previous: str
) -> None:
    """Worked out with the standard library alone, and with the journal's own canonical JSON."""
    for signature in ("", event + previous):
        told = {
            "digest": event, "number": number, "previous": previous, "sequence": sequence,
            "setup": "lathe-1", "signature": signature,
        }  # fmt: skip
        text = json.dumps(told, sort_keys=True, separators=(",", ":"))
        assert canonical(told) == text
        made = head_of(number, "lathe-1", sequence, event, signature, previous)
        assert made == sha256(text.encode()).hexdigest()


def test_links_are_written_in_the_order_of_writing(store: Store, chained) -> None:
    """Whatever setup an event is of: two setups written in turns."""
    for one, other in zip(chained("demo-1"), chained("demo-2"), strict=True):
        store.append(one)
        store.append(other)
    links = list(store.links())
    assert [each.number for each in links] == list(range(1, 13))
    assert [each.setup for each in links] == ["demo-1", "demo-2"] * 6
    assert links[0].previous == GENESIS
    assert [each.previous for each in links[1:]] == [each.head for each in links[:-1]]
    assert list(of_links(store)) == []


def test_the_head_and_a_setups_link_are_found_without_reading_all(store: Store, chained) -> None:
    """The last of all, and that of a setup's last event with the head before it."""
    assert (store.head(), store.link("demo-1")) == (None, None)
    for name in ("demo-1", "demo-2"):
        for each in chained(name):
            store.append(each)
    links = list(store.links())
    assert store.head() == links[-1]
    assert store.link("demo-1") == links[5]
    assert store.link("nobody") is None


def test_a_kept_digest_is_found_by_its_start(store: Store, chained) -> None:
    """That of an event as a label prints it, or the head of the journal."""
    events = chained()
    for each in events:
        store.append(each)
    last = store.head()
    assert last is not None
    for kept in (last.head, last.head[:16], events[-1].digest, events[-1].digest[:20]):
        assert store.place_of(kept) == last
    assert store.place_of(events[2].digest) == list(store.links())[2]
    assert store.place_of("ab" * 32) is None


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("UPDATE link SET setup = 'demo-9' WHERE number = 3", "Link 3 .* was changed"),
        ("UPDATE link SET sequence = 9 WHERE number = 3", "Link 3 .* was changed"),
        (f"UPDATE link SET digest = '{'ab' * 32}' WHERE number = 3", "Link 3 .* was changed"),
        ("UPDATE link SET signature = 'ab' WHERE number = 3", "Link 3 .* was changed"),
        (f"UPDATE link SET head = '{'ab' * 32}' WHERE number = 3", "Link 3 .* was changed"),
        ("DELETE FROM link WHERE number = 3", "Link 3 .* is missing"),
        ("DELETE FROM link WHERE number IN (1, 2)", "Link 1 .* is missing"),
        ("UPDATE link SET number = 7 WHERE number = 6", "Link 6 .* is missing"),
    ],
)
def test_a_changed_or_missing_link_is_named_first(store, chained, change: str, says: str) -> None:
    """Whatever of it was changed."""
    for each in chained():
        store.append(each)
    with store._writing():
        for guard in ("update", "delete"):
            store._base.execute(f"DROP TRIGGER link_no_{guard}")
        store._base.execute(change)
    with pytest.raises(AssertionError, match=says):
        raise AssertionError(str(next(of_links(store))))


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE link SET head = ''",
        "DELETE FROM link",
        "INSERT OR REPLACE INTO link VALUES (1, 'demo-1', 1, '', '', '')",
        "UPDATE sealed SET body = ''",
        "DELETE FROM sealed",
        "UPDATE text SET body = ''",
    ],
)
def test_nobody_changes_them_by_mistake(store: Store, chained, change: str) -> None:
    """A database tool is told so until it drops the triggers; that is a guard rail, not a proof."""
    for each in chained():
        store.append(each)
    store.keep_sealed("{}")
    store.keep_text("procedure: x")
    with pytest.raises(Exception, match="never changed or taken out"):
        store._base.execute(change)
