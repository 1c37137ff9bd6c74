"""What `check` finds of one procedure: what forbids it, and what it is only warned of."""

from __future__ import annotations

from dataclasses import dataclass

from guide.plain import N_, CheckFailed
from guide.procedure.model import Procedure
from guide.procedure.problem import Problem, Unusable


@dataclass(frozen=True, slots=True)
class Proven:
    """The result of checking one procedure."""

    name: str
    file: str
    problems: tuple[Problem, ...]
    warnings: tuple[Problem, ...]
    spots: int = 0
    """Step × machine state × closed facts that were walked."""
    changes: int = 0
    """Changes that making sure might find, tried."""


def proven(name: str) -> Proven:
    """Check the procedure of that name or file; raises `BadInput` where there is none."""
    from guide.procedure.shelf import find

    try:
        return of(find(name), name if name.endswith((".yaml", ".yml")) else "")
    except Unusable as unusable:
        return Proven(name, name, unusable.problems, ())


def of(procedure: Procedure, file: str = "") -> Proven:
    """Check a procedure that could be read; words that its actions do not bear out only warn.

    `file` is how its file is named in findings, where that is not its own name.
    """
    from guide.walk.proof import check
    from guide.walk.spoken import unspoken

    found, warned = check(procedure), tuple(unspoken(procedure))
    problems = tuple(each for each in found.problems if each not in warned)
    return Proven(
        name=procedure.name,
        file=file or procedure.file,
        problems=problems,
        warnings=warned,
        spots=found.spots,
        changes=found.changes,
    )


def must_hold(found: Proven) -> None:
    """Refuse a procedure that failed its check."""
    if found.problems:
        raise CheckFailed(
            N_("{name} fails its check and does not run (problems: {count}): {first}."),
            N_("`spindleside check` lists everything."),
            name=found.name,
            count=len(found.problems),
            first=found.problems[0].text(found.file),
        )
