"""What one event took in or worked out, in a few words, and the mark that must not be missed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import chain
from typing import Any

from guide.measure.numerals import in_sign
from guide.plain import N_, BadInput
from guide.present import besides, read_out
from guide.present.labels import (
    CLOCK_SET_BACK,
    DECISION,
    MODE,
    NOT_A_TERMINAL,
    NOT_SIGNED,
    SERVES_AS,
    TIGHTENING,
)
from guide.present.read_out import result
from guide.present.recorded import answered, doings, fact_named
from guide.present.seen import Seen
from guide.present.torque_before import before_it
from guide.present.words import recorded, say, written
from guide.procedure.model import Procedure, Step
from guide.procedure.vocabulary import TRIGGER
from guide.shop.tightening import stages
from guide.walk.answers import UNKNOWN_ANSWER, number
from guide.walk.deciding import PLATE
from guide.walk.flow import looks
from guide.walk.recording import checks_of
from guide.walk.sensible import newly_odd, told_with
from guide.walk.sent_by import counted
from guide.walk.state import BY_A_PERSON, MAKING_SAFE, MAKING_SURE, Entry, State

Words = Callable[[Seen, Procedure, str], tuple[str, str]]
"""Puts an event into words: its value and its note."""


def entered(each: Seen, procedure: Procedure, language: str = "en") -> tuple[str, str]:
    """The value and the note of one event."""
    value, note = _of(each)(each, procedure, language)
    besides_it = (part(each, language) for part in (_by_wire, _beside, _odd, _out_of_time))
    return value, "; ".join(filter(None, (note, *chain.from_iterable(besides_it))))


def _beside(each: Seen, language: str) -> Iterator[str]:
    """Who witnessed it."""
    told = each.entry.data.get("witness")
    if isinstance(told, Mapping):
        who = besides.second(told, language)
        yield say(N_("witnessed by {who}"), language, who=who)


def _by_wire(each: Seen, language: str) -> Iterator[str]:
    """Which indicator sent readings by wire."""
    name, sent, read = counted(each.entry.data)
    if name:
        told = N_("{n} of {of} sent by {name}") if sent < read else N_("sent by {name}")
        yield say(told, language, name=name, n=sent, of=read)


def _odd(each: Seen, language: str) -> Iterator[str]:
    """Answers that the trade hardly has, or that contradict another, and were said once more."""
    facts, entry = each.before.facts, each.entry
    for odd in newly_odd(facts, told_with(facts, entry.kind, entry.data, entry.at)):
        yield say(odd.sentence, language, **dict(odd.values)).rstrip(".")


def _out_of_time(each: Seen, language: str) -> Iterator[str]:
    """An event dated before the one before it: the order is that of the numbers."""
    before = each.before.entries[-1]
    if before.sequence < each.entry.sequence and each.entry.at < before.at:
        yield say(CLOCK_SET_BACK, language)


def _of(each: Seen) -> Words:
    """Who puts this event into words."""
    if each.entry.kind == "deviate":
        return besides.deviated
    if each.step is None:
        return BESIDES.get(each.entry.kind) or BESIDES.get(each.entry.place, besides.nothing)
    return besides.look if looks(each.step) else BY_KIND[each.step.kind]


def to_witness(
    step: Step, state: State, procedure: Procedure, data: Mapping[str, Any], language: str = "en"
) -> tuple[str, ...]:
    """What somebody stands beside before it is entered: every check of a gate, else the result."""
    if step.kind == "gate":
        named = [(written(check.say, language), person) for check, person in checks_of(step, state)]
        return tuple(f"{person}: {words}" if person else words for words, person in named)
    told = Entry(state.sequence + 1, "", state.person, step.name, TRIGGER[step.kind], data)
    both = BY_KIND[step.kind](Seen(told, step, state, state), procedure, language)
    return tuple(filter(None, (*both, _handed_over(step, state, language))))


def _handed_over(step: Step, state: State, language: str) -> str:
    """At the sign-off, the latest result."""
    turn = state.turn if step.kind == "sign-off" else None
    if turn is None:
        return ""
    told = result(turn.figures, str(turn.figures.get("unit", "")), language)
    return f"{say(SERVES_AS[turn.serves_as], language)}: {told}" if told else ""


def _opened(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Which procedure on which lathe, and the marks of a setup that is not real."""
    data = each.entry.data
    lathe = str(each.before.facts.get("lathe", ""))
    value = say(
        N_("{procedure}, revision {revision}; lathe {lathe}"),
        language,
        procedure=written(procedure.title, language),
        revision=data.get("revision", ""),
        lathe=lathe,
    )
    return value, "; ".join(marks(each.before, language))


