"""`spindleside export`: the record of a setup as a file."""

from __future__ import annotations

from pathlib import Path

import click

from guide.cli.completing import setups
from guide.cli.output import say as tell
from guide.cli.places import journal_option, reading, settings
from guide.plain import N_


@click.command()
@click.argument("setup", shell_complete=setups)
@click.option(
    "--to", "target", required=True, metavar="FILE", help="Where; ends .pdf .html .md .csv .jsonl."
)
@journal_option
def export(setup: str, target: str, journal: str | None) -> None:
    """Write the record of a SETUP to a file; the ending says in which form.

    .pdf is one or two pages to keep with the chuck, .html prints the whole record, .md is Markdown,
    .csv holds the readings for a spreadsheet, .jsonl every event with its digest and signature, to
    be checked by anyone. A file that is there already is replaced.

    \b
    Example:
      spindleside export 20300131-0705-a1b2 --to record.pdf
    """
    from guide.present.words import say
    from guide.records.write import known, write
    from guide.walk.setup import replayed

    known(Path(target))
    here = settings(journal)
    with reading(here) as store:
        record = write(replayed(store, setup), store, Path(target), here.language)
    wrote = N_("Wrote {target}: setup {setup}, {events} events.")
    told = {"target": target, "setup": record.setup, "events": record.events}
    tell(say(wrote, here.language, **told), *record.marks)
    tell(say(N_("Digest of the last event: {head}"), here.language, head=record.head))
