"""What one event took in or worked out, in a few words, and the mark that must not be missed."""

from __future__ import annotations

from collections.abc import Callable

from guide.plain import N_, BadInput
from guide.present import besides, read_out
from guide.present.labels import DECISION, MODE, NOT_A_TERMINAL, TIGHTENING
from guide.present.read_out import result
from guide.present.seen import Seen
from guide.present.words import say
from guide.procedure.model import Procedure
from guide.shop.tightening import stages
from guide.walk.answers import number
from guide.walk.flow import looks
from guide.walk.state import MAKING_SAFE, MAKING_SURE, State

Words = Callable[[Seen, Procedure, str], tuple[str, str]]
"""Puts an event into words: its value and its note."""


def entered(each: Seen, procedure: Procedure, language: str = "en") -> tuple[str, str]:
    """The value and the note of one event."""
    value, note = _of(each)(each, procedure, language)
    return value, note


def _of(each: Seen) -> Words:
    """Who puts this event into words."""
    if each.step is None:
        return BESIDES.get(each.entry.kind) or BESIDES.get(each.entry.place, besides.nothing)
    return besides.look if looks(each.step) else BY_KIND[each.step.kind]


def _opened(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Which procedure on which lathe, and the marks of a setup that is not real."""
    data = each.entry.data
    lathe = str(each.before.facts.get("lathe", ""))
    value = say(
        N_("{procedure}, revision {revision}; lathe {lathe}"),
        language,
        procedure=data.get("procedure", ""),
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
    if state.opening.get("input") != "terminal":
        said.append(say(NOT_A_TERMINAL, language))
    return tuple(said)


def _task(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """The actions that were done."""
    return ", ".join(map(str, each.entry.data.get("did", ()))), ""


def _gate(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Every check by its own number."""
    data = each.entry.data
    numbers = ", ".join(sorted(map(str, data.get("checks", ())), key=int))
    value = say(N_("checks {numbers} confirmed"), language, numbers=numbers)
    fast = say(N_("faster than it can be read"), language) if data.get("faster_than_read") else ""
    seconds = str(data.get("seconds", "")).strip()
    return f"{value}; {seconds} s" if seconds else value, fast


def _facts(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Each fact and its answer."""
    told = each.entry.data.get("facts", {}).items()
    return "; ".join(f"{name}: {answer}" for name, answer in told), ""


def _tightening(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Torque as given, its source, the order, and whether a wrench showed it."""
    data, kind = each.entry.data, each.step.tighten if each.step else ""
    parts = [say(TIGHTENING[kind], language)]
    if data.get("torque"):
        parts.append(str(data["torque"]))
    if data.get("source"):
        parts.append(say(N_("from {source}"), language, source=data["source"]))
    if kind == "torque" and (bolts := number(each.before.facts.get("bolt-count", ""))):
        parts += pattern(int(bolts), language)
    if data.get("check_pass") == "yes":
        parts.append(say(N_("checked all round"), language))
    no_wrench = data.get("wrench") == "no"
    if data.get("wrench") == "yes":
        parts.append(say(N_("with a torque wrench"), language))
    return "; ".join(parts), say(N_("by feel, torque not known"), language) if no_wrench else ""


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
    plate = each.step is not None and each.step.decisions == ("accept", "stop")
    figures = {} if plate or turn is None else turn.figures
    rests_on = result(figures, str(figures.get("unit", "")), language)
    why = str(data.get("why", "")).strip()
    value = ": ".join(filter(None, (decided, rests_on)))
    return value, why


def _sign_off(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Printed name and meaning."""
    data = each.entry.data
    return f"{data.get('name', '')}: {data.get('meaning', '')}", ""


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
