"""Sentences in the reader's language: a catalogue is read when the first one is asked for."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from guide.plain import Refusal
from guide.present.po import Catalogue, catalogue_of
from guide.settings import ENGLISH, PROCEDURES, PROGRAM, catalogue_file, own_catalogue_file

OF_A_PROCEDURE = frozenset({"title", "ask"})
"""Values of a refusal that are texts of a procedure: a step's title, a question as it is asked."""


@cache
def catalogue(language: str, domain: str = PROGRAM) -> Catalogue:
    """The catalogue of a language, else of its mother tongue, else an empty one."""
    if language == ENGLISH:
        return Catalogue()
    for tag in (language, language.partition("-")[0]):
        file = catalogue_file(tag, domain)
        if file.is_file():
            return catalogue_of(file.read_text(encoding="utf-8"))
    return Catalogue()


def own_catalogue(language: str) -> Catalogue:
    """What a shop's own procedures say in a language; empty where it keeps none."""
    if language == ENGLISH:
        return Catalogue()
    tags = (language, language.partition("-")[0])
    return next(
        filter(lambda each: each.entries, map(_kept_in, map(own_catalogue_file, tags))), Catalogue()
    )


@cache
def _kept_in(file: Path) -> Catalogue:
    """The catalogue in a shop's own file; empty where it is not there or cannot be read."""
    try:
        return catalogue_of(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Catalogue()


def say(sentence: str, language: str = ENGLISH, **values: object) -> str:
    """A sentence of the catalogue with its values filled in."""
    return catalogue(language).said(sentence).format_map(values) if sentence else ""


def recorded(text: object, language: str = ENGLISH) -> str:
    """A text of a record: in the reader's language where it was offered, else as it was typed."""
    return catalogue(language).said(str(text)) if text else ""


def written(text: str, language: str = ENGLISH, context: str = "") -> str:
    """A text of a procedure in the reader's language; one that is not translated stays.

    What is shipped comes first: no shop's own words take the place of those of a shipped gate.
    """
    if not text:
        return ""
    said = catalogue(language, PROCEDURES).said(text, context)
    return said if said != text else own_catalogue(language).said(text, context)


def reviewed(language: str) -> bool:
    """Whether a machinist has read what gates say in this language; English is the original."""
    if language.partition("-")[0] == ENGLISH:
        return True
    own = own_catalogue(language)
    shipped = (catalogue(language, each) for each in (PROGRAM, PROCEDURES))
    return all(each.reviewed for each in shipped) and (own.reviewed or not own.entries)


def own_name(language: str) -> str:
    """What a language calls itself; its tag where that is not known."""
    from babel import Locale, UnknownLocaleError

    try:
        return Locale.parse(language, sep="-").get_display_name() or language
    except (UnknownLocaleError, ValueError):
        return language


def refused(refusal: Refusal, language: str = ENGLISH) -> str:
    """A refusal and its remedy in the reader's language."""
    values = {
        name: written(str(value), language) if name in OF_A_PROCEDURE else value
        for name, value in refusal.values.items()
    }
    parts = (refusal.sentence, refusal.remedy)
    return " ".join(say(part, language, **values) for part in parts if part)
