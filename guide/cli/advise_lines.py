"""The lines of `spindleside advise`: JSON into what was heard, what is asked into JSON."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from decimal import Decimal
from math import isfinite
from typing import Any, NoReturn

from guide.measure.rounding import tidy
from guide.measure.truing.asked import Asked, Move, Read, Stop, Torque
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.plain import N_, BadInput

LARGEST = Decimal(10) ** 6
"""No dial, screw or station has a larger figure, in any unit."""
SMALLEST = Decimal(10) ** -9
"""Nor a smaller one that is not nothing."""
NEEDED = ("unit", "tolerance", "graduation")


def facts_from(line: str) -> Facts:
    """The facts of the first line; BadInput names what is missing or cannot be."""
    told = _object(line).get("facts")
    if not isinstance(told, Mapping):
        _refuse(N_("The first line gives the facts."), N_('Write {{"facts": {{"unit": …}}}}.'))
    for name in NEEDED:
        if told.get(name) is None:
            _refuse(N_("The fact {name} is missing."), N_("Give it in the first line."), name=name)
    for name in told:
        if name not in READERS:
            _refuse(N_("There is no fact {name}."), N_("These are known: {known}."),
                    name=name, known=", ".join(READERS))  # fmt: skip
    made: dict[str, Any] = {
        name: read(told[name], name) for name, read in READERS.items() if told.get(name) is not None
    }
    return Facts(**made)


def heard_from(line: str, asked: Asked, screws: int) -> Heard:
    """The answer to a question about so many screws; BadInput where it does not answer it."""
    told = _object(line)
    if isinstance(asked, Read):
        return _was_read(told, asked)
    if isinstance(asked, Move):
        return _was_moved(told, asked, screws)
    if _done(told) is False:
        _refuse(N_("The bolts are not at their torque."), N_("Answer when they are."))
    return WasTorqued()


def to_json(asked: Asked) -> dict[str, Any]:
    """A question, or the stop, as the contract names it."""
    if isinstance(asked, Read):
        return {
            "do": "read",
            "angles": [_plain(angle) for angle in asked.angles],
            "station": float(asked.station),
            "why": str(asked.why),
        }
    if isinstance(asked, Move):
        return {
            "do": "move",
            "screw": asked.screw,
            "reads": float(asked.reads),
            "by": float(asked.by),
            "bring_to": float(asked.bring_to),
            "tighten": None if asked.tighten is None else list(asked.tighten),
            "ease": None if asked.ease is None else list(asked.ease),
            "why": str(asked.why),
        }
    if isinstance(asked, Torque):
        return {"do": "torque", "why": str(asked.why)}
    return _stop(asked)


def _stop(asked: Stop) -> dict[str, Any]:
    """The last line."""
    return {
        "do": "stop",
        "verdict": asked.verdict,
        "judged": tidy(asked.judged),
        "expanded_uncertainty": tidy(asked.expanded_uncertainty),
        "decision": {"rule": asked.decision.rule, "factor": asked.decision.factor},
        "flags": list(asked.flags),
        "why": str(asked.why),
    }


def _was_read(told: Mapping[str, Any], asked: Read) -> WasRead:
    """Readings for every angle asked, in order."""
    values = _numbers(told.get("readings"), "readings")
    if len(values) != len(asked.angles):
        _refuse(
            N_("{asked} readings were asked for and {given} were given."),
            N_("Give one for each angle, in order."),
            asked=len(asked.angles),
            given=len(values),
        )
    rezeroed = told.get("rezeroed") or False
    if not isinstance(rezeroed, bool):
        _refuse(N_("`rezeroed` is true or false."), N_("Leave it out where the zero was kept."))
    return WasRead(asked.angles, tuple(values), asked.station, rezeroed)


def _was_moved(told: Mapping[str, Any], asked: Move, screws: int) -> WasMoved:
    """How a move ended."""
    done, why, reads = _done(told), told.get("why", ""), told.get("reads")
    if not done and why not in ("bottomed", "stuck"):
        _refuse(N_("A move that was not done needs its reason."), N_("Say bottomed or stuck."))
    tightened = told.get("tightened")
    return WasMoved(
        asked.screw,
        asked.by,
        reads=None if reads is None else _number(reads, "reads"),
        done=done,
        why="" if done else str(why),
        bring_to=asked.bring_to,
        named=asked.tighten is not None,
        tightened=None if tightened is None else _screw(tightened, screws),
    )


def _done(told: Mapping[str, Any]) -> bool:
    """Whether it was done."""
    done = told.get("done")
    if not isinstance(done, bool):
        _refuse(N_("The answer says whether it was done."), N_('Write {{"done": true}}.'))
    return done


def _object(line: str) -> Mapping[str, Any]:
    """A line as a JSON object, numbers as the decimals that were written."""
    try:
        found = json.loads(
            line.removeprefix("\ufeff"),
            parse_float=Decimal,
            parse_int=Decimal,
            parse_constant=_no_number,
            object_pairs_hook=_once_each,
        )
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        _refuse(N_("That line is not a JSON object."), N_("Write one object on one line."))
    return found


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object in which no key stands twice."""
    if len(dict(pairs)) != len(pairs):
        _refuse(N_("A key stands twice in that line."), N_("Write each once."))
    return dict(pairs)


def _no_number(name: str) -> NoReturn:
    """NaN and Infinity are not JSON."""
    raise ValueError(name)


def _numbers(told: object, name: str) -> list[Decimal]:
    """A list of numbers."""
    if not isinstance(told, list) or not told:
        _refuse(N_("“{name}” is a list of numbers."), N_("Write them between brackets."), name=name)
    return [_number(each, name) for each in told]


def _number(told: object, name: str) -> Decimal:
    """A number of a size that can be."""
    number = told if isinstance(told, Decimal) and isfinite(float(told)) else Decimal("Infinity")
    if number != 0 and not SMALLEST <= abs(number) <= LARGEST:
        _refuse(N_("“{name}” needs a number."), N_("Write it as the dial shows it."), name=name)
    return number


def _count(told: object, name: str) -> int:
    """A whole number."""
    number = _number(told, name)
    if number != number.to_integral_value():
        _refuse(N_("“{name}” needs a whole number."), N_("Count them."), name=name)
    return int(number)


def _screw(told: object, screws: int) -> int:
    """The number of a screw that is there."""
    number = _count(told, "tightened")
    if not 1 <= number <= screws:
        _refuse(N_("There is no screw {number}."), N_("They are 1 to {screws}."), number=number,
                screws=screws)  # fmt: skip
    return number


def _word(told: object, name: str) -> str:
    """A word."""
    if not isinstance(told, str):
        _refuse(N_("“{name}” needs a word."), N_("Write it between quotes."), name=name)
    return told


def _plain(angle: float) -> float | int:
    """An angle without an idle point."""
    return int(angle) if angle == int(angle) else round(angle, 6)


def _refuse(sentence: str, remedy: str = "", **values: object) -> NoReturn:
    """One sentence, and what to do."""
    raise BadInput(sentence, remedy, **values)


READERS: Mapping[str, Callable[[object, str], Any]] = {
    "unit": _word,
    "tolerance": _number,
    "graduation": _number,
    "screws": _count,
    "clearance": _number,
    "sense": _word,
    "stations": lambda told, name: tuple(_numbers(told, name)),
    "rule": _word,
    "play": _number,
    "surface": _word,
}
"""The facts that may be told, and how each is read."""
