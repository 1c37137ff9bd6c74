"""What earlier setups answered, to be offered again: shown, never taken as said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from guide.plain import BadInput
from guide.procedure.model import Fact, Procedure
from guide.walk.answers import accepted
from guide.walk.setup import Journal
from guide.walk.state import State
from guide.walk.world import VARIABLES

OF_THE_LATHE = frozenset(
    {"nose", "guard-fitted", "chuck-kind", "screw-count", "sense", "clearance", "bolt-count"}
)
"""Answers about the lathe and the chuck that was on it: another lathe's say nothing here."""
OF_THE_DIAL = frozenset({"indicator-name", "unit", "graduation", "tolerance", "direction"})
"""Answers that go with the person's own instrument and work, whatever the lathe."""
LOOKED_BACK = 12
"""Setups that are looked through, the latest first."""


def remembered(journal: Journal, procedure: Procedure, lathe: str) -> dict[str, str]:
    """The latest answer to each fact of a procedure that a real setup gave and that still fits."""
    found: dict[str, str] = {}
    for same_lathe, told in islice(_told(journal, lathe), LOOKED_BACK):
        names = OF_THE_DIAL | (OF_THE_LATHE if same_lathe else frozenset())
        for name in (names & told.keys() & procedure.facts.keys()) - found.keys():
            if _fits(procedure.facts[name], told[name]):
                found[name] = told[name]
    return found


def _told(journal: Journal, lathe: str) -> Iterator[tuple[bool, Mapping[str, str]]]:
    """For each real setup, the latest first: whether it was on this lathe, and its answers."""
    wanted = " ".join(lathe.split()).casefold()
    for each in journal.setups():
        if each.opening.get("mode") == "real":
            named = str(each.opening.get("facts", {}).get("lathe", ""))
            yield named.casefold() == wanted, _answers(journal, each.setup)


def _answers(journal: Journal, setup: str) -> dict[str, str]:
    """Every answer of a setup as it stood at its end."""
    told: dict[str, str] = {}
    for event in journal.events(setup):
        given = event.data.get("facts") if event.kind == "record" else None
        if isinstance(given, Mapping):
            told |= {str(name): str(each) for name, each in given.items()}
        if event.kind == "correct":
            told[str(event.data.get("fact"))] = str(event.data.get("new"))
    return told


def _fits(fact: Fact, answer: str) -> bool:
    """Whether an answer may still be given; one that was not known is asked anew."""
    try:
        return accepted(fact, answer) == answer != "unknown"
    except BadInput:
        return False


def filled_in(fact: Fact, state: State) -> str:
    """What stands there before anything is answered: told before, remembered, or the usual."""
    offered: Mapping[str, str] = state.opening.get("remembered", {})
    return state.facts.get(fact.name) or offered.get(fact.name) or fact.usual


def left_by_the_last(variable: str, state: State) -> str:
    """What the last setup on this lathe recorded of a variable; `unknown` where none did."""
    world: Mapping[str, str] = state.opening.get("lathe_before", {}).get("world", {})
    last = str(world.get(variable, "unknown"))
    return last if last in VARIABLES[variable] else "unknown"
