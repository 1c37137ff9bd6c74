"""The answer that all readings together are within their limits, held against their verdicts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.plain import N_, BadInput
from guide.walk.state import State

READINGS_SAY, WITHIN = "readings-say", "within"
"""The fact that says what the readings come to together, and the answer that goes on."""
NOT_SO = ("outside", "undecided")
"""Verdicts that contradict it."""


def refuse_within(facts: Mapping[str, Any], state: State) -> None:
    """Refuse (BadInput) that each reading is within its limit where one was not judged so."""
    if facts.get(READINGS_SAY) != WITHIN:
        return
    if any(each.figures.get("verdict") in NOT_SO for each in state.taken.values()):
        raise BadInput(
            N_("A reading was judged outside its limit, or could not be decided."),
            N_("Look at the verdicts above, and answer what they say."),
        )
