"""What each kind of step takes in, and what it refuses."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from guide.journal.event import Event
from guide.measure.truing.heard import WasTorqued
from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.model import Check, Step
from guide.procedure.vocabulary import TRIGGER
from guide.walk.advised import pair_was_read, was_moved, was_read
from guide.walk.deciding import TURNS_ON_THE_BAR, not_open, offered
from guide.walk.state import State, Taken, altered

FOLLOWS = {
    ("chuck-kind", "independent"): {"sense": "away", "screw-count": "4"},
}
"""What an answer settles without being asked: an independent jaw that is driven in pushes the work
away from it, and there are four of them (common practice, no source)."""


def recorded(state: State, step: Step, event: Event) -> State:
    """The state with what was entered at a step, before what the step does to the machine."""
    wanted = TRIGGER[step.kind]
    if event.kind != wanted:
        raise NotAllowed(
            N_("“{title}” is a step of kind {kind}; it is not passed with “{trigger}”."),
            N_("It is passed with “{wanted}” and with nothing else."),
            title=step.title,
            kind=step.kind,
            trigger=event.kind,
            wanted=wanted,
        )
    return BY_KIND[step.kind](state, step, event)


def checks_of(step: Step, state: State) -> tuple[tuple[Check, str], ...]:
    """A gate's lines as they stand now: each check, and the person it is about where it is one."""
    lines: list[tuple[Check, str]] = []
    for check in step.checks:
        people = state.people if check.each_person else ("",)
        lines += ((check, person) for person in people)
    return tuple(lines)


def all_confirmed(data: Mapping[str, Any], count: int, title: str) -> None:
    """Every check was confirmed by its own number, once, and no other number was given."""
    given = data.get("checks")
    numbers = list(given) if isinstance(given, (list, tuple)) else []
    if sorted(map(str, numbers)) != sorted(str(n) for n in range(1, count + 1)):
        raise NotAllowed(
            N_("The gate “{title}” stays shut: its {count} checks are each confirmed once."),
            N_("Look, and confirm every check by its own number."),
            title=title,
            count=count,
        )


def _task(state: State, step: Step, event: Event) -> State:
    """A task takes in nothing but that it was done."""
    return state


def _gate(state: State, step: Step, event: Event) -> State:
    """A gate takes in the number of every check."""
    all_confirmed(event.data, len(checks_of(step, state)), step.title)
    return state


def _facts(state: State, step: Step, event: Event) -> State:
    """All facts that the step asks."""
    given = event.data.get("facts")
    facts = dict(given) if isinstance(given, Mapping) else {}
    missing = [name for name in step.ask if not str(facts.get(name, "")).strip()]
    extra = [name for name in facts if name not in step.ask]
    if missing or extra:
        raise BadInput(
            N_("“{title}” asks {asked}; missing or not asked: {names}."),
            N_("Answer what is asked; `unknown` where that is offered."),
            title=step.title,
            asked=", ".join(step.ask),
            names=", ".join((*missing, *extra)),
        )
    lathe = state.facts.get("lathe")
    if lathe and facts.get("lathe", lathe) != lathe:
        raise BadInput(
            N_("This setup was opened on the lathe {lathe}."),
            N_("Open another setup for another lathe."),
            lathe=lathe,
        )
    return altered(state, facts=_settled(state.facts, facts))


def _settled(before: Mapping[str, str], given: Mapping[str, str]) -> dict[str, str]:
    """All answers with what they settle; what an answer settled goes with it."""
    now = {**before, **given}
    for told, more in FOLLOWS.items():
        if told in now.items():
            now |= more
        elif told in before.items():
            now = {name: each for name, each in now.items() if name not in more or name in given}
    return now


def _readings(state: State, step: Step, event: Event) -> State:
    """One set of readings."""
    if step.take == "pair":
        heard = (*state.heard, pair_was_read(event.data, state))
        return altered(state, pair=event.data, heard=heard)
    taken = Taken(event.sequence, step.name, step.serves_as, step.take, event.data)
    kept = {**state.taken, step.serves_as: taken}
    if step.serves_as in TURNS_ON_THE_BAR:
        in_jaws = _in_jaws(state) and bool(state.moved)
        closed = (WasTorqued(),) if in_jaws else ()
        return altered(
            state,
            taken=kept,
            turn=taken,
            moved=(),
            pair={},
            decision="",
            rounds=state.rounds + in_jaws,
            heard=(*state.heard, *closed, was_read(taken, state)),
        )
    if step.take == "along":
        again = state.decision == "another-round"
        return altered(state, taken=kept, turn=taken, decision="", rounds=state.rounds + again)
    return altered(state, taken=kept, decision="")


def _in_jaws(state: State) -> bool:
    """Whether jaws are moved and no bolt is eased: no torque closes a round, so its turn does."""
    return state.facts.get("chuck-kind") == "independent"


def _correction(state: State, step: Step, event: Event) -> State:
    """A move, or a pair left alone."""
    if not state.pair:
        raise NotAllowed(
            N_("No screw has just been read."), N_("Read the screw before it is moved.")
        )
    screw = int(state.pair["screw"])
    move = was_moved(event.data)
    heard = state.heard if move is None else (*state.heard, move)
    return altered(state, moved=(*state.moved, screw), pair={}, heard=heard)


def _tightening(state: State, step: Step, event: Event) -> State:
    """Bolts or screws; a torque after moves closes a round."""
    torqued = step.tighten == "torque"
    closes = torqued and bool(state.moved)
    heard = (*state.heard, WasTorqued()) if torqued and state.heard else state.heard
    return altered(state, rounds=state.rounds + closes, heard=heard)


def _verdict(state: State, step: Step, event: Event) -> State:
    """A person's decision, within what the figures allow."""
    decision = str(event.data.get("decision", ""))
    if decision not in offered(step, state):
        raise not_open(decision, step, state)
    if decision == "stop" and not str(event.data.get("why", "")).strip():
        raise BadInput(N_("Stopping needs a reason for the record."), N_("Say why."))
    return altered(state, decision=decision)


def _sign_off(state: State, step: Step, event: Event) -> State:
    """Name and meaning of who hands over."""
    if str(event.data.get("name", "")).strip() != event.person:
        raise BadInput(
            N_("The sign-off is made by {person}, who is at the lathe."),
            N_("Type that name."),
            person=event.person,
        )
    return state


BY_KIND: dict[str, Callable[[State, Step, Event], State]] = {
    "task": _task,
    "gate": _gate,
    "facts": _facts,
    "readings": _readings,
    "correction": _correction,
    "tightening": _tightening,
    "verdict": _verdict,
    "sign-off": _sign_off,
}
