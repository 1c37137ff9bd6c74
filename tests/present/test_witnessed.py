"""What somebody is shown before they put their name beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.present.entered import to_witness
from guide.present.sheet import seen
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse

ANSWERS = Path(__file__).parents[1] / "answers" / "quick-centring-inch.yaml"


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """For each kind of step of a rehearsed centring, what the last of it would have shown."""
    procedure = find("quick-centring")
    with Store(tmp_path_factory.mktemp("home") / "journal.sqlite3") as store:
        state = rehearse(procedure, read_answers(ANSWERS), store, "walk").state
    return {
        each.step.kind: "; ".join(to_witness(each.step, each.before, procedure, each.entry.data))
        for each in seen(state, procedure)
        if each.step and each.step.kind in ("gate", "verdict", "sign-off")
    }


def test_a_gate_is_told_check_by_check(told) -> None:
    """As each stands there, with the person it is about."""
    assert "A. Sample: My own lock" in told["gate"]


def test_a_verdict_is_told_with_the_runout_it_rests_on(told) -> None:
    """What was decided, and the figure with its uncertainty."""
    assert told["verdict"].startswith("accepted: runout ")


def test_a_sign_off_is_told_with_its_meaning_and_the_latest_result(told) -> None:
    """Who means what by the name, and what is handed over."""
    assert told["sign-off"].startswith("A. Sample: handed over as left; as left: runout ")
