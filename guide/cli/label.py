"""`spindleside label`: the sticker that goes on the chuck."""

from __future__ import annotations

from pathlib import Path

import click

from guide.cli.completing import setups
from guide.cli.output import say as tell
from guide.cli.places import journal_option, reading, settings
from guide.plain import N_


@click.command()
@click.argument("setup", shell_complete=setups)
@click.option("--to", "target", required=True, metavar="FILE", help="Where; ends .pdf .svg.")
@journal_option
def label(setup: str, target: str, journal: str | None) -> None:
    """Write the chuck's label, 100 × 70 mm, of a SETUP that has ended with a result that stands.

    It says how the chuck was left, at which diameter, which marks belong together, who did it, and
    when to look again; its square code holds the digest of the record. A file that is there already
    is replaced.

    \b
    Example:
      spindleside label 20300131-0705-a1b2 --to label.svg
    """
    from guide.present.words import say
    from guide.records.label import FORMS, write_label
    from guide.records.of_setup import record_of
    from guide.records.write import known
    from guide.walk.setup import replayed

    known(Path(target), tuple(FORMS))
    here = settings(journal)
    with reading(here) as store:
        record = record_of(replayed(store, setup), store, here.language)
    write_label(record, Path(target), here.language)
    wrote = N_("Wrote {target}: the label of setup {setup}.")
    told = {"target": target, "setup": record.setup}
    tell(say(wrote, here.language, **told), *record.marks)
