"""What else may be done where a setup stands: again, pause, deviate, correct, stand beside."""

from __future__ import annotations

from collections.abc import Iterable

from guide.front.desk import Desk
from guide.procedure.model import Step
from guide.roles import APPRENTICE
from guide.walk.flow import may_deviate
from guide.walk.second import is_signed, least_to_allow, wanted_at
from guide.walk.setup import Setup
from guide.walk.state import MADE_SAFE, PAUSED, State

DONE = ("done", "acknowledge", "record")
"""What goes on from a step."""
WITNESSED_BY = ("acknowledge", "record")
"""What is entered at a step that may ask for a second person."""


def may_do_again(setup: Setup) -> bool:
    """Whether the step just done is one that can be done again."""
    step = setup.procedure.by_name.get(setup.state.entries[-1].place)
    back = step is not None and (step.again is not None or step.kind in ("readings", "facts"))
    return back and setup.step is not None and setup.state.entries[-1].kind in DONE


def runs(state: State) -> bool:
    """Whether there is something to pause: not where it is paused already, or ended."""
    return not state.ended and state.place not in (PAUSED, MADE_SAFE)


def may_deviate_here(setup: Setup) -> bool:
    """At a task that is not a look; a gate is never passed this way, practice has no use."""
    practice = setup.state.opening.get("mode") == "practice"
    return setup.step is not None and may_deviate(setup.step) and not practice


def correctable(setup: Setup) -> dict[str, str]:
    """The answers given so far that may be corrected; the lathe of a setup stays."""
    facts = setup.procedure.facts
    return {n: v for n, v in setup.state.facts.items() if n in facts and n != "lathe"}


def witness_at(step: Step | None, state: State, trigger: str) -> str:
    """The role of the second person that an entry here needs; blank where it needs none."""
    return wanted_at(step, state) if step and trigger in WITNESSED_BY else ""


def everybody(
    state: State, known: Iterable[str], desk: Desk | None, least: str = APPRENTICE
) -> tuple[str, ...]:
    """Everybody known, the one at the lathe too; where people sign on, of a role or above."""
    if is_signed(state) and desk:
        return tuple(desk.names(least))
    return tuple(dict.fromkeys((*state.people, *known)))


def others(
    state: State, known: Iterable[str], desk: Desk | None, least: str = APPRENTICE
) -> tuple[str, ...]:
    """Those who may take over or stand beside: everybody but the one at the lathe."""
    return tuple(each for each in everybody(state, known, desk, least) if each != state.person)


def who_allow(state: State, known: Iterable[str], desk: Desk | None) -> tuple[str, ...]:
    """Those who may allow a deviation."""
    known = tuple(known)
    own, all_of = (everybody(state, known, desk, least_to_allow(each)) for each in (True, False))
    return tuple(each for each in all_of if each in own or each != state.person)
