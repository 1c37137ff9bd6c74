"""Every catalogue belongs to the words of today, keeps their places, and says truly how far it is.

With `-s` it prints how much of each is translated.
"""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from guide.present.po import catalogue_of
from guide.procedure.sentences import sentences
from guide.procedure.shelf import files, find
from guide.settings import CHECKOUT, PROCEDURES, PROGRAM

LOCALES = CHECKOUT / "locales"
CATALOGUES = sorted(LOCALES.glob("*/LC_MESSAGES/*.po"))
PLACES = re.compile(r"\{[^}]*\}")
METHOD = [("**.yaml", "guide.procedure.sentences:extract")]


@cache
def read(path: Path) -> Catalog:
    """A catalogue as Babel reads it."""
    with path.open("rb") as file:
        return read_po(file)


@pytest.fixture(params=CATALOGUES, ids=lambda each: f"{each.parts[-3]}-{each.stem}")
def path(request: pytest.FixtureRequest) -> Path:
    """Every catalogue that is kept."""
    return request.param


def test_every_language_has_both_catalogues() -> None:
    """The program's sentences and the procedures' texts."""
    for folder in {each.parent for each in CATALOGUES}:
        assert {each.stem for each in folder.glob("*.po")} == {PROGRAM, PROCEDURES}


def test_extracting_the_procedures_again_changes_nothing() -> None:
    """The template holds every text of every procedure and no other."""
    keywords = {"pgettext": ((1, "c"), 2)}
    told = extract_from_dir(str(CHECKOUT / "procedures"), METHOD, keywords=keywords)
    found = {(context, message) for _, _, message, _, context in told}
    assert found == {(e.context, e.id) for e in read(LOCALES / f"{PROCEDURES}.pot") if e.id}


def test_every_text_of_a_procedure_is_found_as_it_is_loaded() -> None:
    """Word for word, so that looking it up by its text finds it."""
    kept = {(each.context or "", each.id) for each in read(LOCALES / f"{PROCEDURES}.pot")}
    for file in files():
        procedure = find(file.stem)
        told = {(context, text) for _, context, text, _ in sentences(procedure) if text}
        assert told <= kept
        assert ("", procedure.steps[-1].full) in told


def test_updating_a_catalogue_changes_nothing(path: Path) -> None:
    """It was made from the templates that are kept."""
    with path.open("rb") as file:
        again = read_po(file)
    template = read(LOCALES / f"{path.stem}.pot")
    again.update(template, no_fuzzy_matching=True, update_creation_date=False)
    text = io.BytesIO()
    write_po(text, again, sort_output=True, no_location=True)
    assert text.getvalue() == path.read_bytes()


def test_the_program_reads_a_catalogue_as_babel_does(path: Path) -> None:
    """Nothing is compiled, so the program's own reading has to be right."""
    told = {(each.context or "", each.id): each.string for each in read(path)
            if each.id and each.string and not each.fuzzy}  # fmt: skip
    assert catalogue_of(path.read_text(encoding="utf-8")).entries == told


def test_a_translation_has_the_places_of_its_sentence(path: Path) -> None:
    """A figure that is left out, or a name that is misspelled, would be missing from a page."""
    for each in read(path):
        if each.id and each.string:
            assert sorted(PLACES.findall(each.id)) == sorted(PLACES.findall(each.string))


def test_a_translation_begins_and_ends_with_the_same_gap(path: Path) -> None:
    """Sentences are put side by side: a gap that is lost glues them together."""
    for each in read(path):
        if each.id and each.string:
            assert (each.string[:1] == " ") == (each.id[:1] == " "), each.id
            assert (each.string[-1:] == " ") == (each.id[-1:] == " "), each.id


def test_a_catalogue_says_truly_whether_it_is_whole(path: Path) -> None:
    """One that says so has nothing left; whether a machinist read it is said too."""
    head = catalogue_of(path.read_text(encoding="utf-8")).head
    all_of_it = [each for each in read(path) if each.id]
    done = [each for each in all_of_it if each.string and not each.fuzzy]
    print(f"{path.parts[-3]} {path.stem}: {100 * len(done) / len(all_of_it):.1f} % translated")
    assert head["Reviewed-By-Machinist"] in ("yes", "no")
    assert head["Complete"] in ("yes", "no")
    assert head["Complete"] == "no" or len(done) == len(all_of_it)
