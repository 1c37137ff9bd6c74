"""A walk is a fold over its events: what one event makes of the state, and where it heads."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property, lru_cache
from typing import Any

from guide.journal.event import Event
from guide.measure.truing.heard import WasRead
from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.model import Procedure, Step
from guide.walk.bits import encode
from guide.walk.branch_tests import answer
from guide.walk.closed import closed_facts
from guide.walk.flow import (
    STOP_AND_ISOLATE,
    Exit,
    carry_out,
    exits,
    first_place,
    looks,
    may_deviate,
    taken,
    world_after,
)
from guide.walk.judged_anew import with_judged
from guide.walk.landing import Plan, Ways
from guide.walk.looking import seen
from guide.walk.making_safe import next_to_safe, tries_to_start, wanted_to_safe
from guide.walk.recording import all_confirmed, recorded
from guide.walk.second import allowed, witnessed
from guide.walk.sent_by import refuse_odd
from guide.walk.state import (
    ABANDONED,
    MADE_SAFE,
    MAKING_SAFE,
    MAKING_SURE,
    NOTHING,
    PAUSED,
    Entry,
    State,
    altered,
)
from guide.walk.world import UNKNOWN, changed, do, value

TRIED_EVERYWHERE = ("1", "2", "3")
"""Reckonings that tried to start on the way to safety in every procedure; records of theirs are
folded so."""


class Fold:
    """Applies events of one setup under the procedure text it was opened with."""

    def __init__(self, procedure: Procedure) -> None:
        self.procedure = procedure
        self._exits: dict[str, tuple[Exit, ...]] = {}
        self._ways: dict[tuple[tuple[str, str], ...], Ways] = {}

    @cached_property
    def tested(self) -> frozenset[str]:
        """Facts that a branch, a need or the table looks at: correcting one forces a new look."""
        return frozenset(name for facts in closed_facts(self.procedure) for name in facts)

    @cached_property
    def _tries(self) -> bool:
        """Whether a step of the procedure tries to start."""
        return tries_to_start(self.procedure)

    @cached_property
    def _plan(self) -> Plan:
        """What is the same for all facts."""
        return Plan(self.procedure)

    def ways(self, facts: Mapping[str, str]) -> Ways:
        """All ways on under the closed facts told so far."""
        told = tuple(sorted((name, facts[name]) for name in self.tested if name in facts))
        if told not in self._ways:
            self._ways[told] = Ways(self._plan, dict(told))
        return self._ways[told]

    def opened(self, event: Event) -> State:
        """The state of a setup that was just opened."""
        facts = dict(event.data.get("facts", {}))
        state = State(
            setup=event.setup,
            text=str(event.data["procedure_text"]),
            place="",
            facts=facts,
            person=event.person,
            people=(event.person,),
            opening=event.data,
            tries=self._tries or event.data.get("reckoning") in TRIED_EVERYWHERE,
            entries=(_entry(event),),
            sequence=event.sequence,
        )
        return altered(state, place=self.first(state))

    def first(self, state: State) -> str:
        """The first step."""
        return first_place(self.procedure, UNKNOWN, state.facts, lambda name: answer(name, state))

    def after(self, state: State, event: Event) -> State:
        """The state after one event; raises a Refusal where the event may not happen here."""
        if state.ended:
            raise NotAllowed(
                N_("This setup has ended; nothing can be added to it."), N_("Open a new one.")
            )
        if (event.step, event.sequence) != (state.place, state.sequence + 1):
            raise NotAllowed(
                N_("This was done at {step}, and the walk stands at {place}."),
                N_("Nothing can be skipped or answered before its time."),
                step=event.step,
                place=state.place,
            )
        refuse_odd(self.procedure.by_name.get(state.place), event.kind, event.data)
        made = self._made(state, event)
        people = made.people if event.person in made.people else (*made.people, event.person)
        return altered(
            made,
            person=event.person,
            people=people,
            sequence=event.sequence,
            entries=(*made.entries, _entry(event)),
            heard=() if value(made.world, "series") == "closed" else made.heard,
        )

    def _made(self, state: State, event: Event) -> State:
        """What the event does, by its kind."""
        by_kind = {
            "pause": self._paused,
            "resume": self._resumed,
            "take-over": self._taken_over,
            "abandon": self._abandoned,
            "correct": self._corrected,
            "again": self._again,
            "deviate": self._deviated,
        }
        if event.person != state.person and event.kind not in ("take-over", "abandon"):
            raise NotAllowed(
                N_("{person} is not the one at the lathe; {other} is."),
                N_("Take over first."),
                person=event.person,
                other=state.person,
            )
        if event.kind in by_kind:
            return by_kind[event.kind](state, event)
        if state.place == MAKING_SURE:
            return self._made_sure(state, event)
        if state.place == MAKING_SAFE:
            return self._making_safe(state, event)
        if state.place not in self.procedure.by_name:
            raise NotAllowed(N_("The setup is paused."), N_("Resume it first."))
        return self._stepped(state, event)

    def _stepped(self, state: State, event: Event) -> State:
        """The present step, done."""
        step = self.procedure.by_name[state.place]
        told = recorded(state, step, event)
        witnessed(state, step, event)
        if looks(step):
            return self._looked(state, step, event.data)
        moved = not (step.kind == "correction" and event.data.get("left"))
        world = world_after(step, told.world, told.facts, moved)
        told = altered(told, world=world)
        return altered(told, place=self._onward(told, step), present="")

    def _onward(self, state: State, step: Step) -> str:
        """Where the walk goes from a step that is done."""
        if step.name not in self._exits:
            self._exits[step.name] = tuple(exits(self.procedure, step))
        ways = self._exits[step.name]
        return taken(ways, state.world, state.facts, lambda name: answer(name, state))

    def _looked(self, state: State, step: Step, data: Mapping[str, Any]) -> State:
        """A step that looks at everything goes on like making sure."""
        world = seen(state.world, data.get("seen", NOTHING), state.facts)
        told = altered(state, world=world)
        return self._landed(told, self._onward(told, step))

    def _landed(self, state: State, present: str) -> State:
        """Go on at the present step, at the one before that restores it, or to being made safe."""
        place = self.ways(state.facts).land(present, encode(state.world))
        if place is not None:
            return altered(state, place=place, present="")
        safe = next_to_safe(state.world, state.facts) is None
        return altered(state, place=MADE_SAFE if safe else MAKING_SAFE, present=present)

    def _made_sure(self, state: State, event: Event) -> State:
        """What was seen becomes the state."""
        if event.kind != "record":
            raise NotAllowed(
                N_("First make sure of the machine: look, and say what you see."),
                N_("Answer each line."),
            )
        world = seen(state.world, event.data.get("seen", NOTHING), state.facts)
        return self._landed(altered(state, world=world), state.present)

    def _making_safe(self, state: State, event: Event) -> State:
        """The next action towards made safe, or the gate before it."""
        wanted = wanted_to_safe(state.world, state.facts, tries=state.tries)
        if event.data.get("action") != wanted.action or event.kind != wanted.trigger:
            raise NotAllowed(
                N_("To make the lathe safe the next thing is “{action}”."),
                N_("Do that first."),
                action=wanted.action,
            )
        world = state.world
        if wanted.trigger == "acknowledge":
            all_confirmed(event.data, len(wanted.checks), wanted.action)
            world = wanted.through(world, state.facts)
        else:
            world = do(wanted.action, world, state.facts)
        safe = next_to_safe(world, state.facts) is None
        return altered(state, world=world, place=MADE_SAFE if safe else MAKING_SAFE)

    def _paused(self, state: State, event: Event) -> State:
        """A pause spends a gate; from restored power it is stop, isolate, then pause."""
        if state.place in (PAUSED, MADE_SAFE):
            raise NotAllowed(N_("The setup is paused already."), N_("Resume it."))
        world = state.world
        if value(world, "power") == "restored":
            world = carry_out(STOP_AND_ISOLATE, world, state.facts)
        world = changed(world, gate="none") if world != UNKNOWN else world
        return altered(state, world=world, place=PAUSED, present=_present(state))

    def _resumed(self, state: State, event: Event) -> State:
        """Work goes on only after making sure, unless nothing was known yet."""
        return self._unconfirmed(state)

    def _taken_over(self, state: State, event: Event) -> State:
        """Another person goes on; nothing that was confirmed counts for them."""
        if event.person == state.person:
            raise NotAllowed(
                N_("{person} is at the lathe already."), N_("Go on."), person=event.person
            )
        return self._unconfirmed(state)

    def _unconfirmed(self, state: State) -> State:
        """Everything that a gate confirmed is unconfirmed; the state is asked by looking."""
        present = _present(state)
        if state.world == UNKNOWN:
            return altered(state, place=present, present="")
        world = changed(state.world, gate="none", dressed="unknown", bystanders="unknown")
        return altered(state, world=world, place=MAKING_SURE, present=present)

    def _deviated(self, state: State, event: Event) -> State:
        """A task that could not be done as written: nothing of it becomes true.

        The walk goes on only where nothing that follows needs what was not done; else it stays.
        """
        step = self.procedure.by_name.get(state.place)
        if step is None or not may_deviate(step):
            raise NotAllowed(
                N_("Only a task can be recorded as not done as written; a gate never can."),
                N_("Do the present step, or pause."),
            )
        if not str(event.data.get("why", "")).strip():
            raise BadInput(N_("A deviation needs a reason for the record."), N_("Say why."))
        allowed(state, event)
        onward = self._onward(state, step)
        passed = self.ways(state.facts).walkable(onward, encode(state.world))
        return altered(state, place=onward if passed else step.name, present="")

    def _abandoned(self, state: State, event: Event) -> State:
        """Ended unfinished, with a reason and with what hangs where."""
        if not str(event.data.get("why", "")).strip():
            raise BadInput(
                N_("A setup is abandoned only with a reason."), N_("Say why, in a few words.")
            )
        return altered(state, place=ABANDONED, present=_present(state))

    def _corrected(self, state: State, event: Event) -> State:
        """A fact corrected; one that was tested sends the walk back by way of making sure."""
        name = str(event.data.get("fact", ""))
        if name not in state.facts or name == "lathe":
            raise BadInput(
                N_("There is no recorded answer “{name}” to correct."),
                N_("Name one that was given."),
                name=name,
            )
        if str(event.data.get("old")) != state.facts[name]:
            raise BadInput(
                N_("“{name}” was recorded as {recorded}."),
                N_("Name what is being corrected."),
                name=name,
                recorded=state.facts[name],
            )
        judged = with_judged(state, event.data)
        told = altered(judged, facts={**state.facts, name: str(event.data["new"])})
        if name not in self.tested or state.world == UNKNOWN:
            return told if name not in self.tested else self._back_to_branch(told, name)
        return self._unconfirmed(self._back_to_branch(told, name))

    def _back_to_branch(self, state: State, name: str) -> State:
        """The walk returns to the step that asked, if that lies behind it."""
        asked = next(step.name for step in self.procedure.steps if name in step.ask)
        present = _present(state)
        order = self.procedure.order
        back = asked if order[asked] < order.get(present, len(order)) else present
        return altered(state, place=back, present=back)

    def _again(self, state: State, event: Event) -> State:
        """The step before, once more, with its undoing as actions."""
        step = self.procedure.by_name.get(str(event.data.get("step", "")))
        if step is None or (step.again is None and step.kind not in ("readings", "facts")):
            raise NotAllowed(
                N_("That step cannot be done again from here."), N_("Go on, or pause.")
            )
        here = self.procedure.by_name.get(state.place)
        ways = {way.to for way in exits(self.procedure, step)}
        if here is None or here.name not in ways or step.name != _done_last(state):
            raise NotAllowed(
                N_("Only the step just done can be done again."), N_("Go on, or pause.")
            )
        world = carry_out(step.again or (), state.world, state.facts)
        if not self.ways(state.facts).walkable(step.name, encode(world)):
            raise NotAllowed(
                N_("“{title}” cannot be done again as the machine stands."),
                N_("Go on; the walk comes back to it where that is right."),
                title=step.title,
            )
        turns = isinstance(state.heard[-1] if state.heard else None, WasRead)
        heard = state.heard[:-1] if turns and step.kind == "readings" else state.heard
        return altered(state, world=world, place=step.name, heard=heard)


@lru_cache(maxsize=16)
def fold_of(procedure: Procedure) -> Fold:
    """The one fold of a procedure: what it found out of ways stays true for every setup."""
    return Fold(procedure)


def _present(state: State) -> str:
    """The step that is open, or that is waiting behind a pause."""
    return state.present or state.place


def _done_last(state: State) -> str:
    """The place at which something was done last."""
    done = ("done", "acknowledge", "record")
    return next((each.place for each in reversed(state.entries) if each.kind in done), "")


def _entry(event: Event) -> Entry:
    """The event as a line of the sheet."""
    return Entry(event.sequence, event.at, event.person, event.step, event.kind, event.data)
