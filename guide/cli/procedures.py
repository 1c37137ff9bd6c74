"""`spindleside procedures`: what can be walked, looked at, hung up and written."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.lazily import LazyGroup
from guide.cli.output import emit
from guide.cli.places import json_option
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.procedure.model import Procedure

COMMANDS = {
    "new": "guide.cli.procedures_new:new",
    "show": "guide.cli.procedures_show:show",
    "sheet": "guide.cli.procedures_sheet:sheet",
    "translate": "guide.cli.procedures_translate:translate",
    "words": "guide.cli.procedures_words:words",
    "schema": "guide.cli.procedures_show:schema",
}
"""Each command under this one, and where it is; it is loaded when it is asked for."""


@click.command(cls=LazyGroup, places=COMMANDS, invoke_without_command=True)
@json_option
@click.pass_context
def procedures(ctx: click.Context, as_json: bool) -> None:
    """List the procedures that are here; look at one, or write one of your own.

    \b
    Example:
      spindleside procedures
    """
    if ctx.invoked_subcommand is not None:
        return
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
