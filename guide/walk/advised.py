"""What the one advisor is told of a walk, and what it answers: the next screw, move and turn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from guide.measure.advice import advise, correct
from guide.measure.angles import across, of_screw
from guide.measure.numerals import parse_number
from guide.measure.sense import learn
from guide.measure.truing import moves
from guide.measure.truing.asked import Asked, Move, Read, Stop, Why
from guide.measure.truing.contradicting import (
    CONTRADICTS,
    STANDS,
    contradicted,
    far_off,
    said_of,
)
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import WasMoved, WasRead, WasTorqued
from guide.measure.truing.hearing import told
from guide.measure.truing.plan import announced
from guide.measure.truing.story import Story
from guide.plain import N_, BadInput
from guide.walk.answers import length
from guide.walk.beside_within import beside_within, without_far
from guide.walk.error_limit import error_limit
from guide.walk.figures import readings_of, screws_of, unit_of
from guide.walk.state import State, Taken

STATION = Decimal(1)
"""The one station of a walk; how far it is from the chuck face is a fact of the setup."""
NO_AIM = 2
"""Divisions that stand for a tolerance nobody gave: moves are advised, nothing is announced."""
NO_DIAL = {"in": "0.001", "thou": "1", "tenth": "10", "mm": "0.01", "um": "10"}
"""The division reckoned with where the dial's is not known: a coarse one."""


def chuck_facts(state: State) -> Facts:
    """What the advisor is told of chuck, dial and aim."""
    unit = unit_of(state)
    graduation = length(state.facts.get("graduation"), unit) or Decimal(NO_DIAL[unit])
    tolerance = length(state.facts.get("tolerance"), unit) or NO_AIM * graduation
    return Facts(
        unit=unit,
        tolerance=tolerance,
        graduation=graduation,
        screws=screws_of(state),
        clearance=length(state.facts.get("clearance"), unit),
        sense=_sense(state),
        stations=(STATION,),
        rule=state.facts.get("rule", "guarded"),
        play=_nose_play(state),
        error_limit=length(error_limit(state), unit),
    )


def knows_aim(state: State) -> bool:
    """Whether tolerance and graduation are both known, without which nothing can be proved."""
    unit = unit_of(state)
    return all(length(state.facts.get(each), unit) for each in ("tolerance", "graduation"))


def asked(state: State) -> Asked:
    """What the advisor would do next; of a turn judged within it never says anything else."""
    found = advise(chuck_facts(state), state.heard)
    fresh = bool(state.heard) and isinstance(state.heard[-1], WasRead) and not state.moved
    if state.verdict == "within" and fresh:
        return beside_within(found, story_of(state))
    return found


def story_of(state: State) -> Story:
    """Everything the advisor heard, folded."""
    return told(chuck_facts(state), state.heard)


def turned_round(state: State) -> Why | None:
    """That a move since the latest turn turned the sense round, and what else may have done it."""
    of_note = (each for each in reversed(state.heard) if not isinstance(each, WasTorqued))
    for each in of_note:
        if isinstance(each, WasMoved):
            return moves.turned(story_of(state))
        if len(each.angles) > 1:
            return None
    return None


def said_before(state: State) -> Why | None:
    """What has to be said before the first reading: a tolerance that this dial cannot prove."""
    return announced(story_of(state)) if knows_aim(state) else None


def planned(state: State) -> Read | None:
    """The turn that the advisor would read now, or None where it would not read one."""
    found = asked(state)
    if not isinstance(found, Read) or len(found.angles) <= 2:
        return None
    return replace(found, why=without_far(found.why)) if state.verdict == "within" else found


def decision(state: State) -> tuple[str, Why]:
    """The decision that the advisor would take at a verdict on the bar, and why."""
    found = asked(state)
    if isinstance(found, Stop):
        return ("accept" if found.verdict == "within" else "stop"), found.why
    return ("another-turn" if isinstance(found, Read) else "another-round"), found.why


def next_screw(state: State) -> int:
    """The screw to bring under the plunger: the larger direction, then the one not yet moved."""
    story = story_of(state)
    if story.belief is None:
        return 1
    if not story.moving:
        found = correct(story)
        return found.screw if isinstance(found, Move) else 1
    step = moves.onward(story)
    if isinstance(step, Move):
        return step.screw
    if isinstance(step, Read):
        return _at(step.angles[0], state)
    return _other_line(state)


def next_move(state: State) -> Move | None:
    """The move to make at the screw just read; None where nothing is left that can be set.

    A direction that was moved since the last whole turn is left alone: the next one is.
    """
    if not state.pair:
        return None
    move = _move_here(state)
    return None if move is None or chuck_facts(state).beyond(float(move.by)) else move


def no_move(state: State) -> str:
    """Why no screw is to be turned here, where that is not for want of anything to set; or blank.

    A move that the body cannot make is never advised, whatever was read.
    """
    move = _move_here(state)
    return moves.BEYOND if move and chuck_facts(state).beyond(float(move.by)) else ""


def _move_here(state: State) -> Move | None:
    """What would bring the centre in line here, by what was read."""
    screw = int(state.pair["screw"])
    return None if _moved(screw, state) else moves.at_screw(story_of(state), screw)


