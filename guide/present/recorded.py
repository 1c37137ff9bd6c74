"""What a record holds as names and figures, in the reader's words and with the reader's signs."""

from __future__ import annotations

from collections.abc import Iterable

from guide.measure.numerals import in_sign
from guide.present.words import recorded, written
from guide.procedure.model import Fact
from guide.procedure.vocabulary import ACTION, name_of
from guide.walk.answers import FIGURES


def fact_named(name: str, language: str) -> str:
    """A fact by its short name."""
    return written(name_of(name), language, name)


def answered(fact: Fact | None, answer: object, language: str) -> str:
    """An answer as a line has it: the name of a choice, a figure with the reader's decimal sign."""
    text = str(answer)
    if fact is not None and fact.kind in FIGURES:
        return in_sign(text, language)
    closed = fact is not None and fact.closed
    return written(text, language, fact.name) if fact and closed else recorded(text, language)


def in_full(fact: Fact | None, answer: str, language: str) -> str:
    """An answer in all its words."""
    words = fact.of.get(answer, "") if fact is not None else ""
    return written(words, language) if words else answered(fact, answer, language)


def doings(actions: Iterable[object], language: str) -> str:
    """Actions by their names."""
    return ", ".join(written(str(each), language, ACTION) for each in actions)
