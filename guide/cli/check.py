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
WALKED = N_(
    "{name}: problems: {problems}; walked {spots} spots (step × machine state × closed facts) and"
    " {changes} changes that making sure might find."
)
NOT_WALKED = N_("{name}: problems: {problems}; not walked before these are mended.")


@click.command()
@click.argument("paths", nargs=-1, metavar="[PATH…]")
@json_option
@click.pass_context
def check(ctx: click.Context, paths: tuple[str, ...], as_json: bool) -> None:
    """Walk every reachable step, machine state and closed fact of procedures, and each change.

    Without a PATH, every procedure that is here, shipped or the shop's own. A PATH is a YAML file
    or the name of one. Every finding stands behind its file, line and column, with the shortest way
    there. It checks the procedure, not the machine.

    \b
    Example:
      spindleside check my-chuck.yaml
    """
    from guide.present.words import say
    from guide.procedure.shelf import files

    language = from_environment().language
    found = _each_proven(paths or tuple(path.stem for path in files()))
    sound = not any(each.problems for each in found)
    answer = {
        "sound": sound,
        "procedures": list(map(_answer, found)),
        "note": say(NOT_THE_MACHINE, language),
    }
    emit(answer, as_json, _lines(found, language))
    ctx.exit(0 if sound else 1)


def _each_proven(names: tuple[str, ...]) -> tuple[Proven, ...]:
    """Every procedure checked, several at a time where there are several."""
    from guide.cli.proven import Proven, of, opened

    found = [opened(name) for name in names]
    if len(found) == 1:
        return tuple(each if isinstance(each, Proven) else of(*each) for each in found)
    from concurrent.futures import ProcessPoolExecutor

    with ProcessPoolExecutor() as workers:
        waiting = [e if isinstance(e, Proven) else workers.submit(of, *e) for e in found]
        return tuple(e if isinstance(e, Proven) else e.result() for e in waiting)


def _answer(found: Proven) -> dict[str, object]:
    """One procedure as JSON keys."""
    return {
        "procedure": found.name,
        "problems": [_told(each, found.file) for each in found.problems],
        "spots": found.spots,
        "changes": found.changes,
    }


def _told(problem: Problem, file: str) -> dict[str, object]:
    """One finding as JSON keys."""
    return {
        "file": problem.place.file or file,
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
        yield say(
            WALKED if each.spots else NOT_WALKED,
            language,
            name=each.name,
            problems=len(each.problems),
            spots=each.spots,
            changes=each.changes,
        )
    yield say(NOT_THE_MACHINE, language)
