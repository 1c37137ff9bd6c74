"""`spindleside procedures words`: what a procedure may be written in."""

from __future__ import annotations

import click

from guide.cli.output import say
from guide.settings import from_environment


@click.command()
def words() -> None:
    """List the words of procedures: the lathe's states, actions, tests, facts, readings, parts.

    \b
    Example:
      spindleside procedures words
    """
    from guide.present.written.as_words import as_words
    from guide.procedure.shelf import parts

    say(*as_words(parts(), from_environment().language))
