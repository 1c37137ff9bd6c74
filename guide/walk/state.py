"""Where a setup stands: the frozen result of folding its events."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from guide.measure.truing.heard import Heard
from guide.walk.world import UNKNOWN, World

MAKING_SURE = "making-sure"
PAUSED = "paused"
MAKING_SAFE = "making-safe"
MADE_SAFE = "made-safe"
FINISHED = "finished"
ABANDONED = "abandoned"
ENDS = (FINISHED, ABANDONED)
BESIDES_STEPS = (MAKING_SURE, PAUSED, MAKING_SAFE, MADE_SAFE, FINISHED, ABANDONED)
"""The places of a walk that are not steps of the procedure."""
BY_A_PERSON = ("terminal", "serve")
"""The inputs that somebody sits at; a setup with any other is marked for ever."""

NOTHING: Mapping[str, Any] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the setup sheet: an event as it is shown."""

    sequence: int
    at: str
    person: str
    place: str
    kind: str
    data: Mapping[str, Any] = field(hash=False)


@dataclass(frozen=True, slots=True)
class Taken:
    """A set of readings as typed, with the figures that were worked out from them."""

    sequence: int
    step: str
    serves_as: str
    take: str
    data: Mapping[str, Any] = field(hash=False)

    @property
    def figures(self) -> Mapping[str, Any]:
        """Figures by name, as text; empty where nothing could be worked out."""
        found: Mapping[str, Any] = self.data.get("figures", NOTHING)
        return found


@dataclass(frozen=True)
class State:
    """Everything that is true of a setup after its last event."""

    setup: str
    text: str
    """The digest of the procedure text that the setup was opened with."""
    place: str
    """A step, or one of `BESIDES_STEPS`."""
    present: str = ""
    """The step to come back to from making sure, a pause or making safe."""
    world: World = UNKNOWN
    facts: Mapping[str, str] = field(default_factory=dict, hash=False)
    person: str = ""
    people: tuple[str, ...] = ()
    """Everyone who has worked on this setup, in order of coming."""
    opening: Mapping[str, Any] = field(default_factory=dict, hash=False)
    entries: tuple[Entry, ...] = ()
    taken: Mapping[str, Taken] = field(default_factory=dict, hash=False)
    """The latest set of readings for each thing they serve as."""
    turn: Taken | None = None
    """The latest readings round a turn on the bar, or along a bar between centres."""
    pair: Mapping[str, Any] = field(default_factory=dict, hash=False)
    """The reading just taken at one screw."""
    moved: tuple[int, ...] = ()
    """The screws moved since the latest turn."""
    heard: tuple[Heard, ...] = ()
    """What the advisor heard since bar and indicator were last set up."""
    tries: bool = True
    """Whether a start is ever tried, to prove that the lathe is isolated."""
    rounds: int = 0
    decision: str = ""
    sequence: int = 0

    @property
    def verdict(self) -> str:
        """The latest verdict on a turn: within, outside, undecided or nothing."""
        return str(self.turn.figures.get("verdict") or "") if self.turn else ""

    @property
    def face_out(self) -> bool:
        """Whether the plate's face was judged outside: no screw cures that.

        A register that is out is taken up by the screws, as far as its clearance goes.
        """
        face = self.taken.get("face-runout")
        return face is not None and face.figures.get("verdict") == "outside"

    @property
    def plate_was_read(self) -> bool:
        """Whether the plate was read alone on the nose in this setup."""
        return "face-runout" in self.taken

    @property
    def may_run_slow(self) -> bool:
        """Whether the lowest speed is known to be no more than the chuck's marked speed."""
        from guide.walk.answers import number

        lowest = number(self.facts.get("lowest-speed", ""))
        marked = number(self.facts.get("marked-speed", ""))
        return lowest is not None and marked is not None and lowest <= marked

    @property
    def not_real(self) -> bool:
        """Whether the setup is practice, a rehearsal, or was typed by no person."""
        return self.opening.get("mode") != "real" or self.opening.get("input") not in BY_A_PERSON

    @property
    def ended(self) -> bool:
        """Whether nothing more can be added."""
        return self.place in ENDS


def altered(state: State, **changes: Any) -> State:
    """The state with some fields changed: `dataclasses.replace` without building the others anew.

    A journal of many thousand events is walked again to verify it, and most of a step's time went
    into that.
    """
    new = object.__new__(State)
    new.__dict__.update(state.__dict__, **changes)
    return new
