"""What the shell offers where an argument is begun: procedures and setups by their names."""

from __future__ import annotations

from collections.abc import Iterable

import click
from click.shell_completion import CompletionItem

from guide.cli.places import settings
from guide.plain import Refusal


def procedures(
    context: click.Context, parameter: click.Parameter, begun: str
) -> list[CompletionItem]:
    """The shipped procedures that begin so."""
    from guide.procedure.shelf import files

    return _beginning(begun, (path.stem for path in files()))


def setups(context: click.Context, parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    """The setups of the journal that begin so; none where there is no journal that can be read."""
    from guide.journal.store import Store

    here = settings(context.params.get("journal"))
    try:
        if not Store.is_there(here.journal_file):
            return []
        with Store.read(here.journal_file) as store:
            return _beginning(begun, store.names())
    except Refusal:
        return []


def _beginning(begun: str, names: Iterable[str]) -> list[CompletionItem]:
    """Those names that go on from what was begun."""
    return [CompletionItem(each) for each in names if each.startswith(begun)]
