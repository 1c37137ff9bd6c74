"""A corrected answer judges anew what rested on it: no verdict stays that it no longer bears.

Each set of readings is worked out again with the answers as they stood when it was taken and the
corrected one; what was told anew after it, as of a finer dial, is not its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.journal.canonical import canonical
from guide.plain import Refusal
from guide.procedure.model import Procedure
from guide.walk.figures import of_readings
from guide.walk.limit import TOLERANCE
from guide.walk.state import Entry, State, Taken, altered

KEPT = "judged_anew"
"""Under this the figures stand in the event of a correction, by what the readings serve as."""
RESTS_ON = frozenset(
    {"unit", "graduation", TOLERANCE, "rule", "numbering", "range-per-turn", "screw-count"}
    | {"clearance", "indicator-name", "plate"}
    | {"near-diameter", "far-diameter", "stations-apart", "between-centres"}
)
"""Facts that figures come of, besides limits of their own."""
OF_A_VERDICT = ("verdict", "rule", "factor")


def judged_anew(
    procedure: Procedure, state: State, name: str, new: str
) -> dict[str, Mapping[str, Any]]:
    """The figures that an answer corrected so makes otherwise, by what the readings serve as."""
    if name not in RESTS_ON and not name.endswith("-limit"):
        return {}
    taken = dict(state.taken)
    found: dict[str, Mapping[str, Any]] = {}
    for each in sorted(state.taken.values(), key=lambda one: one.sequence):
        if _told_after(each.sequence, name, state):
            continue
        figures = _figures(procedure, _then(state, each, taken, name, new), each)
        if canonical(figures) != canonical(each.figures):
            found[each.serves_as] = figures
            taken[each.serves_as] = with_figures(each, figures)
    return found


def with_judged(state: State, data: Mapping[str, Any]) -> State:
    """The state with the figures that a correction brought."""
    anew = data.get(KEPT)
    if not isinstance(anew, Mapping):
        return state
    taken = {
        name: with_figures(each, anew[name]) if name in anew else each
        for name, each in state.taken.items()
    }
    turn = state.turn
    same = turn is not None and turn == state.taken.get(turn.serves_as)
    return altered(state, taken=taken, turn=taken[turn.serves_as] if turn and same else turn)


def with_figures(taken: Taken, figures: Mapping[str, Any]) -> Taken:
    """The same readings with other figures."""
    data = {**taken.data, "figures": figures}
    return Taken(taken.sequence, taken.step, taken.serves_as, taken.take, data)


def _figures(procedure: Procedure, state: State, taken: Taken) -> Mapping[str, Any]:
    """The figures of readings in a state; without a verdict where they cannot be worked out."""
    try:
        return of_readings(procedure.by_name[taken.step], taken.data, state)
    except Refusal:
        return {n: each for n, each in taken.figures.items() if n not in OF_A_VERDICT}


def _then(state: State, taken: Taken, others: Mapping[str, Taken], name: str, new: str) -> State:
    """The state as it stood when readings were taken, with one answer corrected."""
    before = {
        n: each
        for n, each in others.items()
        if each.sequence < taken.sequence or each.take == "play"
    }
    entries = tuple(each for each in state.entries if each.sequence < taken.sequence)
    facts = {**_facts_then(state, taken.sequence), name: new}
    return altered(state, facts=facts, taken=before, entries=entries)


def _facts_then(state: State, sequence: int) -> dict[str, str]:
    """The answers that readings rest on: what was told after them as it was before that."""
    facts = dict(state.facts)
    for name in state.facts:
        if retold := _told_after(sequence, name, state):
            was = _last_told(name, state, retold)
            facts = {n: each for n, each in facts.items() if n != name}
            facts |= {} if was is None else {name: was}
    return facts


def _told_after(sequence: int, name: str, state: State) -> int:
    """The first event after readings that told an answer anew; 0 where none did."""
    found = (e.sequence for e in state.entries if e.sequence > sequence and name in _page(e))
    return next(found, 0)


def _last_told(name: str, state: State, until: int) -> str | None:
    """An answer as it stood before an event; None where it was not told."""
    was: str | None = None
    for each in state.entries:
        if each.sequence >= until:
            break
        if name in _page(each):
            was = str(_page(each)[name])
        elif each.kind == "correct" and each.data.get("fact") == name:
            was = str(each.data.get("new"))
    return was


def _page(entry: Entry) -> Mapping[str, Any]:
    """The answers that a page told."""
    told = entry.data.get("facts")
    return told if entry.kind == "record" and isinstance(told, Mapping) else {}
