"""What is worked out from readings, as text for the journal (never binary floats)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from math import hypot, sqrt
from typing import Any

from guide.measure.along import out_of_line
from guide.measure.angles import even, of_screw
from guide.measure.indicator import may_roll_over, unwrap
from guide.measure.numerals import parse_number
from guide.measure.play import play
from guide.measure.reading import Reading, Sweep
from guide.measure.rounding import tidy
from guide.measure.runout import Runout, runout
from guide.measure.uncertainty import Part, parts
from guide.measure.verdict import decide
from guide.plain import N_, BadInput
from guide.procedure.model import Step
from guide.walk.answers import length
from guide.walk.error_limit import error_limit
from guide.walk.grips import is_grip, repeated
from guide.walk.limit import limit_name, limit_of
from guide.walk.state import State, Taken

ANGLE_BY_EYE = 5.0
"""Degrees within which a position is set by eye (common practice, no source)."""
TURNS_ON_THE_BAR = (
    "as-found", "as-mounted", "round", "after-torque", "finer", "reversed", "gripped-again",
    "as-left",
)  # fmt: skip
"""Sets of readings that say how the chuck runs; the latest one is judged and advised on."""
SCREWS_SHIFT = (*TURNS_ON_THE_BAR, "register-runout")
"""Turns on what the screws shift, and on the register against which they shift it: only there does
the clearance say how far off is too far. A bare nose or a face has nothing to be shifted."""
CLEARANCE_EVERYWHERE = ("1", "2")
"""Reckonings that held every turn against the clearance; records of theirs are worked out so."""


def unit_of(state: State) -> str:
    """The unit that the dial is read in."""
    return state.facts.get("unit", "in")


def screws_of(state: State) -> int:
    """How many adjusting screws the chuck has."""
    return int(state.facts.get("screw-count", "4"))


def of_readings(step: Step, data: Mapping[str, Any], state: State) -> dict[str, Any]:
    """The figures of one set of readings; raises `BadInput` for readings that cannot be used."""
    if step.take == "play":
        pushed, pulled = (_value(data, name, state) for name in ("pushed", "pulled"))
        found = play(pushed, pulled)
        judged = _judged_by_its_own(float(found), step, data, state)
        return {"play": str(found), "unit": unit_of(state), **judged}
    if step.take == "along":
        return _along(step, data, state)
    if step.take == "pair":
        screw = data.get("screw")
        if type(screw) is not int or not 1 <= screw <= screws_of(state):
            raise BadInput(
                N_("There is no screw {screw} on this chuck."), N_("Name one."), screw=screw
            )
        _value(data, "value", state)
        return {}
    if is_grip(step.serves_as):
        return repeated(step.serves_as, of_bar(data, state), state)
    return of_bar(data, state, step.serves_as)


def _along(step: Step, data: Mapping[str, Any], state: State) -> dict[str, Any]:
    """How far out of line a bar between centres lies, and what that is at the tailstock."""
    unit, facts = unit_of(state), state.facts
    near, far = (_value(data, name, state) for name in ("near", "far"))
    sizes = [length(facts.get(name), unit) for name in ("near-diameter", "far-diameter")]
    found = out_of_line(
        near,
        far,
        larger=Decimal(0) if None in sizes else (sizes[1] or 0) - (sizes[0] or Decimal(0)),
        apart=length(facts.get("stations-apart"), unit),
        between=length(facts.get("between-centres"), unit),
    )
    figures = {"along": f"{found.along:f}", "judged": f"{abs(found.along):f}", "unit": unit}
    if found.set_over is not None:
        figures["set_over"] = str(_text(tidy(found.set_over)))
    return figures | _judged_by_its_own(float(abs(found.along)), step, data, state)


def _judged_by_its_own(
    size: float, step: Step, data: Mapping[str, Any], state: State
) -> dict[str, Any]:
    """The verdict on the difference of two readings, where it has a limit of its own.

    Both are uncertain by the dial alone; u(difference) = √2·u(reading), the indicator's error twice
    over, as it may lie against itself (GUM 5.1.2).
    """
    unit, own = unit_of(state), state.facts.get(limit_name(step.serves_as))
    parts_of = [each for each in uncertain_parts(0.0, data, state) if each.name != "play"]
    u = hypot(*((sqrt(2) if each.averaged else 2) * each.u for each in parts_of))
    told = {"expanded_uncertainty": str(_text(tidy(2 * u)))} if u else {}
    limit = length(own, unit)
    if own is None or limit is None or not u:
        return told if own is not None else {}
    found = decide(size, u, float(limit), state.facts.get("rule", "guarded"))
    return {**told, "verdict": found.verdict, "rule": found.rule, "factor": _text(found.factor)}


def of_turn(data: Mapping[str, Any], state: State, serves_as: str = "") -> Runout:
    """The runout of one turn's readings under the facts of the setup."""
    unit = unit_of(state)
    values = turn_values(data, state)
    angles = data.get("angles")
    places = _angles(angles) if angles else even(len(values))
    closing = data.get("closing")
    known = uncertain_parts(runout(values, unit, places).eccentricity or 0.0, data, state)
    return runout(
        values,
        unit,
        places,
        tolerance=length(limit_of(serves_as, state.facts), unit),
        graduation=graduation_of(data, state),
        parts=known,
        screws=screws_of(state),
        rule=state.facts.get("rule", "guarded"),
        clearance=_clearance(serves_as, state),
        play=_play("nose-play", state),
        closure=parse_number(str(closing)) if closing else None,
        watched=_watched(data.get("watched")),
    )


