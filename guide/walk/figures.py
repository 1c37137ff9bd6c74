"""What is worked out from readings, as text for the journal (never binary floats)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from guide.measure import advice as _advice
from guide.measure.angles import across, even, of_screw
from guide.measure.directions import directions
from guide.measure.indicator import may_roll_over, unwrap
from guide.measure.numerals import parse_number
from guide.measure.play import play
from guide.measure.reading import Reading, Sweep
from guide.measure.rounding import tidy
from guide.measure.runout import Runout, runout
from guide.measure.sense import learn
from guide.measure.uncertainty import Part, of_reading, parts
from guide.plain import N_, BadInput
from guide.procedure.model import Step
from guide.walk.answers import length
from guide.walk.state import State, Taken

ANGLE_BY_EYE = 5.0
"""Degrees within which a position is set by eye (common practice, no source)."""


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
        return {"play": str(play(pushed, pulled)), "unit": unit_of(state)}
    if step.take == "pair":
        screw = data.get("screw")
        if type(screw) is not int or not 1 <= screw <= screws_of(state):
            raise BadInput(
                N_("There is no screw {screw} on this chuck."), N_("Name one."), screw=screw
            )
        _value(data, "value", state)
        return {}
    return of_bar(data, state)


def of_turn(data: Mapping[str, Any], state: State) -> Runout:
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
        tolerance=length(state.facts.get("tolerance"), unit),
        u=of_reading(known) if known else None,
        screws=screws_of(state),
        rule=state.facts.get("rule", "guarded"),
        clearance=length(state.facts.get("clearance"), unit),
        play=_play("nose-play", state),
        closure=parse_number(str(closing)) if closing else None,
        watched=_watched(data.get("watched")),
    )


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
    """What one reading is uncertain by: the dial's division, play at the bar, angles set by eye."""
    typed = data.get("graduation") or state.facts.get("graduation")
    graduation = length(str(typed) if typed else None, unit_of(state))
    if graduation is None:
        return ()
    if graduation <= 0:
        raise BadInput(
            N_("No dial has a division of {graduation}."),
            N_("Write what one division is worth, such as 0.0001 in."),
            graduation=typed,
        )
    return parts(
        graduation=float(graduation),
        play=float(_play("bar-play", state) or 0),
        eccentricity=eccentricity,
        angle_deg=ANGLE_BY_EYE,
    )


def _play(serves_as: str, state: State) -> Decimal | None:
    """The play read there, or None where it was not read."""
    taken = state.taken.get(serves_as)
    return parse_number(str(taken.figures["play"])) if taken else None


def of_bar(data: Mapping[str, Any], state: State) -> dict[str, Any]:
    """The figures of one turn, with the parts of its uncertainty and what was never read."""
    found = of_turn(data, state)
    figures = as_text(found)
    known = uncertain_parts(found.eccentricity or 0.0, data, state)
    figures["uncertainty_parts"] = {part.name: _text(tidy(part.u)) for part in known}
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


def chuck_facts(state: State) -> _advice.Facts:
    """What the advisor is told of the chuck."""
    unit = unit_of(state)
    return _advice.Facts(
        unit=unit,
        screws=screws_of(state),
        sense=_sense(state),
        tolerance=length(state.facts.get("tolerance"), unit),
        clearance=length(state.facts.get("clearance"), unit),
        graduation=length(state.facts.get("graduation"), unit),
    )


def _sense(state: State) -> Any:
    """The sense as known, or as learned from the first move that taught something."""
    told = state.facts.get("sense", "unknown")
    if told != "unknown":
        return told
    for entry in state.entries:
        if entry.data.get("learned") in ("toward", "away"):
            return entry.data["learned"]
    return "unknown"


def next_screw(state: State) -> int:
    """The screw to bring under the plunger: the larger direction, then the one not yet moved."""
    if state.turn is None:
        return 1
    count = screws_of(state)
    wanted = directions(readings_of(state.turn, state), count)
    left = {screw: by for screw, by in wanted.items() if not _moved(screw, state)}
    chosen = max(left or wanted, key=lambda screw: abs((left or wanted)[screw]))
    if not state.moved:
        move = _advice.advise(readings_of(state.turn, state), chuck_facts(state))
        return move.screw if move else chosen
    return chosen


def _moved(screw: int, state: State) -> bool:
    """Whether a screw's own direction was moved since the turn that advice is taken from."""
    return screw in state.moved or across(screw, screws_of(state)) in state.moved


def next_move(state: State) -> _advice.Move | None:
    """The move to make at the screw just read; None where nothing is left that can be set.

    A direction that was moved since the last whole turn is left alone: that turn knows nothing of
    the move, and would ask for it a second time.
    """
    if state.turn is None or not state.pair:
        return None
    screw = int(state.pair["screw"])
    if _moved(screw, state):
        return None
    under = Reading(
        of_screw(screw, screws_of(state)), parse_number(str(state.pair["value"])), screw
    )
    return _advice.advise(readings_of(state.turn, state), chuck_facts(state), under)


def of_move(data: Mapping[str, Any], state: State) -> dict[str, Any]:
    """What was advised and what the needle did, for the record."""
    move = next_move(state)
    if data.get("left"):
        return {"left": True, "advised": _advised(move)}
    got = data.get("got")
    kept: dict[str, Any] = {"screw": int(state.pair.get("screw", 0)), "advised": _advised(move)}
    if got is not None and str(got).strip():
        after = parse_number(str(got))
        before = parse_number(str(state.pair["value"]))
        tightened = data.get("tightened") or (move.tighten[0] if move and move.tighten else None)
        kept |= {"got": str(got), "moved": str(after - before)}
        if tightened is not None:
            noise = (chuck_facts(state).graduation or Decimal(0)) / 2
            turned = _screw(tightened, state)
            other = turned != kept["screw"]
            kept["tightened"] = turned
            kept["learned"] = learn(before, after, noise, tightened_across=other)
    return kept


def _screw(typed: object, state: State) -> int:
    """The number of a screw that this chuck has."""
    text = str(typed)
    if not text.isdecimal() or not 1 <= int(text) <= screws_of(state):
        raise BadInput(N_("There is no screw {screw} on this chuck."), N_("Name one."), screw=typed)
    return int(text)


def _advised(move: _advice.Move | None) -> dict[str, Any] | None:
    """A move as text."""
    if move is None:
        return None
    return {
        "screw": move.screw,
        "reads": _text(move.reads),
        "by": str(move.by),
        "bring_to": _text(move.bring_to),
        "tighten": list(move.tighten) if move.tighten else None,
        "ease": list(move.ease) if move.ease else None,
    }
