"""Where somebody decides when to look again: what the results as found support."""

from __future__ import annotations

from guide.journal.store import Store
from guide.plain import N_, Refusal
from guide.present.tongue import say
from guide.records.support import supported
from guide.walk.state import State

ASKED = "recheck-date"


def support(store: Store, state: State) -> str:
    """One sentence for the page of a real setup; blank where no result as found says anything."""
    if state.opening.get("mode") != "real":
        return ""
    try:
        found = supported(store, state)
    except Refusal:
        return ""
    sentence = N_(
        "The results as found support {days} days, until {day}. {reason} The day is yours to"
        " decide, and an earlier one is always right."
    )
    if found is None:
        return ""
    why = found.steps[-1].reason
    return say(sentence, days=found.days, day=found.due.isoformat(),
               reason=say(why.sentence, **dict(why.values)))  # fmt: skip
