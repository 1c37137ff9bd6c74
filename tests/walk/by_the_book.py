"""Where an act may lead, worked out by hand from a procedure's text: no way of the code is asked.

A step leads to the first step behind it, or behind a branch's target, whose `when` holds. What a
branch test says is not asked here: where a condition names one, either answer will do.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guide.procedure.model import Procedure, Step
from guide.walk.state import State
from guide.walk.world import VARIABLES, as_dict

ASIDE = ("making-sure", "paused", "making-safe", "made-safe", "finished", "abandoned")
TAKEN_ON_BY = {"task": "done", "gate": "acknowledge"}
"""What takes a walk on from a step of a kind; from every other kind it is `record`."""


def holds(text: str, told: Mapping[str, str]) -> bool | None:
    """A condition as written, or None where what decides is not told."""
    found = [_all_hold(alternative.split(" and "), told) for alternative in text.split(" or ")]
    return True if True in found else None if None in found else False


def _all_hold(terms: list[str], told: Mapping[str, str]) -> bool | None:
    """An `and` of terms."""
    found = [_holds(term.strip(), told) for term in terms]
    return False if False in found else None if None in found else True


def _holds(term: str, told: Mapping[str, str]) -> bool | None:
    """One term; a branch test and what nobody tells may be either."""
    negated, term = term.startswith("not "), term.removeprefix("not ")
    name, _, values = term.partition("=")
    if name not in told:
        return None
    if told[name] == "unknown" and name in VARIABLES:
        return False
    return (told[name] in values.split("/")) is not negated


def onward(procedure: Procedure, step: Step, after: State) -> Iterator[str]:
    """Every place that a step may lead to, by the machine state and the facts behind it."""
    told = {**dict.fromkeys(procedure.facts, "unknown"), **after.facts, **as_dict(after.world)}
    names = [each.name for each in procedure.steps]
    starts = []
    for branch in step.go:
        says = True if branch.condition is None else holds(branch.condition.text, told)
        starts += [branch.to] if says is not False else []
        if says is True:
            break
    else:
        starts.append(names[names.index(step.name) + 1] if step.name != names[-1] else "finished")
    for start in starts:
        if start not in names:
            yield start
        else:
            yield from _entered(procedure, names.index(start), told)


def _entered(procedure: Procedure, start: int, told: Mapping[str, str]) -> Iterator[str]:
    """The first step from a number on that lets a walk in; several where a test decides."""
    for step in procedure.steps[start:]:
        says = True if step.when is None else holds(step.when.text, told)
        if says is not False:
            yield step.name
        if says is True:
            return
    yield "finished"


def may_lead(procedure: Procedure, trigger: str, before: State, after: State) -> bool:
    """Whether an act may have led from one state to the other."""
    place, to = before.place, after.place
    order = procedure.order
    beside = {
        "pause": to == "paused" and place not in ("paused", "made-safe"),
        "abandon": to == "abandoned",
        "resume": _looks_first(before, to),
        "take-over": _looks_first(before, to),
        "again": to in order and to == done_last(before) and _leads(procedure, to, place, before),
        "deviate": _deviates(procedure, before, after),
        "correct": place in order and (to == "making-sure" or order.get(to, 999) <= order[place]),
    }
    if trigger in beside:
        return beside[trigger]
    if place == "making-sure":
        return _lands(order, before.present, to) and trigger == "record"
    if place == "making-safe":
        return to in ("making-safe", "made-safe") and trigger in ("done", "acknowledge")
    if place not in order:
        return False
    step = procedure.by_name[place]
    if trigger != TAKEN_ON_BY.get(step.kind, "record"):
        return False
    ways = set(onward(procedure, step, after))
    if any(doing.action == "look" for doing in step.does):
        return any(_lands(order, way, to) for way in ways)
    return to in ways


def _deviates(procedure: Procedure, before: State, after: State) -> bool:
    """A task alone is not done as written: nothing becomes true, and the walk stays or goes on."""
    step = procedure.by_name.get(before.place)
    if step is None or step.kind != "task" or any(each.action == "look" for each in step.does):
        return False
    untouched = after.world == before.world and after.facts == before.facts
    return untouched and after.place in {before.place, *onward(procedure, step, after)}


def done_last(state: State) -> str:
    """The place at which something was done last."""
    done = ("done", "acknowledge", "record")
    return next((each.place for each in reversed(state.entries) if each.kind in done), "")


def _looks_first(before: State, to: str) -> bool:
    """Work goes on by making sure, unless nothing is known of the machine yet."""
    if set(before.world) == {"unknown"}:
        return to == (before.present or before.place)
    return to == "making-sure"


def _leads(procedure: Procedure, step: str, place: str, before: State) -> bool:
    """Whether a step leads to the next one, some way or other."""
    number = procedure.order[step]
    named = {branch.to for branch in procedure.steps[number].go}
    starts = {number + 1, *(procedure.order[each] for each in named if each in procedure.order)}
    for start in starts:
        for each in procedure.steps[start:]:
            if each.name == place:
                return True
            if each.when is None or holds(each.when.text, before.facts) is True:
                break
    return False


def _lands(order: Mapping[str, int], present: str, to: str) -> bool:
    """Whether a walk lands at a step or before it, or makes the lathe safe."""
    if to in ("making-safe", "made-safe"):
        return True
    return to in order and order[to] <= order.get(present, 999)
