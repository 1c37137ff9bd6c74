"""A question in a loop is asked anew in each round: the last answer is told and stands nowhere."""

from __future__ import annotations

from guide.procedure.model import Procedure
from guide.walk.loops import come_round
from guide.walk.state import State


def told_last_round(name: str, state: State, procedure: Procedure) -> str:
    """What this step was told before of a fact, where the walk came round to it; else blank.

    What was measured before the cut is not what is there after it, and an answer that stands
    there would be confirmed by whoever is in a hurry.
    """
    before = any(
        entry.place == state.place and name in entry.data.get("facts", {})
        for entry in state.entries
        if entry.kind == "record"
    )
    again = before and state.place in come_round(procedure)
    return state.facts.get(name, "") if again else ""
