"""Walks any procedure with invented answers, one plausible act at a time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from copy import copy
from itertools import product
from math import cos, radians
from typing import Any, NamedTuple

from guide.procedure.model import Fact, Procedure, Step
from guide.procedure.vocabulary import TRIGGER
from guide.walk.advised import next_move, next_screw
from guide.walk.as_found import expected_at_look
from guide.walk.figures import unit_of
from guide.walk.flow import looks
from guide.walk.looking import ASKED, UNSEEN, answers
from guide.walk.making_safe import wanted_to_safe
from guide.walk.recording import checks_of, offered
from guide.walk.setup import Journal, Setup, open_setup, replayed
from guide.walk.state import MADE_SAFE, MAKING_SAFE, MAKING_SURE, PAUSED, State
from guide.walk.world import as_dict, with_values

PERSON = "A. Sample"
AT = "2030-01-31T08:00:00.000Z"
LATHE = "Lathe 9 (invented)"
NOSES = ("long", "camlock", "bolted", "threaded")
ARRANGEMENTS = {
    "plate loose": {"on-nose": "nothing", "plate": "loose"},
    "plate bolted": {"on-nose": "nothing", "plate": "bolted"},
    "assembled": {"on-nose": "nothing", "plate": "assembled"},
    "plate on the nose": {"on-nose": "this-plate"},
    "chuck on the nose": {"on-nose": "this-chuck", "take-off": "whole"},
    "body off the nose": {"on-nose": "this-chuck", "take-off": "body", "guard-fitted": "no"},
    "both off the nose": {"on-nose": "this-chuck", "take-off": "plate", "support-turns": "no"},
    "one piece on the nose": {"on-nose": "one-piece"},
    "chuck on the nose after a crash": {
        "on-nose": "this-chuck",
        "why-now": "crash",
        "competent-look": "nobody",
    },
    "a bare nose after a crash": {"on-nose": "nothing", "jammed": "touching"},
    "jaws to be stripped on the nose": {"on-nose": "this-chuck", "job": "strip-tops"},
    "top jaws to be changed on the nose": {"on-nose": "one-piece", "job": "tops"},
    "a chuck on the nose to be measured alone": {"on-nose": "this-chuck", "job": "measure"},
    "jaws to be stripped on the bench": {"on-nose": "nothing", "job": "strip"},
    "a bare nose to be read": {"on-nose": "nothing", "test-bar": "bar"},
    "a tailstock to be set": {"on-nose": "nothing", "set-over-by": "two-screws"},
    "a raw plate to be fitted": {"on-nose": "nothing", "plate-is": "raw"},
    "a heavy plate that was turned before": {
        "on-nose": "nothing",
        "plate-is": "turned",
        "plate-by": "support",
        "holes": "not-yet",
    },
    "work in independent jaws": {"chuck-kind": "independent"},
    "square work between jaws and centre": {
        "chuck-kind": "independent",
        "shape": "square",
        "packing": "soft",
        "support": "centre",
    },
    "work off its centre": {
        "chuck-kind": "independent",
        "shape": "off-centre",
        "carried-by": "cradle",
    },
    "work by its bore": {"chuck-kind": "independent", "shape": "bored"},
    "work in an adjustable chuck": {"chuck-kind": "adjustable", "guard-fitted": "no"},
}
"""What is on the nose and where the rest lies; a procedure has those whose answers it knows."""
BY_KIND = {
    "yes-no": "yes", "length": "1 in", "mass": "50 lb", "speed": "100 rpm", "number": "4",
    "torque": "33 lbf·ft", "date": "2030-06-30", "text": "invented",
}  # fmt: skip
BY_NAME = {
    "lathe": LATHE, "screw-count": "4", "tolerance": "0.001 in", "graduation": "0.0001 in",
    "clearance": "0.010 in", "marked-speed": "2500 rpm", "unit": "in", "rule": "guarded",
    "range-per-turn": "0.2 in",
}  # fmt: skip
MEASURED_ANEW = ("register-is",)
"""Asked again after every cut: whatever was answered before, it comes right in the end."""
OFF_CENTRE = 0.004
"""Inches of eccentricity in the readings of a chuck that is out."""
NEVER_OUT = -3
"""Where nothing corrects a chuck, it has to read true from the first turn to go the whole way."""

Act = tuple[str, dict[str, Any]]
Seen = Callable[[State], Mapping[str, str]]


class Case(NamedTuple):
    """One lathe to walk on: its closed facts under a name."""

    name: str
    facts: Mapping[str, str]


def cases(procedure: Procedure, noses: tuple[str, ...] = NOSES) -> Iterator[Case]:
    """Each nose with each arrangement that the procedure's facts can tell."""
    for nose, (name, chosen) in product(noses, ARRANGEMENTS.items()):
        facts = {"nose": nose, **chosen}
        asked = {each: procedure.facts.get(each) for each in facts}
        known = {n: facts[n] for n, fact in asked.items() if fact and facts[n] in fact.closed}
        told = {"on-nose", "chuck-kind"} & known.keys()
        if told and not _left_out(procedure, facts, known):
            yield Case(f"{nose}, {name}", known)


