"""`--plain`: the same walk as lines of questions and answers, for screen readers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from guide.plain import N_, BadInput
from guide.settings import Settings

Command = Callable[..., Any]


def plain_options(command: Command) -> Command:
    """`--plain` and how wide its lines are."""
    width = click.option(
        "--width", type=click.IntRange(min=0), metavar="N",
        help="With --plain: signs in a line at most; 0 never wraps. Else the terminal's own width.",
    )  # fmt: skip
    plain = click.option(
        "--plain", is_flag=True, help="Ask by lines alone, for a screen reader or a plain terminal."
    )
    return plain(width(command))


def in_lines(settings: Settings, width: int | None, *, procedure: str = "", setup: str = "") -> int:
    """Run the front end of lines; refused where the system has no terminals of this kind."""
    try:
        import termios  # noqa: F401 # only asked for
    except ImportError:
        raise BadInput(
            N_("--plain works on systems with POSIX terminals."), N_("Use the screens.")
        ) from None
    from guide.linear.running import run

    return run(settings, procedure=procedure, setup=setup, width=width)