def ends_far_off(came: Decimal, state: State) -> Why | None:
    """What is said before the end of the move here is taken that it hardly has; else None."""
    move = next_move(state)
    return far_off(story_of(state), move, came) if move else None


def was_read(turn: Taken, state: State) -> WasRead:
    """A turn as the advisor hears it: every position, and the first one again."""
    readings = readings_of(turn, state)
    angles = tuple(reading.angle_deg for reading in readings)
    values = tuple(reading.value for reading in readings)
    closing = turn.data.get("closing")
    if closing and turn.data.get("rolled_over") != "yes":
        angles, values = (*angles, angles[0] + 360), (*values, parse_number(str(closing)))
    return WasRead(angles, values, STATION)


def contradicts(screw: int, value: Decimal, state: State) -> Why | None:
    """What is said before a value at one screw is taken that contradicts the turn; else None."""
    return _contradicts(CONTRADICTS, screw, value, story_of(state))


def stands_against_the_turn(state: State) -> Why | None:
    """What is said beside a move at a screw whose value was let stand against the turn."""
    if not state.pair or not state.heard:
        return None
    before = told(chuck_facts(state), state.heard[:-1])
    value = parse_number(str(state.pair["value"]))
    return _contradicts(STANDS, int(state.pair["screw"]), value, before)


def _contradicts(sentence: str, screw: int, value: Decimal, story: Story) -> Why | None:
    """One of the sentences about it, where there is something to say."""
    about = contradicted(story, screw, value)
    return None if about is None else said_of(sentence, story, screw, value, about)


def pair_was_read(data: Mapping[str, Any], state: State) -> WasRead:
    """One screw as the advisor hears it."""
    place = of_screw(int(data["screw"]), screws_of(state))
    return WasRead((place,), (parse_number(str(data["value"])),), STATION, stands=True)


def was_moved(data: Mapping[str, Any]) -> WasMoved | None:
    """A recorded move as the advisor hears it; None where nothing was advised or moved."""
    advised = data.get("advised")
    if data.get("left") or not isinstance(advised, Mapping):
        return None
    got, tightened = data.get("got"), data.get("tightened")
    return WasMoved(
        int(advised["screw"]),
        Decimal(str(advised["by"])),
        reads=parse_number(str(got)) if got is not None and str(got).strip() else None,
        bring_to=Decimal(str(advised["bring_to"])),
        named=advised.get("tighten") is not None,
        tightened=None if tightened is None else int(tightened),
    )


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
        kept |= {"got": str(got), "moved": str(after - before)}
        kept |= _tightened(data, before, after, state)
        if "tightened" not in kept and move and move.tighten:
            kept["presumed"] = move.tighten[0]
    return kept


def _tightened(
    data: Mapping[str, Any], before: Decimal, after: Decimal, state: State
) -> dict[str, Any]:
    """The screw that somebody said was tightened, and what that teaches; nothing where nobody did.

    The screw that was advised is presumed to have been it, no more: a hand may have been at the one
    across, and a record states nothing that nobody said.
    """
    if not data.get("tightened"):
        return {}
    turned = _screw(data["tightened"], state)
    noise = chuck_facts(state).graduation / 2
    other = turned != int(state.pair.get("screw", 0))
    return {"tightened": turned, "learned": learn(before, after, noise, tightened_across=other)}


def _sense(state: State) -> Any:
    """The sense as told, or as learned from the first move that taught something."""
    known = state.facts.get("sense", "unknown")
    if known != "unknown":
        return known
    for entry in state.entries:
        if entry.data.get("learned") in ("toward", "away"):
            return entry.data["learned"]
    return "unknown"


def _nose_play(state: State) -> Decimal | None:
    """The play at the bare nose, or None where it was not read."""
    taken = state.taken.get("nose-play")
    return parse_number(str(taken.figures["play"])) if taken else None


def _moved(screw: int, state: State) -> bool:
    """Whether a screw's own direction was moved since the turn that advice is taken from."""
    return screw in state.moved or across(screw, screws_of(state)) in state.moved


def _at(angle: float, state: State) -> int:
    """The screw at an angle."""
    step = 360 / screws_of(state)
    return round(angle % 360 / step) % screws_of(state) + 1


def _other_line(state: State) -> int:
    """A screw whose direction was not moved in this round; the first where all were."""
    count = screws_of(state)
    return next((k for k in range(1, count + 1) if not _moved(k, state)), 1)


def _screw(typed: object, state: State) -> int:
    """The number of a screw that this chuck has."""
    text = str(typed)
    if not text.isdecimal() or not 1 <= int(text) <= screws_of(state):
        raise BadInput(N_("There is no screw {screw} on this chuck."), N_("Name one."), screw=typed)
    return int(text)


def _advised(move: Move | None) -> dict[str, Any] | None:
    """A move as text."""
    if move is None:
        return None
    return {
        "screw": move.screw,
        "reads": f"{move.reads:f}",
        "by": f"{move.by:f}",
        "bring_to": f"{move.bring_to:f}",
        "tighten": list(move.tighten) if move.tighten else None,
        "ease": list(move.ease) if move.ease else None,
    }
