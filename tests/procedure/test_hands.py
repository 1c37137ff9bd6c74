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