def _clearance(serves_as: str, state: State) -> Decimal | None:
    """The clearance within which screws shift what is read; None where they shift nothing."""
    everywhere = state.opening.get("reckoning") in CLEARANCE_EVERYWHERE
    if serves_as not in SCREWS_SHIFT and not everywhere:
        return None
    return length(state.facts.get("clearance"), unit_of(state))


def _angles(typed: object) -> tuple[float, ...]:
    """Angles as typed, in degrees."""
    if not isinstance(typed, (list, tuple)):
        raise BadInput(N_("The angles are not a list."), N_("Give one angle for each reading."))
    return tuple(float(parse_number(str(each))) for each in typed)


def turn_values(data: Mapping[str, Any], state: State) -> tuple[Decimal, ...]:
    """The values of a turn; whole turns of the pointer are taken out only where a person said so.

    Raises `BadInput` while a dial that may have passed its zero was not asked about.
    """
    values = _values(data.get("values", ()))
    if not rolls_over(values, state):
        return values
    if data.get("rolled_over") not in ("yes", "no"):
        raise BadInput(
            N_("The pointer may have passed its zero: a step is over half a turn of the dial."),
            N_("Say whether it did, or read the turn again."),
        )
    per_turn = length(state.facts.get("range-per-turn"), unit_of(state))
    if data["rolled_over"] == "no" or per_turn is None:
        return values
    return unwrap(values, per_turn)


def rolls_over(values: Sequence[Decimal], state: State) -> bool:
    """Whether these values can be those of a dial that passed its zero, by its numbering."""
    per_turn = length(state.facts.get("range-per-turn"), unit_of(state))
    continuous = state.facts.get("numbering", "balanced") != "balanced"
    return continuous and per_turn is not None and may_roll_over(values, per_turn)


def uncertain_parts(eccentricity: float, data: Mapping[str, Any], state: State) -> tuple[Part, ...]:
    """What one reading is uncertain by: the dial's division, play at the bar, angles set by eye.

    Where the indicator's error limit is known, its error too: anywhere within ± that, all equally
    likely, so limit/√3 (GUM 4.3.7).
    """
    graduation = graduation_of(data, state)
    if graduation is None:
        return ()
    return parts(
        graduation=float(graduation),
        permissible_error=float(length(error_limit(state), unit_of(state)) or 0),
        play=float(_play("bar-play", state) or 0),
        eccentricity=eccentricity,
        angle_deg=ANGLE_BY_EYE,
    )


