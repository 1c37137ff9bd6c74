"""`spindleside start`: a new setup on the screens, and the start page."""

from __future__ import annotations

import sys

import click

from guide.cli.completing import procedures
from guide.cli.places import journal_option, settings
from guide.cli.plain import in_lines, plain_options
from guide.plain import N_, BadInput


@click.command()
@click.argument("procedure", shell_complete=procedures)
@journal_option
@plain_options
@click.pass_context
def start(
    ctx: click.Context, procedure: str, journal: str | None, plain: bool, width: int | None
) -> None:
    """Open a new setup of a PROCEDURE and walk it on the screens.

    A procedure file of your own is checked first; one that fails does not run. The shipped ones
    were checked when they were shipped.

    \b
    Example:
      spindleside start adjustable-chuck
      spindleside start adjustable-chuck --plain
    """
    from guide.front.sound import sound

    sound(procedure)
    if plain:
        ctx.exit(in_lines(settings(journal), width, procedure=procedure))
    ctx.exit(on_the_screens(journal, procedure=procedure))


def open_start_page(plain: bool = False, width: int | None = None) -> None:
    """The first screen, or the list in lines, for a command line without a command."""
    opened = in_lines(settings(None), width) if plain else on_the_screens(None)
    click.get_current_context().exit(opened)


def on_the_screens(
    journal: str | None,
    procedure: str | None = None,
    setup: str | None = None,
    practice: str | None = None,
) -> int:
    """Run the screens, or refuse where nobody sits at a terminal."""
    if not at_a_terminal():
        raise BadInput(
            N_("The screens need a terminal to be shown on and typed at."),
            N_("Run it in one, or with --plain; `spindleside --help` lists what works without."),
        )
    from guide.screens.app import run

    bench = {} if practice is None else {"practice": practice}
    return run(settings(journal), procedure=procedure, setup=setup, **bench)


def at_a_terminal() -> bool:
    """Whether there is one to be shown on and to be typed at."""
    return sys.stdin.isatty() and sys.stdout.isatty()
