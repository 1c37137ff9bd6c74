"""`spindleside procedures sheet`: a blank setup sheet, to hang at the machine."""

from __future__ import annotations

from pathlib import Path

import click

from guide.cli.completing import procedures
from guide.cli.output import say as tell
from guide.plain import N_
from guide.settings import from_environment


@click.command()
@click.argument("procedure", shell_complete=procedures)
@click.option("--to", "target", required=True, metavar="FILE", help="Where; ends .pdf .html.")
def sheet(procedure: str, target: str) -> None:
    """Write the setup sheet of a PROCEDURE, blank, for hands that want paper.

    Paper holds no gate shut and works nothing out; the sheet says so. A file that is there already
    is replaced.

    \b
    Example:
      spindleside procedures sheet chuck-removal --to chuck-removal.pdf
    """
    from guide.present.words import say
    from guide.procedure.shelf import find
    from guide.records.blank.write import write

    found, language = find(procedure), from_environment().language
    write(found, Path(target), language)
    wrote = N_(
        "Wrote {target}: the blank setup sheet of {name}. On paper nothing holds a gate shut."
    )
    tell(say(wrote, language, target=target, name=found.name))
