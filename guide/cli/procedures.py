"""`spindleside procedures`: what can be walked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.output import emit
from guide.cli.places import json_option
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.procedure.model import Procedure


@click.command()
@json_option
def procedures(as_json: bool) -> None:
    """List the procedures that are here.

    \b
    Example:
      spindleside procedures
    """
    from guide.procedure.load import load
    from guide.procedure.shelf import files

    found = tuple(map(load, files()))
    language = from_environment().language
    emit({"procedures": list(map(_answer, found))}, as_json, _lines(found, language))


def _answer(procedure: Procedure) -> dict[str, object]:
    """One procedure as JSON keys."""
    return {
        "name": procedure.name,
        "title": procedure.title,
        "revision": procedure.revision,
        "stages": [stage.title for stage in procedure.stages],
        "steps": len(procedure.steps),
    }


def _lines(found: tuple[Procedure, ...], language: str) -> Iterator[str]:
    """One procedure a line, its title in the reader's language."""
    from guide.present.words import written

    for each in found:
        yield f"{each.name:<20} {written(each.title, language)}"
