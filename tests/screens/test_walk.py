"""A whole setup on the screen, by keyboard and by mouse, driven by what is shown alone."""

from __future__ import annotations

import pytest

REMOVAL = {"on-nose": "this-chuck", "seat": "caught", "body": "on-plate", "bolts": "snug",
           "screws": "touching"}  # fmt: skip


@pytest.mark.parametrize("hands", ["keyboard", "mouse"])
async def test_a_removal_is_walked_to_its_end(opened, hands, request) -> None:
    """Everything from the first question to the signature can be done by either hand."""
    async with opened(request.getfixturevalue(hands), answers=REMOVAL) as at:
        await at.begin("chuck-removal")
        await at.walk()
        assert "Finished" in at.text("#words")


async def test_a_mounting_is_walked_by_mouse_with_one_round_of_correcting(opened, mouse) -> None:
    """Every kind of step is met on the way, a correction and its tightening included."""
    async with opened(mouse) as at:
        at.decisions = ["accept", "another-round"]
        await at.begin("adjustable-chuck")
        await at.walk()
        assert "Finished" in at.text("#words")
        assert {"TaskForm", "GateForm", "FactsForm", "TurnForm", "PlayForm", "PairForm",
                "CorrectionForm", "TighteningForm", "VerdictForm", "SignOffForm",
                "LookForm"} <= set(at.seen)  # fmt: skip
