"""`spindleside resume`: go on with a setup on the screens."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from guide.cli.completing import setups
from guide.cli.places import journal_option, reading, settings
from guide.cli.plain import in_lines, plain_options
from guide.cli.start import on_the_screens
from guide.plain import N_, BadInput, NotAllowed

if TYPE_CHECKING:
    from guide.journal.summary import Summary


@click.command()
@click.argument("setup", required=False, shell_complete=setups)
@journal_option
@plain_options
@click.pass_context
def resume(
    ctx: click.Context, setup: str | None, journal: str | None, plain: bool, width: int | None
) -> None:
    """Go on with a SETUP; without one, with the open one that was worked on last.

    The machine is made sure of before work goes on.

    \b
    Example:
      spindleside resume
    """
    with reading(settings(journal)) as store:
        name = _chosen(store.setups(), setup)
    if plain:
        ctx.exit(in_lines(settings(journal), width, setup=name))
    ctx.exit(on_the_screens(journal, setup=name))


def _chosen(setups: tuple[Summary, ...], setup: str | None) -> str:
    """The setup to go on with; refused where it is not there or has ended."""
    named = [each for each in setups if setup in (None, each.setup)]
    open_ones = [
        each
        for each in named
        if "ends" not in each.closing and (setup or each.opening.get("mode") != "rehearsal")
    ]
    if open_ones:
        return open_ones[0].setup
    if setup and named:
        raise NotAllowed(
            N_("The setup {setup} has ended."),
            N_("`spindleside records show {setup}` shows it."),
            setup=setup,
        )
    raise BadInput(
        N_("There is no open setup to go on with."),
        N_("`spindleside start PROCEDURE` opens one; `spindleside records` lists all."),
    )
