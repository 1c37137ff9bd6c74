"""Which journal a command works on."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from guide.settings import Settings, from_environment

if TYPE_CHECKING:
    from guide.journal.store import Store

journal_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--journal",
    metavar="DIR",
    help="The folder of the journal, instead of SPINDLESIDE_HOME or the user's data folder.",
)
json_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--json", "as_json", is_flag=True, help="Answer as one JSON object."
)


def settings(journal: str | None) -> Settings:
    """Settings from the environment; a folder named on the command line wins."""
    return from_environment(home=journal)


def reading(settings: Settings) -> Store:
    """The journal, opened to be read: nothing is made, nothing is changed."""
    from guide.journal.store import Store

    return Store.read(settings.journal_file)