def _left_out(procedure: Procedure, facts: Mapping[str, str], known: Mapping[str, str]) -> bool:
    """Whether a choice that makes the arrangement is not asked by the procedure."""
    if "shape" in facts and "shape" not in known:
        return True
    on_it = {"take-off", "why-now", "job"}
    bare = {"plate", "test-bar", "set-over-by", "jammed", "plate-is", "job"}
    named = on_it if facts.get("on-nose") == "this-chuck" else bare
    return any(n in facts and n not in known and facts[n] != "whole" for n in named)


def opened(
    journal: Journal, procedure: Procedure, *, setup: str = "walk", mode: str = "practice"
) -> Setup:
    """A new setup of the invented person on the invented lathe."""
    return open_setup(journal, procedure, setup=setup, person=PERSON, at=AT, lathe=LATHE, mode=mode)


def forked(walk: Setup) -> Setup:
    """The same setup, to be gone on with by itself."""
    other = copy(walk)
    other.journal = walk.journal.copy()  # type: ignore[attr-defined]
    return other


def do(walk: Setup, act: Act, person: str = "") -> State:
    """Do an act as the person who is at the lathe, or as another."""
    return walk.act(act[0], act[1], person=person or walk.state.person, at=AT)


def go_on(walk: Setup, chosen: Mapping[str, str], out: int = 0, most: int = 600) -> Iterator[Setup]:
    """The setup before each plausible act up to its end; the first `out` turns read off centre."""
    for _ in range(most):
        if walk.state.ended:
            return
        yield walk
        do(walk, usual(walk, chosen, out))
    raise AssertionError(("the walk does not end", walk.state.place))


def walked(walk: Setup, chosen: Mapping[str, str], out: int = 0) -> Setup:
    """The setup walked to its end."""
    for _ in go_on(walk, chosen, out):
        pass
    return walk


def stands_at(walk: Setup, place: str, chosen: Mapping[str, str], out: int = 0) -> bool:
    """Whether a walk comes to a place; it is left standing there."""
    return any(each.state.place == place for each in go_on(walk, chosen, out))


def usual(walk: Setup, chosen: Mapping[str, str], out: int = 0) -> Act:
    """The plausible act at the place where a walk stands."""
    state, step = walk.state, walk.step
    if step is None:
        return beside(state)
    if looks(step):
        expected = asked(expected_at_look(state.world, state.facts))
        return TRIGGER[step.kind], {"seen": answerable(state, expected)}
    return TRIGGER[step.kind], entered(walk, step, chosen, out)


def beside(state: State) -> Act:
    """The plausible act at a place that is no step."""
    if state.place == MAKING_SURE:
        return "record", {"seen": as_recorded(state)}
    if state.place == MAKING_SAFE:
        wanted = wanted_to_safe(state.world, state.facts)
        return wanted.trigger, {"action": wanted.action, "checks": numbers(len(wanted.checks))}
    assert state.place in (PAUSED, MADE_SAFE), state.place
    return "resume", {}


def asked(world: tuple[str, ...]) -> dict[str, str]:
    """What of a world is asked by looking."""
    return {name: each for name, each in as_dict(world).items() if name in ASKED}


