"""A practice setup: a real walk at a simulated chuck, with what is done on the bench written down.

It is a `Setup` like any other; the same fold, gates and records serve it. Every event carries under
`practice` what the debrief needs: how the bench stands, what was to be read, what was done wrong.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.journal.event import Event
from guide.plain import N_, NotAllowed
from guide.practice.bench import Bench
from guide.practice.kept import dial, dial_text, truth, truth_text
from guide.practice.lesson import LATHE, PROCEDURE, Lesson
from guide.procedure.model import Procedure, Step
from guide.procedure.shelf import find
from guide.walk.as_found import expected_at_look
from guide.walk.flow import looks
from guide.walk.looking import ASKED
from guide.walk.second import Signer
from guide.walk.setup import Journal, Setup, open_setup, resume_setup
from guide.walk.state import MAKING_SURE, State
from guide.walk.world import as_dict

ONESELF = {"dressed": "other", "bystanders": "near"}
"""What no look at a simulated lathe can say of the one who looks: the gates ask for it."""
AT_THE_BENCH = ("readings", "correction", "tightening", "verdict")
"""Kinds of steps at which the bench is open."""


class Practised(Setup):
    """A setup on the simulated chuck."""

    def __init__(self, journal: Journal, procedure: Procedure, state: State, last: str) -> None:
        super().__init__(journal, procedure, state, last)
        self.kept: Mapping[str, Any] = state.opening["practice"]
        """What the opening event keeps of the lesson and of what is hidden."""
        self.bench = bench_of(state)
        self.hints = 0
        """Hints asked for since the last entry."""

    @property
    def at_the_bench(self) -> bool:
        """Whether the present step is one that is done at the dial."""
        step = self.step
        return step is not None and step.kind in AT_THE_BENCH

    def act(
        self,
        trigger: str,
        data: Mapping[str, Any],
        *,
        person: str,
        at: str,
        beside: Signer | None = None,
    ) -> State:
        """Do one thing: what the bench contradicts is refused, what it knows is written with it."""
        step = self.step
        if step is not None and trigger in ("done", "record"):
            self._as_on_the_bench(step)
        whole = {**data, "practice": {**self._notes(step), **data.get("practice", {})}}
        state = super().act(trigger, whole, person=person, at=at, beside=beside)
        self.bench.entered(state.sequence)
        self.hints = 0
        return state

    def _as_on_the_bench(self, step: Step) -> None:
        """Refuse to record what was not done on the bench; do there what needs no hand."""
        bench = self.bench
        if step.kind in AT_THE_BENCH and bench.key is not None:
            raise NotAllowed(
                N_("On the bench the key is still in screw {screw}."),
                N_("Take it out, and look at the dial once more."),
                screw=bench.key,
            )
        if step.tighten == "ease" and bench.bolts == "tight":
            raise NotAllowed(
                N_("On the bench the bolts are still tight."), N_("Ease them there first.")
            )
        if step.tighten in ("torque", "check") and bench.bolts in ("snug", "slack"):
            raise NotAllowed(
                N_("On the bench the bolts are not tight."), N_("Bring them to their torque there.")
            )
        if step.tighten == "touch":
            bench.screws.touch()
        if step.tighten == "nip" or any(each.action == "jaws tighten" for each in step.does):
            bench.nip()

    def _notes(self, step: Step | None) -> dict[str, Any]:
        """What the debrief has to know of this entry."""
        bench = self.bench
        told: dict[str, Any] = {"bench": bench.as_text(), "runout": repr(bench.runout())}
        if bench.taken:
            told["shown"] = [[f"{angle:g}", *shown] for angle, *shown in bench.taken]
        if step is not None and (step.kind == "correction" or step.take == "pair"):
            exact = repr(bench.dial.exactly(bench.needle()))
            told["now"] = [f"{bench.angle:g}", bench.shown(), exact]
        if bench.noted:
            told["counts"] = {name: str(count) for name, count in sorted(bench.noted.items())}
        if self.hints:
            told["hints"] = str(self.hints)
        return told

    def _seen(self) -> dict[str, str]:
        """The simulated lathe: as recorded, and what was never looked at as it usually is."""
        state = self.state
        usual = as_dict(expected_at_look(state.world, state.facts))
        if state.place != MAKING_SURE:
            return usual
        known = as_dict(state.world)
        return {name: usual[name] if each == "unknown" else each for name, each in known.items()}

    def fill(self, at: str) -> bool:
        """Answer one step that the lesson answers by itself; False where there is none.

        Facts come from the lesson. A look sees the simulated lathe, but never the learner.
        """
        step, state = self.step, self.state
        if state.place == MAKING_SURE or (step is not None and looks(step)):
            seen = self._seen() | ONESELF
            told: dict[str, Any] = {"seen": {name: seen[name] for name in ASKED}}
        elif step is not None and step.kind == "facts" and set(step.ask) <= set(state.facts):
            told = {"facts": {name: state.facts[name] for name in step.ask}}
        else:
            return False
        trigger = "done" if step is not None and step.kind == "task" else "record"
        told["practice"] = {"filled": "yes"}
        self.act(trigger, told, person=state.person, at=at)
        return True


def opened(
    journal: Journal,
    lesson: Lesson,
    seed: int,
    *,
    setup: str,
    person: str,
    at: str,
    typed_at: str = "terminal",
) -> Practised:
    """A new practice setup, with everything hidden kept in its first event."""
    hidden = {
        "lesson": lesson.name,
        "seed": str(seed),
        "truth": truth_text(lesson.truth),
        "dial": dial_text(lesson.dial),
        "stations": [repr(each) for each in lesson.stations],
        "tolerance": repr(lesson.tolerance_in),
        "flag": lesson.flag,
        "rounds": str(lesson.rounds),
        "readings": str(lesson.readings),
        "tools": list(lesson.tools),
        "advice": "shown" if lesson.shows_advice else "asked",
        "facts": lesson.facts(),
    }
    walk = open_setup(
        journal, find(PROCEDURE), setup=setup, person=person, at=at, lathe=LATHE,
        mode="practice", typed_at=typed_at, practice=hidden,
    )  # fmt: skip
    return practised(walk)


def practised(walk: Setup) -> Practised:
    """A practice setup that was opened or replayed as a plain one."""
    last: Event = walk.journal.events(walk.state.setup)[-1]
    return Practised(walk.journal, walk.procedure, walk.state, last.digest)


def gone_on(journal: Journal, setup: str, *, person: str, at: str) -> Practised:
    """Go on with a practice setup."""
    return practised(resume_setup(journal, setup, person=person, at=at))


def bench_of(state: State) -> Bench:
    """The bench as the last entry left it: a fold over the journal, like everything else."""
    kept = state.opening["practice"]
    stations = tuple(float(each) for each in kept["stations"])
    bench = Bench(truth(kept["truth"]), dial(kept["dial"]), str(kept["seed"]), stations)
    for entry in reversed(state.entries):
        stood = entry.data.get("practice", {}).get("bench")
        if stood is not None and entry.kind != "open":
            bench.stand_as(stood, entry.sequence)
            break
    return bench
