"""What `check` finds of one procedure."""

from __future__ import annotations

from dataclasses import dataclass

from guide.front.sound import refuse_unsound
from guide.procedure.model import Procedure
from guide.procedure.problem import Problem, Unusable


@dataclass(frozen=True, slots=True)
class Proven:
    """The result of checking one procedure."""

    name: str
    file: str
    problems: tuple[Problem, ...]
    spots: int = 0
    """Step × machine state × closed facts that were walked."""
    changes: int = 0
    """Changes that making sure might find, tried."""


def opened(name: str) -> tuple[Procedure, str] | Proven:
    """The procedure of that name or file and how its file is named, or why it cannot be read.

    Raises `BadInput` where there is none.
    """
    from guide.procedure.shelf import find

    try:
        return find(name), name if name.endswith((".yaml", ".yml")) else ""
    except Unusable as unusable:
        return Proven(name, name, unusable.problems)


def of(procedure: Procedure, file: str = "") -> Proven:
    """Check a procedure that could be read.

    `file` is how its file is named in findings, where that is not its own name.
    """
    from guide.walk.proof import check

    found = check(procedure)
    return Proven(
        name=procedure.name,
        file=file or procedure.file,
        problems=found.problems,
        spots=found.spots,
        changes=found.changes,
    )


def must_hold(found: Proven) -> None:
    """Refuse a procedure that failed its check."""
    refuse_unsound(found.name, found.problems, found.file)
