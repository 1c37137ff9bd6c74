"""A procedure's own words in a reader's language, before anybody walks it."""

from __future__ import annotations

from guide.plain import N_
from guide.present.words import reviewed, say, written
from guide.procedure.model import Caution, Check, Fact

YES_NO = {"yes": N_("yes"), "no": N_("no")}


def check(one: Check, language: str) -> str:
    """What is confirmed, its hazard, how to look; the English too where nobody reviewed that."""
    parts = [each for each in (one.say, one.hazard, one.look) if each]
    told = " ".join(written(each, language) for each in parts)
    english = " ".join(parts)
    return told if reviewed(language) or told == english else f"{told} / {english}"


def caution(one: Caution, language: str) -> str:
    """What can hurt, and what to do about it."""
    return f"{written(one.hazard, language)} {written(one.action, language)}"


def answers(fact: Fact, language: str) -> dict[str, str]:
    """The answers that there are, in words; nothing for an open question."""
    if fact.kind == "yes-no":
        return {each: say(words, language) for each, words in YES_NO.items()}
    return {each: written(words, language) for each, words in fact.of.items()}


def question(fact: Fact, language: str) -> str:
    """A question with its answers."""
    told = " / ".join(answers(fact, language).values())
    asked = written(fact.ask, language)
    return f"{asked} ({told})" if told else asked
