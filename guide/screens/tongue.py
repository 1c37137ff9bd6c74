"""The language that the screens speak, set once when the program opens."""

from __future__ import annotations

from contextvars import ContextVar

from guide.present.words import say as in_language

LANGUAGE: ContextVar[str] = ContextVar("language", default="en")


def say(sentence: str, **values: object) -> str:
    """A sentence of the catalogue in the reader's language, values filled in."""
    return in_language(sentence, LANGUAGE.get(), **values)


def language() -> str:
    """The reader's language."""
    return LANGUAGE.get()
