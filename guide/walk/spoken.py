"""A step whose words ask for a move that its actions do not make."""

from __future__ import annotations

import re
from collections.abc import Iterator

from guide.plain import N_
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Problem, problem
from guide.walk.flow import doings

MOVES = {
    r"(?:loosen|slacken|ease)\b": {
        "bolts ease", "bolts slacken", "take bolts out", "unlock", "screws turn", "release bar",
        "jaws shift",
    },
    r"tighten\b": {
        "bolts snug", "bolts tighten", "lock", "screws touch", "screws turn", "screws nip",
        "grip bar", "close jaws", "jaws tighten",
    },
    r"(?:restore (?:the )?power|switch (?:the )?power on)\b": {"restore power"},
    r"lift (?:the|it)\b": {"take up plate", "take up body", "take up chuck"},
    r"(?:fit|put in) the (?:chuck )?key\b": {"fit chuck-key", "fit screw-key"},
}  # fmt: skip
"""Words that open a sentence or stand as an order, and the actions that may be meant."""


def unspoken(procedure: Procedure) -> Iterator[Problem]:
    """Tasks that say loosen, tighten, key, power or lift, and do nothing of the kind."""
    for step in procedure.steps:
        if step.kind == "task":
            yield from _of(step)


def _of(step: Step) -> Iterator[Problem]:
    """The moves a step's title and brief order, and its actions do not make."""
    done = {doing.action for doing in doings(step)}
    for words, actions in MOVES.items():
        ordered = re.search(rf"(?:^|[.;:,] |\bthen |\band ){words}", _orders(step))
        if ordered and not done & actions:
            yield problem(
                step.place,
                N_("its words say “{said}” and none of its actions does that ({actions})"),
                step.name,
                said=ordered[0].strip(" .;:,"),
                actions=", ".join(sorted(actions)),
            )


def _orders(step: Step) -> str:
    """What is read as an order: the title and the brief words, each from its start."""
    return f"{step.title}. {step.brief}".lower()
