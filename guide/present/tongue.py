"""The language that a program speaks; it may be another one while the program is open."""

from __future__ import annotations

from contextvars import ContextVar
from dataclasses import dataclass

from guide.present.words import say as in_language
from guide.present.words import written as written_in


@dataclass(slots=True)
class Spoken:
    """What one program speaks: the same for all its tasks, which each copied their context."""

    language: str = "en"
    """A BCP 47 tag."""


SPOKEN: ContextVar[Spoken] = ContextVar("spoken")


def say(sentence: str, **values: object) -> str:
    """A sentence of the catalogue in the reader's language, values filled in."""
    return in_language(sentence, language(), **values)


def written(text: str, context: str = "") -> str:
    """A text of a procedure in the reader's language."""
    return written_in(text, language(), context)


def language() -> str:
    """The reader's language; English outside of any program."""
    return SPOKEN.get(Spoken()).language
