"""Where hands are told to go: what a dial has to see is what they push, and they leave last."""

from __future__ import annotations

import pytest

from guide.procedure.model import Step
from guide.procedure.shelf import find

WITH_A_BARE_NOSE = ("adjustable-chuck", "after-a-crash", "backplate-fitting", "spindle-health")


def step(procedure: str, name: str) -> Step:
    """One step of a shipped procedure."""
    return find(procedure).by_name[name]


@pytest.mark.parametrize("procedure", WITH_A_BARE_NOSE)
def test_the_bare_nose_is_pushed_where_the_plunger_sees_it(procedure: str) -> None:
    """The plunger lies at the height of the centre: a push from below moves nothing it reads."""
    assert "at the height of the spindle's centre" in step(procedure, "indicator-on-nose").full
    told = step(procedure, "nose-play").full
    assert "across from the plunger, at the same height" in told
    assert "under the nose" not in told


def test_forward_is_told_first_where_the_page_asks_for_toward_the_plunger_first() -> None:
    """The plunger stands before the face: what pushes it in is the nose that comes forward."""
    told = step("spindle-health", "axial-play").full
    assert told.index("forward, toward the plunger") < told.index("away from the plunger")


@pytest.mark.parametrize("nose", ["long", "camlock", "bolted", "threaded"])
@pytest.mark.parametrize("procedure", ["adjustable-chuck", "backplate-fitting"])
def test_a_hand_stays_on_the_plate_until_the_gate_has_said_that_it_may_leave(
    procedure: str, nose: str
) -> None:
    """The gate begins with a hand that steadies the plate: no step before it takes it away."""
    assert "A hand still steadies the plate" in step(procedure, "plate-release-gate").full
    told = step(procedure, f"plate-on-{nose}")
    assert "hand stays at" in told.full
    assert "what follows says" in told.full
    for words in (told.full, told.brief, told.good):
        assert "hand leaves" not in words
        assert "let go of it" not in words
