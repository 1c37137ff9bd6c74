"""A procedure to be walked: a shop's own is checked first, and one that fails does not run."""

from __future__ import annotations

from collections.abc import Sequence

from guide.plain import N_, CheckFailed
from guide.procedure.model import Procedure
from guide.procedure.problem import Problem
from guide.procedure.shelf import find, is_shipped


def sound(name: str) -> Procedure:
    """The procedure of that name or file; the shipped ones were checked when they were shipped.

    Raises `BadInput` where there is none, `CheckFailed` where it fails.
    """
    return proven(name, find(name))


def proven(name: str, found: Procedure) -> Procedure:
    """The same of one that was read already."""
    if not is_shipped(name):
        from guide.walk.proof import check

        refuse_unsound(found.name, check(found).problems, found.file)
    return found


def refuse_unsound(name: str, problems: Sequence[Problem], file: str) -> None:
    """Refuse a procedure in which something was found."""
    if problems:
        raise CheckFailed(
            N_("{name} fails its check and does not run (problems: {count}): {first}."),
            N_("`spindleside check` lists everything."),
            name=name,
            count=len(problems),
            first=problems[0].text(file),
        )
