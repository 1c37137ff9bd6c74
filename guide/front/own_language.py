"""The language of each person: a setup speaks it while that person is at the lathe."""

from __future__ import annotations

from pathlib import Path

from guide.present.tongue import SPOKEN, Spoken
from guide.settings import Settings, in_file, may_be, put

FILE = "languages.json"
"""Beside the journal: names, and the tag of the language that each has chosen."""


def language_of(person: str, settings: Settings) -> str:
    """What somebody has chosen; the language of all screens where that is nothing offered here."""
    chosen = (in_file(_file(settings)) or {}).get(person)
    free = "language" not in settings.held and isinstance(chosen, str)
    return chosen if free and chosen in may_be("language") else settings.language


def keep_language(person: str, language: str, settings: Settings) -> None:
    """Somebody chose a language; OSError where that cannot be kept."""
    kept = in_file(_file(settings)) or {}
    fit = {name: each for name, each in kept.items() if isinstance(each, str)}
    put(_file(settings), {**fit, person: language})


def speak_for(person: str, settings: Settings) -> bool:
    """Let this program speak somebody's language; whether it spoke another one before."""
    spoken = SPOKEN.get(Spoken())
    before, spoken.language = spoken.language, language_of(person, settings)
    return before != spoken.language


def speak_as_set(settings: Settings) -> None:
    """The language of all screens again, once nobody's setup is open."""
    SPOKEN.get(Spoken()).language = settings.language


def _file(settings: Settings) -> Path:
    """Where the choices are kept."""
    return settings.home / FILE
