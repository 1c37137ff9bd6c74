"""Sentences in the reader's language: the catalogue, loaded when the first one is asked for."""

from __future__ import annotations

import gettext
from functools import cache

from guide.plain import Refusal
from guide.settings import shipped

DOMAIN = "spindleside"


@cache
def catalogue(language: str) -> gettext.NullTranslations:
    """The catalogue of a language, or the sentences as they are written."""
    wanted = [language.replace("-", "_")]
    return gettext.translation(DOMAIN, shipped("locales"), languages=wanted, fallback=True)


def say(sentence: str, language: str = "en", **values: object) -> str:
    """A sentence of the catalogue with its values filled in."""
    return catalogue(language).gettext(sentence).format_map(values) if sentence else ""


def own_name(language: str) -> str:
    """What a language calls itself; its tag where that is not known."""
    from babel import Locale, UnknownLocaleError

    try:
        return Locale.parse(language, sep="-").get_display_name() or language
    except (UnknownLocaleError, ValueError):
        return language


def refused(refusal: Refusal, language: str = "en") -> str:
    """A refusal and its remedy in the reader's language."""
    parts = (refusal.sentence, refusal.remedy)
    return " ".join(say(part, language, **dict(refusal.values)) for part in parts if part)
