"""What a setup that has ended says of its chuck: as found, as left, and when to look again."""

from __future__ import annotations

from typing import Any

from guide.walk.state import State, Taken
from guide.walk.world import value

FIGURES = ("judged", "unit", "expanded_uncertainty", "verdict", "at_most")


def outcome(state: State) -> dict[str, Any]:
    """As text; empty where the setup was about no chuck that has a name.

    `as_left` is there only where its result still stands at the end, `as_found` where it was read
    before anything was touched.
    """
    chuck = str(state.facts.get("chuck", "")).strip()
    if not chuck:
        return {}
    stands = value(state.world, "result") == "valid"
    told: dict[str, Any] = {
        "chuck": chuck,
        "result": value(state.world, "result"),
        "as_found": _read(state.taken.get("as-found"), state),
        "as_left": _read(state.turn, state) if stands else {},
        "recheck": state.facts.get("recheck-date", ""),
        "diameter": state.facts.get("bar-diameter", ""),
        "indicator": state.facts.get("indicator-name", ""),
    }
    return {name: each for name, each in told.items() if each}


def _read(taken: Taken | None, state: State) -> dict[str, Any]:
    """One turn of readings as it was judged, with the day (UTC) on which it was read."""
    if taken is None or "judged" not in taken.figures:
        return {}
    return {
        **{name: taken.figures[name] for name in FIGURES if name in taken.figures},
        "tolerance": state.facts.get("tolerance", ""),
        "station": state.facts.get("station", ""),
        "at": state.entries[taken.sequence - 1].at[:10],
    }
