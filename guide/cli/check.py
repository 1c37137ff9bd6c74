"""`spindleside check`: whether every path of a procedure meets its gates."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.output import emit
from guide.cli.places import json_option
from guide.plain import N_
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.cli.proven import Proven
    from guide.procedure.problem import Problem

NOT_THE_MACHINE = N_("It checks the procedure, not the machine.")


@click.command()
@click.argument("paths", nargs=-1, metavar="[PATH…]")
@json_option
@click.pass_context
def check(ctx: click.Context, paths: tuple[str, ...], as_json: bool) -> None:
    """Walk every reachable step, machine state and closed fact of procedures, and each change.

    Without a PATH, every shipped procedure. A PATH is a YAML file or the name of a shipped one.
    Every finding stands behind its file, line and column, with the shortest way there. It checks
    the procedure, not the machine.

    \b
    Example:
      spindleside check my-chuck.yaml
    """
    from guide.cli.proven import proven
    from guide.present.words import say
    from guide.procedure.shelf import files

    language = from_environment().language
    found = tuple(map(proven, paths or (path.stem for path in files())))
    sound = not any(each.problems for each in found)
    answer = {
        "sound": sound,
        "procedures": list(map(_answer, found)),
        "note": say(NOT_THE_MACHINE, language),
    }
    emit(answer, as_json, _lines(found, language))
    ctx.exit(0 if sound else 1)


def _answer(found: Proven) -> dict[str, object]:
    """One procedure as JSON keys."""
    return {
        "procedure": found.name,
        "problems": [_told(each, found.file) for each in found.problems],
        "warnings": [_told(each, found.file) for each in found.warnings],
        "spots": found.spots,
        "changes": found.changes,
    }


def _told(problem: Problem, file: str) -> dict[str, object]:
    """One finding as JSON keys."""
    return {
        "line": problem.place.line,
        "column": problem.place.column,
        "step": problem.step,
        "says": problem.text(file),
    }


def _lines(found: tuple[Proven, ...], language: str) -> Iterator[str]:
    """The findings, then what was walked."""
    from guide.present.words import say

    for each in found:
        yield from (problem.text(each.file) for problem in each.problems)
        for warning in each.warnings:
            yield say(N_("{finding} (a warning)"), language, finding=warning.text(each.file))
        yield say(
            N_(
                "{name}: problems: {problems}, warnings: {warnings}; walked {spots} spots (step ×"
                " machine state × closed facts) and {changes} changes that making sure might find."
            ),
            language,
            name=each.name,
            problems=len(each.problems),
            warnings=len(each.warnings),
            spots=each.spots,
            changes=each.changes,
        )
    yield say(NOT_THE_MACHINE, language)