def as_recorded(state: State, **other: str) -> dict[str, str]:
    """Everything found as it was left, by one who wears what they came in, with people about.

    Where a wrench may not go the weaker value is answered, and what nobody had looked at is as
    expected. `other` is what is found changed.
    """
    expected = asked(expected_at_look(state.world, state.facts))
    found = {n: e if e != "unknown" else expected[n] for n, e in asked(state.world).items()}
    found |= {"dressed": "other", "bystanders": "near"}
    found |= {name.replace("_", "-"): each for name, each in other.items()}
    return answerable(state, found)


def answerable(state: State, found: Mapping[str, str]) -> dict[str, str]:
    """What is found, each in a way in which it may be answered here."""
    powered = with_values(state.world, {"power": found["power"]})
    may_be = {name: answers(name, powered, state.facts) for name in ASKED}
    weak = dict(UNSEEN.values())
    closest = {n: (each, weak.get(each, each), may_be[n][0]) for n, each in found.items()}
    return {n: next(each for each in some if each in may_be[n]) for n, some in closest.items()}


def numbers(count: int) -> list[str]:
    """The numbers of a gate's checks."""
    return [str(number) for number in range(1, count + 1)]


def entered(walk: Setup, step: Step, chosen: Mapping[str, str], out: int) -> dict[str, Any]:
    """What a person enters at a step."""
    state = walk.state
    if step.kind == "gate":
        return {"checks": numbers(len(checks_of(step, state))), "seconds": "60"}
    if step.kind == "facts":
        return {"facts": {n: told(walk.procedure.facts[n], chosen) for n in step.ask}}
    if step.kind == "readings":
        corrects = any(each.kind == "correction" for each in walk.procedure.steps)
        return read(state, step, out if corrects else NEVER_OUT)
    if step.kind == "correction":
        move = next_move(state)
        return {"left": "yes"} if move is None else {"got": str(move.bring_to), "tightened": 1}
    if step.kind == "tightening":
        figure = {"torque": "33 ft-lb", "source": "invented", "wrench": "yes", "check_pass": "yes"}
        return figure if step.tighten in ("torque", "check") else {}
    if step.kind == "verdict":
        return decided(step, state)
    return {"name": state.person, "meaning": "handed over"} if step.kind == "sign-off" else {}


def told(fact: Fact, chosen: Mapping[str, str]) -> str:
    """An invented answer to a fact; of a closed set the chosen one, else the first."""
    known = {**BY_NAME, **chosen}
    answer = None if fact.name in MEASURED_ANEW else known.get(fact.name)
    if fact.closed:
        return answer if answer in fact.closed else fact.closed[0]
    return answer or ("0.001 in" if fact.name.endswith("-limit") else BY_KIND[fact.kind])


def read(state: State, step: Step, out: int) -> dict[str, Any]:
    """Invented readings: the first turns on the bar off centre, everything else true."""
    per_inch, places = (1.0, 4) if unit_of(state) == "in" else (25.4, 3)
    if step.take == "play":
        return {"pushed": "0.0000", "pulled": f"-{0.0001 * per_inch:.{places}f}"}
    if step.take == "along":
        return {"near": "0.0000", "far": "0.0000"}
    if step.take == "pair":
        return {"screw": next_screw(state), "value": "0.0000"}
    turns = sum("values" in entry.data for entry in state.entries)
    plate = step.serves_as in ("nose-runout", "register-runout", "face-runout")
    size = 0.0 if plate or turns >= out + 3 else OFF_CENTRE * per_inch
    angles = range(0, 360, 45)
    values = [f"{size * cos(radians(angle)) - size:.{places}f}" for angle in angles]
    return {"angles": [str(angle) for angle in angles], "values": values, "closing": "0.0000"}


def decided(step: Step, state: State) -> dict[str, str]:
    """Accept what may be accepted, else another round, else stop with a reason."""
    wanted = ("accept", "another-round", "stop")
    decision = next(each for each in wanted if each in offered(step, state))
    return {"decision": decision, "why": "invented"}


def replays_the_same(walk: Setup) -> bool:
    """Whether the events alone make the state that the walk has."""
    return replayed(walk.journal, walk.state.setup).state == walk.state


def folded(walk: Setup) -> State:
    """The state that the events make, by the walk's own fold, which has read the text already."""
    first, *rest = walk.journal.events(walk.state.setup)
    state = walk.fold.opened(first)
    for event in rest:
        state = walk.fold.after(state, event)
    return state