def marks(state: State, language: str = "en") -> tuple[str, ...]:
    """What every page of the record says for ever: practice, rehearsal, not from a terminal."""
    said = []
    if state.opening.get("mode") != "real":
        mode = str(state.opening.get("mode", ""))
        said.append(say(MODE.get(mode, mode.upper()), language))
    if state.opening.get("input") not in BY_A_PERSON:
        said.append(say(NOT_A_TERMINAL, language))
    if state.opening.get("mode") == "real" and state.opening.get("sign_on") != "on":
        said.append(say(NOT_SIGNED, language))
    return tuple(said)


def _task(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """The actions that were done."""
    return doings(each.entry.data.get("did", ()), language), ""


def _gate(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Every check by its own number."""
    data = each.entry.data
    numbers = ", ".join(sorted(map(str, data.get("checks", ())), key=int))
    value = say(N_("checks {numbers} confirmed"), language, numbers=numbers)
    fast = say(N_("faster than it can be read"), language) if data.get("faster_than_read") else ""
    seconds = str(data.get("seconds", "")).strip()
    return f"{value}; {seconds} s" if seconds else value, fast


def _facts(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Each fact and its answer; an indicator past its calibration is noted."""
    data = each.entry.data
    told = "; ".join(
        f"{fact_named(name, language)}: {answered(procedure.facts.get(name), answer, language)}"
        for name, answer in data.get("facts", {}).items()
    )
    ended = data.get("overdue")
    days = ended.values() if isinstance(ended, Mapping) else ()
    notes = [say(CALIBRATION_ENDED, language, day=day) for day in days]
    if limit := data.get("error_limit"):
        kept = N_("error limit of the indicator, as it is kept in the equipment: {limit}")
        notes.append(say(kept, language, limit=limit))
    return told, "; ".join(notes)


CALIBRATION_ENDED = N_("the indicator's calibration had ended on {day}")


def _tightening(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Torque as given, its source, the order, and whether a wrench showed it."""
    data, kind = each.entry.data, each.step.tighten if each.step else ""
    parts = [say(TIGHTENING[kind], language)]
    if torque := data.get("torque"):
        no_torque = say(N_("torque not known"), language)
        parts.append(no_torque if torque == UNKNOWN_ANSWER else in_sign(str(torque), language))
    if source := data.get("source"):
        told = N_("source not known") if source == UNKNOWN_ANSWER else N_("from {source}")
        parts.append(say(told, language, source=recorded(source, language)))
    if kind == "torque" and (bolts := number(each.before.facts.get("bolt-count", ""))):
        parts += pattern(int(bolts), language)
    if data.get("check_pass") == "yes":
        parts.append(say(N_("checked all round"), language))
    no_wrench = data.get("wrench") == "no"
    if data.get("wrench") == "yes":
        parts.append(say(N_("with a torque wrench"), language))
    by_feel = say(N_("by feel, torque not known"), language) if no_wrench else ""
    return "; ".join(parts), "; ".join(filter(None, (by_feel, before_it(each, language))))


def pattern(bolts: int, language: str) -> tuple[str, ...]:
    """The order and the passes that were shown; nothing for a number that is not known here."""
    try:
        *passes, _ = stages(bolts)
    except BadInput:
        return ()
    order = "-".join(map(str, passes[0].order))
    shares = ", ".join(str(each.percent) for each in passes)
    return (say(N_("order {order} at {shares} %"), language, order=order, shares=shares),)


def _verdict(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """The decision, and the figure that it rests on."""
    data = each.entry.data
    decided = say(DECISION[str(data["decision"])], language)
    turn = each.before.turn
    plate = each.step is not None and each.step.decisions == PLATE
    figures = {} if plate or turn is None else turn.figures
    rests_on = result(figures, str(figures.get("unit", "")), language)
    why = recorded(str(data.get("why", "")).strip(), language)
    value = ": ".join(filter(None, (decided, rests_on)))
    return value, why


def _sign_off(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Printed name and meaning."""
    data = each.entry.data
    return f"{data.get('name', '')}: {recorded(data.get('meaning', ''), language)}", ""


BY_KIND: dict[str, Words] = {
    "task": _task,
    "gate": _gate,
    "facts": _facts,
    "readings": read_out.readings,
    "correction": read_out.correction,
    "tightening": _tightening,
    "verdict": _verdict,
    "sign-off": _sign_off,
}
BESIDES: dict[str, Words] = {
    "open": _opened,
    "pause": besides.why,
    "abandon": besides.why,
    "take-over": besides.taken_over,
    "correct": besides.corrected,
    "again": besides.again,
    MAKING_SURE: besides.look,
    MAKING_SAFE: besides.made_safe,
}