def graduation_of(data: Mapping[str, Any], state: State) -> Decimal | None:
    """One division of the dial in the setup's unit, or None where it is not known."""
    typed = data.get("graduation") or state.facts.get("graduation")
    graduation = length(str(typed) if typed else None, unit_of(state))
    if graduation is not None and graduation <= 0:
        raise BadInput(
            N_("No dial has a division of {graduation}."),
            N_("Write what one division is worth, such as 0.0001 in."),
            graduation=typed,
        )
    return graduation


def _play(serves_as: str, state: State) -> Decimal | None:
    """The play read there, or None where it was not read."""
    taken = state.taken.get(serves_as)
    return parse_number(str(taken.figures["play"])) if taken else None


def of_bar(data: Mapping[str, Any], state: State, serves_as: str = "") -> dict[str, Any]:
    """The figures of one turn, with the parts of its uncertainty and what was never read."""
    found = of_turn(data, state, serves_as)
    figures = as_text(found)
    if found.verdict == "within" and "cannot-prove" in (found.flags or ()):
        figures["verdict"] = "undecided"
    known = uncertain_parts(found.eccentricity or 0.0, data, state)
    figures["uncertainty_parts"] = {part.name: _text(tidy(part.u)) for part in known}
    if known and (limit := error_limit(state)):
        figures["error_limit"] = limit
    if state.facts.get("plate") == "assembled" and not state.plate_was_read:
        figures["plate_not_read"] = True
        figures["flags"] = list(dict.fromkeys((*figures["flags"], "cannot-prove")))
    return figures


def as_text(found: Runout) -> dict[str, Any]:
    """The figures that the record keeps."""
    kept = (
        "unit", "mean", "eccentricity", "high_at_deg", "fitted_tir", "observed_tir", "form",
        "judged", "expanded_uncertainty", "verdict", "at_most",
    )  # fmt: skip
    figures: dict[str, Any] = {name: _text(getattr(found, name)) for name in kept}
    figures["flags"] = list(found.flags or ())
    figures["positions"] = found.positions
    if found.decision:
        figures["rule"] = found.decision.rule
        figures["factor"] = _text(found.decision.factor)
    return {name: each for name, each in figures.items() if each is not None}


def _text(value: object) -> str | None:
    """A figure as plain text: no exponent, no binary noise."""
    if value is None or isinstance(value, str):
        return value
    return f"{Decimal(repr(value)):f}" if isinstance(value, float) else str(value)


def _value(data: Mapping[str, Any], name: str, state: State) -> Decimal:
    """One reading under a name."""
    if not str(data.get(name, "")).strip():
        raise BadInput(
            N_("The reading “{name}” is missing."), N_("Read the dial and type it."), name=name
        )
    return parse_number(str(data[name]))


def _values(typed: object) -> tuple[Decimal, ...]:
    """Readings as typed."""
    if not isinstance(typed, (list, tuple)) or not typed:
        raise BadInput(N_("There are no readings yet."), N_("Read the dial and type them."))
    return tuple(parse_number(str(each)) for each in typed)


def _watched(typed: object) -> Sweep | None:
    """Lowest and highest of a watched turn."""
    if not isinstance(typed, (list, tuple)) or not typed:
        return None
    if len(typed) != 2 or not all(str(each).strip() for each in typed):
        raise BadInput(
            N_("A watched sweep is two values, the lowest and the highest."),
            N_("Give both, or neither."),
        )
    return Sweep(*(parse_number(str(each)) for each in typed))


def readings_of(turn: Taken, state: State) -> tuple[Reading, ...]:
    """The readings of a turn, with the screw under the plunger where there was one."""
    values = turn_values(turn.data, state)
    angles = turn.data.get("angles") or even(len(values))
    screws = {of_screw(k, screws_of(state)) % 360: k for k in range(1, screws_of(state) + 1)}
    return tuple(
        Reading(float(angle), value, screws.get(float(angle) % 360))
        for angle, value in zip(angles, values, strict=True)
    )
