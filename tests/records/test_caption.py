"""The picture of a turn names a screw only where something in it has screws."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.records.chuck_picture import caption
from guide.records.of_setup import record_of
from guide.rehearse import read_answers, rehearse

ANSWERS = Path(__file__).parents[1] / "answers"


@pytest.mark.parametrize(
    ("answers", "at_plunger"),
    [
        ("spindle-health-inch", "0° at the plunger; the angles are counted"),
        ("backplate-fitting-inch", "0° at the plunger; the angles are counted"),
        ("after-a-crash-inch", "0° at the plunger; the angles are counted"),
        ("tailstock-alignment-inch", "0° at the plunger; the angles are counted"),
        ("jaw-service-inch", "jaw 1 at the plunger; numbered"),
        ("four-jaw-centring-inch", "jaw 1 at the plunger; numbered"),
        ("chuck-recheck-inch", "screw 1 at the plunger; numbered"),
    ],
)
def test_what_is_at_the_plunger_is_what_is_there(answers: str, at_plunger: str, tmp_path) -> None:
    """On a bare nose, a plate or a centre nothing has a number."""
    told = read_answers(ANSWERS / f"{answers}.yaml")
    with Store(tmp_path / "journal.sqlite3") as store:
        record = record_of(rehearse(find(told.procedure), told, store, "walk"), store)
    assert f"Seen from the tailstock, {at_plunger} as they arrive turning" in caption(record, "en")
    assert ("screw" in caption(record, "en")) is (record.screws > 0 and not record.in_jaws)
