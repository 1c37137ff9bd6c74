"""`spindleside procedures show` and `schema`: a procedure in words, as a chart, its schema."""

from __future__ import annotations

import click

from guide.cli.completing import procedures
from guide.cli.output import say
from guide.settings import from_environment


@click.command()
@click.argument("procedure", shell_complete=procedures)
@click.option(
    "--as", "form", type=click.Choice(["text", "mermaid"]), default="text",
    help="Words, or a flow chart in Mermaid's notation.",
)  # fmt: skip
@click.option(
    "--detail", type=click.Choice(["full", "brief"]), default="full", help="How much of a text."
)
def show(procedure: str, form: str, detail: str) -> None:
    """Show a PROCEDURE, shipped or in a file, without walking it.

    \b
    Example:
      spindleside procedures show chuck-removal --as mermaid
    """
    from guide.present.written.as_chart import as_chart
    from guide.present.written.as_text import as_text
    from guide.procedure.shelf import find

    found, language = find(procedure), from_environment().language
    say(*(as_text(found, detail, language) if form == "text" else as_chart(found, language)))


@click.command()
def schema() -> None:
    """Print the JSON Schema of a procedure file, for editors that complete and mark.

    What a walk would meet is known to `spindleside check` alone.

    \b
    Example:
      spindleside procedures schema
    """
    from json import dumps

    from guide.procedure.schema import schema as made

    say(dumps(made(), indent=2))
