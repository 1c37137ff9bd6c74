"""`spindleside procedures translate`: the texts of a procedure of one's own, to be translated."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from guide.cli.completing import procedures
from guide.cli.output import say as tell
from guide.plain import N_, BadInput
from guide.settings import ENGLISH, from_environment, own_catalogue_file

if TYPE_CHECKING:
    from guide.procedure.model import Procedure

HEAD = """\
# What this shop's own procedures say in this language. Write each text behind its msgstr.
#
# A gate shows the English under each check until a machinist who speaks the language has read all
# of this, and says so here:
# Reviewed-By-Machinist: no
"""
WROTE = N_("{path}: texts added: {added}, still to be translated: {left}.")


@click.command()
@click.argument("procedure", shell_complete=procedures)
@click.option("--into", "language", required=True, metavar="LANGUAGE", help="Its tag, such as de.")
def translate(procedure: str, language: str) -> None:
    """Write the texts of a PROCEDURE of your own that have no words yet in a LANGUAGE.

    They are added to LANGUAGE.po in the folder of your own procedures; what stands there is kept.
    Texts that a shipped part or procedure has already are not asked for again.

    \b
    Example:
      spindleside procedures translate chuck-cleaning.yaml --into de
    """
    from guide.present.words import say
    from guide.procedure.shelf import find

    if language.partition("-")[0] == ENGLISH:
        raise BadInput(
            N_("Procedures are written in English."), N_("Name another language, such as de.")
        )
    path = own_catalogue_file(language)
    added, left = _add(path, find(procedure), language)
    tell(say(WROTE, from_environment().language, path=path, added=added, left=left))


def _add(path: Path, procedure: Procedure, language: str) -> tuple[int, int]:
    """Add what is missing at the end of a file, and count that and all that has no words yet."""
    from guide.present.po import catalogue_of, entry, texts_in
    from guide.present.words import catalogue
    from guide.procedure.sentences import sentences
    from guide.settings import PROCEDURES

    there = path.read_text(encoding="utf-8") if path.is_file() else HEAD
    shipped = catalogue(language, PROCEDURES).entries
    notes: dict[tuple[str, str], str] = {}
    for _, context, text, note in sentences(procedure):
        if text and (context, text) not in shipped:
            notes.setdefault((context, text), note)
    new = [key for key in notes if key not in texts_in(there)]
    blocks = (there.rstrip("\n") + "\n", *(entry(t, c, notes[c, t]) for c, t in new))
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(blocks), encoding="utf-8")
    said = catalogue_of(path.read_text(encoding="utf-8")).entries
    return len(new), sum(key not in said for key in notes)
