"""What one event took in or worked out, in a few words, and the mark that must not be missed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from guide.measure.flags import FLAGS
from guide.plain import N_
from guide.present.labels import DECISION, MODE, NOT_A_TERMINAL, TIGHTENING, VERDICT
from guide.present.numbers import figure, plain
from guide.present.words import say
from guide.procedure.model import Procedure, Step
from guide.shop.tightening import order
from guide.walk.answers import number
from guide.walk.figures import unit_of
from guide.walk.flow import looks
from guide.walk.looking import ASKED
from guide.walk.state import MAKING_SAFE, MAKING_SURE, Entry, State
from guide.walk.world import UNKNOWN, as_dict


@dataclass(frozen=True, slots=True)
class Seen:
    """An entry with what surrounds it."""

    entry: Entry
    step: Step | None
    """The step that it did, or None where it belongs to none."""
    before: State
    after: State


def entered(each: Seen, procedure: Procedure, language: str = "en") -> tuple[str, str]:
    """The value and the note of one event."""
    value, note = _of(each)(each, procedure, language)
    return value, note


def _of(each: Seen) -> Callable[[Seen, Procedure, str], tuple[str, str]]:
    """Who puts this event into words."""
    if each.step is None:
        return BESIDES.get(each.entry.kind) or BESIDES.get(each.entry.place, _nothing)
    return _look if looks(each.step) else BY_KIND[each.step.kind]


def _nothing(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """An event that took in nothing."""
    return "", ""


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
    told: Mapping[str, Any] = each.entry.data.get("facts", {})
    return "; ".join(f"{name}: {answer}" for name, answer in told.items()), ""


def _look(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """What was seen: all of it the first time, later what was found other than recorded."""
    found = each.entry.data.get("seen", {})
    if each.before.world == UNKNOWN:
        return ", ".join(f"{name}: {found.get(name)}" for name in ASKED), ""
    differing = "; ".join(changes(each, language))
    return (differing or say(N_("all as recorded"), language)), (
        say(N_("changed from recorded"), language) if differing else ""
    )


def changes(each: Seen, language: str = "en") -> Iterator[str]:
    """Each thing that was seen other than recorded; what nobody had recorded is no change."""
    recorded = as_dict(each.before.world)
    for name, now in each.entry.data.get("seen", {}).items():
        if recorded.get(name) not in (now, "unknown"):
            yield say(
                N_("{name}: {now} (recorded {before})"),
                language,
                name=name,
                now=now,
                before=recorded.get(name),
            )


def _readings(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Readings as typed, and what they come to."""
    data, unit = each.entry.data, unit_of(each.before)
    if each.step and each.step.take == "pair":
        return (
            say(
                N_("screw {screw} reads {value} {unit}"),
                language,
                screw=data.get("screw"),
                value=data.get("value"),
                unit=unit,
            ),
            "",
        )
    if each.step and each.step.take == "play":
        return _play(data, unit, language), ""
    return "; ".join(_turn(data, unit, language)), _flags(data, language)


def _play(data: Mapping[str, Any], unit: str, language: str) -> str:
    """A push and a pull."""
    return say(
        N_("pushed {pushed}, pulled {pulled}: play {play}"),
        language,
        pushed=data.get("pushed"),
        pulled=data.get("pulled"),
        play=figure(data.get("figures", {}).get("play"), unit, language),
    )


def _turn(data: Mapping[str, Any], unit: str, language: str) -> Iterator[str]:
    """One turn: each angle and its reading, then the figures."""
    yield as_typed(data)
    if data.get("closing"):
        yield say(N_("back at the first {closing}"), language, closing=data["closing"])
    if data.get("watched"):
        low, high = data["watched"]
        yield say(N_("watched {low} to {high}"), language, low=low, high=high)
    yield result(data.get("figures", {}), unit, language)


def as_typed(data: Mapping[str, Any]) -> str:
    """Each reading of a turn as it was typed, behind its angle."""
    angles, values = data.get("angles"), data.get("values", ())
    if not angles:
        return ", ".join(map(str, values))
    return ", ".join(f"{angle}° {each}" for angle, each in zip(angles, values, strict=False))


def result(figures: Mapping[str, Any], unit: str, language: str = "en") -> str:
    """What a turn comes to: judged runout, its uncertainty, the high spot, the verdict."""
    if "judged" not in figures:
        return ""
    parts = [say(N_("runout {judged}"), language, judged=figure(figures["judged"], unit, language))]
    if figures.get("expanded_uncertainty"):
        parts.append(f"± {figure(figures['expanded_uncertainty'], unit, language)} (k = 2)")
    if Decimal(str(figures.get("eccentricity", "0"))):
        high = plain(figures.get("high_at_deg"), 0, language)
        parts.append(say(N_("high at {angle}°"), language, angle=high))
    if figures.get("verdict"):
        parts.append(say(VERDICT[figures["verdict"]], language))
    return ", ".join(parts)


