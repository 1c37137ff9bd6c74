"""What is held against a journal names the first event that is wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from guide.journal.canonical import canonical, digest
from guide.journal.event import GENESIS
from guide.journal.link import head_of
from guide.journal.said import said
from guide.journal.store import Store
from guide.records.evidence import faults


@pytest.fixture
def forged(walked, store: Store, sql) -> Callable[..., None]:
    """Changes one event's fields and works out every later digest and link again."""
    walked()

    def forge(sequence: int, change: Callable[[dict[str, Any]], Mapping[str, Any]]) -> None:
        with sql(store.path) as base:
            base.execute("DROP TRIGGER IF EXISTS link_no_update")
            previous = head = GENESIS
            for number, body in base.execute(
                "SELECT sequence, body FROM event ORDER BY sequence"
            ).fetchall():
                fields = dict(said(body)) | {"previous": previous}
                text = canonical(change(fields) if number == sequence else fields)
                previous = digest(text)
                base.execute(
                    "UPDATE event SET body = ?, digest = ? WHERE sequence = ?",
                    (text, previous, number),
                )
                head = head_of(number, "on-paper", number, previous, "", head)
                base.execute(
                    "UPDATE link SET digest = ?, head = ? WHERE sequence = ?",
                    (previous, head, number),
                )

    return forge


def test_a_sound_setup_has_no_faults(walked, store: Store) -> None:
    """Neither the chain nor the walk finds anything."""
    walked()
    assert list(faults(store)) == []


def test_a_changed_event_is_named(walked, store: Store, spoil) -> None:
    """With its number, kind and step, first."""
    walked()
    spoil(store.path, "on-paper", 22, "33 ft-lb", "38 ft-lb")
    first = next(faults(store))
    assert (first.fault, first.sequence, first.kind, first.step) == (
        "changed", 22, "record", "torque",
    )  # fmt: skip


def test_a_gate_left_out_of_a_recomputed_chain_is_refused_by_the_walk(store: Store, forged) -> None:
    """Digests that match do not help: the gate does not open with one check of two."""
    forged(4, lambda fields: fields | {"data": {"checks": ["1"]}})
    (only,) = faults(store)
    assert (only.fault, only.sequence) == ("refused", 4)
    assert "its 2 checks are each confirmed once" in only.says


def test_somebody_elses_step_in_a_recomputed_chain_is_refused(store: Store, forged) -> None:
    """Only the one at the lathe acts; taking over is an event."""
    forged(8, lambda fields: fields | {"person": "C. Sample"})
    (only,) = faults(store, "on-paper")
    assert (only.fault, only.sequence, only.step) == ("refused", 8, "set-up")
    assert "C. Sample is not the one at the lathe" in only.says


@pytest.mark.parametrize("data", [{"facts": 3}, {}, {"facts": {"unit": ["in"]}}])
def test_data_that_no_walk_could_have_written_is_named_and_nothing_breaks(
    store: Store, forged, data: dict[str, Any]
) -> None:
    """Whatever stands there, the event is named in one sentence."""
    forged(2, lambda fields: fields | {"data": data})
    found = list(faults(store))
    assert [each.fault for each in found] == ["refused"]
    assert "setup on-paper" in found[0].says


def test_a_lost_procedure_text_is_a_fault_of_the_opening(walked, store: Store, sql) -> None:
    """Without the text that was walked nothing can be walked again."""
    walked()
    with sql(store.path) as base:
        base.execute("DROP TRIGGER text_no_delete")
        base.execute("DELETE FROM text")
    (only,) = faults(store)
    assert (only.fault, only.sequence) == ("refused", 1)
    assert "procedure text" in only.says
