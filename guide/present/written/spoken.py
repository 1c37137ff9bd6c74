"""A procedure's own words in a reader's language, before anybody walks it."""

from __future__ import annotations

from guide.present.recorded import of_each
from guide.present.words import reviewed, written
from guide.procedure.model import Caution, Check, Fact


def check(one: Check, language: str) -> str:
    """What is confirmed, its hazard, how to look; the English too where nobody reviewed that."""
    parts = [each for each in (one.say, one.hazard, one.look) if each]
    told = " ".join(written(each, language) for each in parts)
    english = " ".join(parts)
    return told if reviewed(language) or told == english else f"{told} / {english}"


def caution(one: Caution, language: str) -> str:
    """What can hurt, and what to do about it."""
    return f"{written(one.hazard, language)} {written(one.action, language)}"


def question(fact: Fact, language: str) -> str:
    """A question with its answers."""
    told = " / ".join(of_each(fact, language).values())
    asked = written(fact.ask, language)
    return f"{asked} ({told})" if told else asked
