"""The catalogue of sentences is the one that the code has."""

from __future__ import annotations

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

TOP = Path(__file__).parents[2]
KEYWORDS = {"N_": None, "say": None}


def test_the_catalogue_holds_every_sentence_and_no_other() -> None:
    """Extracting again changes nothing."""
    found = Catalog()
    for _, _, message, _, _ in extract_from_dir(str(TOP / "guide"), keywords=KEYWORDS):
        if message:
            found.add(message)
    with (TOP / "locales" / "spindleside.pot").open("rb") as file:
        kept = read_po(file)
    assert {each.id for each in found if each.id} == {each.id for each in kept if each.id}
