"""The closed sets that a procedure file is written in."""

from __future__ import annotations

KINDS = (
    "task",
    "gate",
    "facts",
    "readings",
    "correction",
    "tightening",
    "verdict",
    "sign-off",
)
"""What a step may be."""

FACT_KINDS = ("text", "choice", "yes-no", "length", "mass", "number", "speed", "torque", "date")
"""What a fact may hold."""

TRIGGER = {
    "task": "done",
    "gate": "acknowledge",
    "facts": "record",
    "readings": "record",
    "correction": "record",
    "tightening": "record",
    "verdict": "record",
    "sign-off": "record",
}
"""The trigger that takes the walk on from a step of each kind."""

GATE_OPENS = ("taking-up", "releasing", "power", "running")
"""What a gate may be fresh for."""

GATE_SETS = ("dress for lifting", "dress for turning", "bystanders clear")
"""The only actions a gate's check may stand for."""

TAKES = ("play", "turn", "watched", "pair", "two-stations", "face", "along")
"""What a readings step takes: a push and a pull, one turn, a watched sweep, one value at one
screw, a turn at each of two stations, a turn on a face, or a near and a far value along a bar."""

SERVES_AS = (
    "nose-play",
    "nose-runout",
    "plate-play",
    "register-runout",
    "face-runout",
    "as-found",
    "as-mounted",
    "round",
    "second-screw",
    "after-torque",
    "finer",
    "reversed",
    "gripped-again",
    "bar-play",
    "as-left",
    "nose-face",
    "axial-slip",
    "bore-near",
    "bore-far",
    "radial-play",
    "axial-play",
    "centre-runout",
    "tail-height",
    "tail-side",
    "tail-height-left",
    "tail-side-left",
    "body-play",
    "body-runout",
    "body-face",
    "work-face",
    "work-face-left",
    "bell-near",
    "bell-far",
    "repeats-small-1",
    "repeats-small-2",
    "repeats-small-3",
    "repeats-middle-1",
    "repeats-middle-2",
    "repeats-middle-3",
    "repeats-large-1",
    "repeats-large-2",
    "repeats-large-3",
)
"""What a set of readings is kept as."""

TIGHTENS = ("ease", "snug", "torque", "touch", "nip", "check")
"""What a tightening step does; its actions are built in."""

DECISIONS = ("accept", "another-round", "another-turn", "stop")
"""What a person may answer at a verdict."""

ENDS = ("abandoned",)
"""The ends a branch may name besides a step."""

WITNESSED = ("gate", "verdict", "sign-off")
"""The kinds of step at which a second person may be asked for."""

ACTION = "action"
"""The context in which the catalogue has an action's name."""


def name_of(fact: str) -> str:
    """A fact's name as a line of the record has it; its catalogue context is the name itself."""
    return fact.replace("-", " ")
