"""What a record holds as names and figures, in the reader's words and with the reader's signs."""

from __future__ import annotations

from collections.abc import Iterable

from guide.measure.numerals import in_sign
from guide.plain import N_
from guide.present.words import recorded, say, written
from guide.procedure.model import Fact
from guide.procedure.vocabulary import ACTION, name_of
from guide.walk.answers import FIGURES, SPELLINGS, UNKNOWN_ANSWER

YES_NO = {"yes": N_("yes"), "no": N_("no")}
NOT_KNOWN = N_("not known here")


def fact_named(name: str, language: str) -> str:
    """A fact by its short name."""
    return written(name_of(name), language, name)


def answered(fact: Fact | None, answer: object, language: str) -> str:
    """An answer as a line has it: in the reader's words, a figure with the reader's signs."""
    text = str(answer)
    if fact is None:
        return recorded(text, language)
    if text in fact.of:
        return written(text, language, fact.name)
    if words := of_each(fact, language).get(text):
        return words
    if text == UNKNOWN_ANSWER:
        return say(NOT_KNOWN, language)
    if fact.kind in FIGURES:
        return in_unit(fact.kind, in_sign(text, language), language)
    return recorded(text, language)


def in_full(fact: Fact | None, answer: str, language: str) -> str:
    """An answer in all its words."""
    words = of_each(fact, language).get(answer, "") if fact is not None else ""
    return words or answered(fact, answer, language)


def of_each(fact: Fact, language: str) -> dict[str, str]:
    """The words of every answer that a question offers, by its value; nothing for an open one."""
    if fact.kind == "yes-no":
        return {each: say(words, language) for each, words in YES_NO.items()}
    return {each: written(words, language) for each, words in fact.of.items()}


def in_unit(kind: str, figure: str, language: str) -> str:
    """A figure with the reader's own letters for its unit, where a language has others."""
    for spelled in sorted(SPELLINGS.get(kind, ()), key=len, reverse=True):
        if figure.endswith(spelled):
            return figure.removesuffix(spelled) + say(LETTERS.get(kind, spelled), language)
    return figure


LETTERS = {"speed": N_("rpm")}
"""Units whose letters differ from language to language."""


def doings(actions: Iterable[object], language: str) -> str:
    """Actions by their names."""
    return ", ".join(written(str(each), language, ACTION) for each in actions)