def _flags(data: Mapping[str, Any], language: str) -> str:
    """The flags that the readings raised, in words."""
    keys = data.get("figures", {}).get("flags", ())
    return " ".join(say(FLAGS[key].sentence, language) for key in keys if key in FLAGS)


def _correction(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """What was advised and what the needle came to."""
    data, unit = each.entry.data, unit_of(each.before)
    screw = each.before.pair.get("screw", data.get("screw"))
    advised = data.get("advised") or {}
    parts = [say(N_("screw {screw}"), language, screw=screw)]
    if advised:
        parts.append(
            say(
                N_("bring to {to} (by {by})"),
                language,
                to=figure(advised.get("bring_to"), unit, language),
                by=figure(advised.get("by"), unit, language),
            )
        )
    if data.get("left"):
        return ", ".join(parts), say(N_("left alone"), language)
    if data.get("got") is not None:
        parts.append(say(N_("came to {got} {unit}"), language, got=data["got"], unit=unit))
    if data.get("tightened") is not None:
        parts.append(say(N_("screw {screw} tightened"), language, screw=data["tightened"]))
    return ", ".join(parts), _wrong_way(data, language)


def _wrong_way(data: Mapping[str, Any], language: str) -> str:
    """A needle that went the other way than the move was to take it."""
    moved, by = data.get("moved"), (data.get("advised") or {}).get("by")
    if moved is None or by is None or Decimal(moved) * Decimal(by) >= 0:
        return ""
    return say(FLAGS["wrong-way"].sentence, language)


def _tightening(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Torque as given, its source, the order, and whether a wrench showed it."""
    data, kind = each.entry.data, each.step.tighten if each.step else ""
    parts = [say(TIGHTENING[kind], language)]
    if data.get("torque"):
        parts.append(str(data["torque"]))
    if data.get("source"):
        parts.append(say(N_("from {source}"), language, source=data["source"]))
    if kind == "torque" and (bolts := number(each.before.facts.get("bolt-count", ""))):
        parts.append(say(N_("order {order}"), language, order=pattern(int(bolts))))
    if data.get("check_pass") == "yes":
        parts.append(say(N_("checked all round"), language))
    no_wrench = data.get("wrench") == "no"
    if data.get("wrench") == "yes":
        parts.append(say(N_("with a torque wrench"), language))
    return "; ".join(parts), say(N_("by feel, torque not known"), language) if no_wrench else ""


def pattern(bolts: int) -> str:
    """The order of bolts numbered round the ring, blank for a number that is not known here."""
    from guide.plain import BadInput

    try:
        return "-".join(map(str, order(bolts)))
    except BadInput:
        return ""


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


def _why(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """A reason."""
    return str(each.entry.data.get("why", "")), ""


def _taken_over(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Who hands over to whom."""
    names = {"before": each.before.person, "now": each.entry.person}
    return say(N_("{now} takes over from {before}"), language, **names), ""


def _corrected(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """The old answer stays on the line beside the new one."""
    data = each.entry.data
    return f"{data.get('fact')}: {data.get('old')} → {data.get('new')}", str(data.get("why", ""))


def _again(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Which step."""
    name = str(each.entry.data.get("step", ""))
    step = procedure.by_name.get(name)
    return step.title if step else name, ""


def _made_safe(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """One action towards made safe, or the gate before it."""
    action = str(each.entry.data.get("action", ""))
    if each.entry.kind == "acknowledge":
        return say(N_("gate before “{action}”"), language, action=action), ""
    return action, ""


BY_KIND: dict[str, Callable[[Seen, Procedure, str], tuple[str, str]]] = {
    "task": _task,
    "gate": _gate,
    "facts": _facts,
    "readings": _readings,
    "correction": _correction,
    "tightening": _tightening,
    "verdict": _verdict,
    "sign-off": _sign_off,
}
BESIDES: dict[str, Callable[[Seen, Procedure, str], tuple[str, str]]] = {
    "open": _opened,
    "pause": _why,
    "abandon": _why,
    "take-over": _taken_over,
    "correct": _corrected,
    "again": _again,
    MAKING_SURE: _look,
    MAKING_SAFE: _made_safe,
}
