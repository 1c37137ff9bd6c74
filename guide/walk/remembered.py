"""What earlier setups answered, to be offered again: shown, never taken as said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from itertools import islice
from typing import Any

from guide.plain import BadInput
from guide.procedure.model import Fact, Procedure
from guide.walk.answers import accepted
from guide.walk.setup import Journal
from guide.walk.state import State
from guide.walk.world import VARIABLES

OF_THE_LATHE = frozenset(
    {"nose", "guard-fitted", "chuck-kind", "screw-count", "sense", "clearance", "bolt-count"}
    | {"chuck", "rule", "station", "bar-ground", "bar-diameter", "marks"}
)
"""Answers about the lathe and the chuck that was on it: another lathe's say nothing here."""
OF_THE_DIAL = frozenset(
    {"indicator-name", "unit", "graduation", "tolerance", "direction"}
    | {"indicator-kind", "numbering", "range-per-turn"}
)
"""Answers that go with the person's own instrument and work, whatever the lathe."""
BELONGS = {
    "chuck": (
        "rule", "station", "bar-ground", "bar-diameter", "marks", "tolerance", "screw-count",
        "sense", "clearance", "bolt-count",
    ),
    "indicator-name": ("indicator-kind", "numbering", "range-per-turn", "calibration-due"),
}  # fmt: skip
"""Answers that are of no use without the thing they were given for: where a procedure asks for
that, they are offered only from a setup that named the same one."""
OWNER = {name: owner for owner, names in BELONGS.items() for name in names}
LOOKED_BACK = 12
"""Setups that are looked through, the latest first."""


def remembered(journal: Journal, procedure: Procedure, lathe: str) -> dict[str, str]:
    """The latest answer to each fact of a procedure that a real setup gave and that still fits."""
    found: dict[str, str] = {}
    for same_lathe, told in islice(_told(journal, lathe), LOOKED_BACK):
        names = OF_THE_DIAL | (OF_THE_LATHE if same_lathe else frozenset())
        offer(found, told, names & procedure.facts.keys(), procedure)
    return found


def offer(
    found: dict[str, str], told: Mapping[str, str], names: Set[str], procedure: Procedure
) -> None:
    """Take up what a setup told, where no later one did; owners before what belongs to them."""
    for name in sorted(names & told.keys() - found.keys(), key=lambda each: each in OWNER):
        owner = OWNER.get(name)
        alone = owner not in procedure.facts or told.get(owner) == found.get(owner, "")
        if alone and _fits(procedure.facts[name], told[name]):
            found[name] = told[name]


def _told(journal: Journal, lathe: str) -> Iterator[tuple[bool, Mapping[str, str]]]:
    """For each real setup, the latest first: whether it was on this lathe, and its answers."""
    for each in real_setups(journal):
        yield same_name(lathe_of(each), lathe), answers_of(journal, each.setup)


def real_setups(journal: Journal) -> Iterator[Any]:
    """The summaries of all real setups, the latest first."""
    return (each for each in journal.setups() if each.opening.get("mode") == "real")


def lathe_of(summary: Any) -> str:
    """The name of the lathe that a setup was opened on."""
    return str(summary.opening.get("facts", {}).get("lathe", ""))


def same_name(one: str, other: str) -> bool:
    """Whether two names are one lathe's, however they are spelled."""
    return one.casefold() == " ".join(other.split()).casefold()


def answers_of(journal: Journal, setup: str) -> dict[str, str]:
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
    of_this = offered if _of_this(fact.name, offered, state) else {}
    return state.facts.get(fact.name) or of_this.get(fact.name) or fact.usual


def _of_this(name: str, offered: Mapping[str, str], state: State) -> bool:
    """Whether what is remembered is of the thing that an earlier page of this setup named."""
    owner = OWNER.get(name, "")
    now, then = state.facts.get(owner), offered.get(owner)
    return now is None or then is None or same_name(then, now)


def left_by_the_last(variable: str, state: State) -> str:
    """What the last setup on this lathe recorded of a variable; `unknown` where none did."""
    world: Mapping[str, str] = state.opening.get("lathe_before", {}).get("world", {})
    last = str(world.get(variable, "unknown"))
    return last if last in VARIABLES[variable] else "unknown"
