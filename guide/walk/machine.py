"""The state machine of one procedure: the only import of transitions.

States are the steps grouped by stage, and the few places besides them; triggers are few and
fixed. The fold says where an event heads; the machine lets it go only along a way that was laid
when the procedure was read, and writes the journal before it moves. No trigger leads to a state
by its name alone (`auto_transitions=False`). There are thousands of ways and a walk goes along few:
the library is told of each when it is first wanted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache

from transitions import Machine, MachineError

from guide.plain import N_, NotAllowed
from guide.procedure.model import Procedure
from guide.procedure.vocabulary import TRIGGER
from guide.walk.flow import exits, looks, may_deviate
from guide.walk.state import (
    ABANDONED,
    BESIDES_STEPS,
    MADE_SAFE,
    MAKING_SAFE,
    MAKING_SURE,
    PAUSED,
)

TRIGGERS = (
    "done", "acknowledge", "record", "deviate", "correct", "again", "pause", "resume", "take-over",
    "abandon",
)  # fmt: skip
"""Everything that can move a walk."""


class Standing:
    """The model: where the walk stands, where it heads, and what is written before it moves."""

    state: str
    heading: str = ""
    write: Callable[[], None]
    trigger: Callable[[str], bool]

    def write_first(self) -> None:
        """Write the journal while the walk still stands where it stood."""
        self.write()


class Course:
    """The machine built for one procedure."""

    def __init__(self, procedure: Procedure) -> None:
        self.standing = Standing()
        places = [step.name for step in procedure.steps]
        self.machine = Machine(
            model=self.standing,
            states=[*places, *BESIDES_STEPS],
            initial=places[0],
            auto_transitions=False,
            before_state_change="write_first",
        )
        self.ways = set(_ways(procedure))
        """Trigger, source and destination of every way that the library is not told of yet."""

    def lay(self, *way: str) -> None:
        """Tell the library of a way, once."""
        if way in self.ways:
            self.ways.discard(way)
            self.machine.add_transition(*way, conditions=self._heads_for(way[-1]))

    def _heads_for(self, dest: str) -> Callable[[], bool]:
        """Whether the walk heads for that place."""
        return lambda: self.standing.heading == dest

    def go(self, place: str, trigger: str, heading: str, write: Callable[[], None]) -> str:
        """Move from a place along a laid way; raises `NotAllowed` where there is none."""
        self.lay(trigger, place, heading)
        self.machine.set_state(place)
        self.standing.heading, self.standing.write = heading, write
        try:
            moved = self.standing.trigger(trigger)
        except (MachineError, AttributeError):
            moved = False
        if not moved:
            raise NotAllowed(
                N_("“{trigger}” does not lead from {place} to {heading}."),
                N_("Do the present step."),
                trigger=trigger,
                place=place,
                heading=heading,
            )
        return self.standing.state


@lru_cache(maxsize=16)
def course_of(procedure: Procedure) -> Course:
    """The one machine of a procedure: between two moves it stands nowhere."""
    return Course(procedure)


def _ways(procedure: Procedure) -> Iterator[tuple[str, str, str]]:
    """Every way as trigger, source, destination."""
    names = [step.name for step in procedure.steps]
    for number, step in enumerate(procedure.steps):
        following = {way.to for way in exits(procedure, step)}
        back = set(names[: number + 1])
        trigger = TRIGGER[step.kind]
        yield from ((trigger, step.name, to) for to in following)
        if may_deviate(step):
            yield from (("deviate", step.name, to) for to in (*following, step.name))
        if looks(step):
            lands = back | following | _before(names, following) | {MAKING_SAFE, MADE_SAFE}
            yield from ((trigger, step.name, to) for to in lands)
        if step.again is not None or step.kind in ("readings", "facts"):
            yield from (("again", to, step.name) for to in following if to in names)
        yield from (("correct", step.name, to) for to in ({step.name} | _asking(procedure) & back))
        yield ("correct", step.name, MAKING_SURE)
    for place in (*names, MAKING_SURE, PAUSED, MAKING_SAFE, MADE_SAFE):
        yield ("abandon", place, ABANDONED)
        yield ("resume", place, MAKING_SURE)
        yield ("take-over", place, MAKING_SURE)
        if place not in (PAUSED, MADE_SAFE):
            yield ("pause", place, PAUSED)
    for name in names:
        yield from (("resume", place, name) for place in (name, PAUSED))
        yield from (("take-over", place, name) for place in (name, PAUSED))
        yield ("record", MAKING_SURE, name)
    for place in (MAKING_SAFE, MADE_SAFE):
        yield from ((each, MAKING_SAFE, place) for each in ("done", "acknowledge"))
        yield ("record", MAKING_SURE, place)


def _before(names: list[str], following: set[str]) -> set[str]:
    """Every step up to the furthest of some."""
    numbers = [names.index(each) for each in following if each in names]
    return set(names[: max(numbers, default=-1) + 1])


def _asking(procedure: Procedure) -> set[str]:
    """The steps that ask facts."""
    return {step.name for step in procedure.steps if step.kind == "facts"}
