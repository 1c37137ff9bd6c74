"""`spindleside completion`: what a shell wants to know to finish a command that was begun."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

from guide.cli.output import say

SHELLS = ("bash", "zsh", "fish")
VARIABLE = "_SPINDLESIDE_COMPLETE"
"""By what variable the shell asks (click's own manner)."""


@click.command()
@click.argument("shell", type=click.Choice(SHELLS))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print what switches completion on: with it Tab finishes commands, procedures and setups.

    In bash or zsh, read it at every start: eval "$(spindleside completion bash)". In fish, keep it
    as ~/.config/fish/completions/spindleside.fish.

    \b
    Example:
      spindleside completion bash
    """
    kind = get_completion_class(shell)
    assert kind is not None
    root = ctx.find_root()
    say(kind(root.command, {}, "spindleside", VARIABLE).source())
