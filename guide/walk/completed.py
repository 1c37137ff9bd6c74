"""What the tool adds to what a person entered; verifying works it out the same way again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.procedure.model import Procedure, Step
from guide.walk.advised import of_move
from guide.walk.answers import accepted
from guide.walk.error_limit import refuse_no_limit
from guide.walk.figures import of_readings
from guide.walk.flow import doings, looks, performed
from guide.walk.judged_anew import KEPT, judged_anew
from guide.walk.outcome import outcome
from guide.walk.recording import checks_of
from guide.walk.says_within import refuse_within
from guide.walk.state import State
from guide.walk.world import as_dict

RECKONING = "4"
"""Raised when the same entries come to other figures: kept in the opening of each setup, so that an
old record is not held against a new way of working things out."""
EARLIER: Mapping[str, frozenset[str]] = {
    "1": frozenset({"advised", "new"}),
    "2": frozenset({"advised", "new"}),
    "3": frozenset({"advised"}),
}
"""What is worked out otherwise now than in records of an earlier reckoning: an event that holds one
of these is not worked out again there, every other one is. 2: other moves are advised where the bar
has form, the zero drifts or the sense is not known. 3: a screw that nobody said was tightened is
kept as presumed, which says less; a correction, which alone holds a `new` answer, judges anew what
rested on it; and a turn on what no screw shifts is not held against the clearance, for which a
record of an earlier reckoning is worked out as it was (`figures.CLEARANCE_EVERYWHERE`). 4: what a
misread dial taught is not believed, so that other moves are advised after one."""
ADDED = (
    "did", "figures", "faster_than_read", "advised", "moved", "learned", "presumed", "ends",
    "world", "outcome", "role", KEPT,
)  # fmt: skip
"""What only the tool adds to an event."""
WORDS_A_SECOND = 5
"""Faster than this nobody reads (common practice, no source): noted, not refused."""


def completed(
    procedure: Procedure, state: State, trigger: str, data: Mapping[str, Any]
) -> dict[str, Any]:
    """What was entered, with what the tool adds: actions done, figures, a note of haste.

    Raises a Refusal for entries that cannot be used.
    """
    step = procedure.by_name.get(state.place)
    whole = {name: each for name, each in data.items() if name not in ADDED}
    if whole.get("left") not in ("yes", True):
        whole.pop("left", None)
    if trigger == "correct" and str(whole.get("fact")) in procedure.facts:
        fact = procedure.facts[str(whole["fact"])]
        whole["new"] = accepted(fact, str(whole.get("new", "")))
        if fact.name in state.facts and (
            anew := judged_anew(procedure, state, fact.name, whole["new"])
        ):
            whole[KEPT] = anew
    if step is None or trigger not in ("done", "record", "acknowledge"):
        return whole
    return whole | _at_step(procedure, step, state, trigger, whole)


def _at_step(
    procedure: Procedure, step: Step, state: State, trigger: str, whole: Mapping[str, Any]
) -> dict[str, Any]:
    """What is added at a step of each kind."""
    added: dict[str, Any] = {}
    if step.kind == "facts" and isinstance(whole.get("facts"), Mapping):
        refuse_no_limit(step, whole)
        refuse_within(whole["facts"], state)
        added["facts"] = {
            name: accepted(procedure.facts[name], str(each)) if name in step.ask else str(each)
            for name, each in whole["facts"].items()
        }
    if step.kind == "readings" and trigger == "record":
        added["figures"] = of_readings(step, whole, state)
    if step.kind == "correction" and trigger == "record" and state.pair:
        added |= of_move(whole, state)
    if step.kind == "gate" and trigger == "acknowledge":
        added |= _haste(step, state, whole)
    if not looks(step) and not (step.kind == "correction" and whole.get("left")):
        added["did"] = list(performed(doings(step), state.world, state.facts))
    return added


def otherwise(reckoning: object) -> frozenset[str] | None:
    """What came of entries otherwise when a setup was opened; None where nothing can be compared.

    Nothing of the present reckoning did.
    """
    return frozenset() if reckoning == RECKONING else EARLIER.get(str(reckoning))


def ending(state: State) -> dict[str, Any]:
    """What the last event of a setup also holds, by the state after it; nothing before the end."""
    if not state.ended:
        return {}
    told = outcome(state)
    ends: dict[str, Any] = {"ends": state.place, "world": as_dict(state.world)}
    return ends | ({"outcome": told} if told else {})


def _haste(step: Step, state: State, data: Mapping[str, Any]) -> dict[str, Any]:
    """A gate acknowledged faster than it can be read is noted in the record."""
    try:
        seconds = float(str(data.get("seconds", "")))
    except ValueError:
        return {}
    words = sum(len(check.say.split()) for check, _ in checks_of(step, state))
    return {"faster_than_read": True} if seconds * WORDS_A_SECOND < words else {}
