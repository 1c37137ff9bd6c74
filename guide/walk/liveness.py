"""Which variables can still matter from a step on: the rest are set before they are looked at.

Two machine states that agree on what is live at a step have the same future there, so the proof
walks them once. (Live-variable analysis of compilers, over steps instead of statements.)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from guide.procedure.condition import Condition
from guide.procedure.model import Procedure, Step
from guide.walk.flow import doings, exits, looks
from guide.walk.looking import ASKED
from guide.walk.table import NOT_WORK
from guide.walk.world import ACTIONS, FINISHED, INDEX, VARIABLES

EVERY = frozenset(VARIABLES)


def live(procedure: Procedure) -> Mapping[str, frozenset[str]]:
    """For each step, the variables that may be looked at from it on before they are set."""
    uses = {step.name: _uses(procedure, step) for step in procedure.steps}
    sets = {step.name: _sets(step) for step in procedure.steps}
    following = {s.name: {way.to for way in exits(procedure, s)} for s in procedure.steps}
    found: dict[str, frozenset[str]] = {name: frozenset() for name in uses}
    found |= {"finished": _named(FINISHED), "abandoned": EVERY}
    again = True
    while again:
        again = False
        for step in reversed(procedure.steps):
            after = frozenset().union(*(found[name] for name in following[step.name]))
            now = uses[step.name] | (after - sets[step.name])
            again = again or now != found[step.name]
            found[step.name] = now
    return found


def _named(conditions: Iterable[Condition]) -> frozenset[str]:
    """The variables that conditions look at."""
    terms = (term for each in conditions for term in each.terms)
    return frozenset(term.name for term in terms if term.name in INDEX)


def _uses(procedure: Procedure, step: Step) -> frozenset[str]:
    """What a step looks at before it has set it itself."""
    wanted = [*step.needs, *(c.confirms for c in step.checks if c.confirms)]
    if step.kind == "sign-off":
        wanted += FINISHED
    used = set(_named(wanted))
    if looks(step):
        return frozenset(used) | EVERY
    made: set[str] = set()
    for doing in doings(step):
        action = ACTIONS[doing.action]
        only_if = (doing.only_if,) if doing.only_if else ()
        thens = tuple(condition for _, _, condition in action.then if condition)
        named = _named((*action.possible, *action.needs, *only_if, *thens))
        used |= (named | {"power", "spindle"}) - made
        if not doing.only_if:
            made |= _effects(doing.action)
    ways = _named(c for way in exits(procedure, step) for c in way.conditions)
    return frozenset(used | (ways - made - ({"gate"} if step.opens else set())))


def _effects(action: str) -> set[str]:
    """What an action sets whatever it was before."""
    effects = {variable for variable, _, only_if in ACTIONS[action].then if only_if is None}
    return effects | {"gate"} | (set() if action in NOT_WORK else {"swing", "bystanders"})


def _sets(step: Step) -> frozenset[str]:
    """What a step sets in every case."""
    if looks(step):
        return frozenset(ASKED)
    if step.kind == "correction":
        return frozenset()
    made: set[str] = {"gate"} if step.opens else set()
    for doing in doings(step):
        if not doing.only_if:
            made |= _effects(doing.action)
    return frozenset(made)
