"""`spindleside start`: a new setup on the screens, and the start page."""

from __future__ import annotations

import sys

import click

from guide.cli.places import journal_option, settings
from guide.plain import N_, BadInput


@click.command()
@click.argument("procedure")
@journal_option
@click.pass_context
def start(ctx: click.Context, procedure: str, journal: str | None) -> None:
    """Open a new setup of a PROCEDURE and walk it on the screens.

    A procedure file of your own is checked first; one that fails does not run. The shipped ones
    were checked when they were shipped.

    \b
    Example:
      spindleside start adjustable-chuck
    """
    from guide.cli.proven import must_hold, of
    from guide.procedure.shelf import find

    found = find(procedure)
    if procedure.endswith((".yaml", ".yml")):
        must_hold(of(found, procedure))
    ctx.exit(on_the_screens(journal, procedure=procedure))


def open_start_page() -> None:
    """The first screen, for a command line without a command."""
    click.get_current_context().exit(on_the_screens(None))


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
            N_("Run it in one; `spindleside --help` lists what works without."),
        )
    from guide.screens.app import run

    bench = {} if practice is None else {"practice": practice}
    return run(settings(journal), procedure=procedure, setup=setup, **bench)


def at_a_terminal() -> bool:
    """Whether there is one to be shown on and to be typed at."""
    return sys.stdin.isatty() and sys.stdout.isatty()
