"""A condition of a procedure as a sentence that a person at the lathe understands."""

from __future__ import annotations

from collections.abc import Mapping

from guide.plain import N_
from guide.present.questions import ANSWERS, ASKS
from guide.present.recorded import of_each
from guide.present.words import say, written
from guide.procedure.condition import Condition, Term
from guide.procedure.model import Fact
from guide.walk.branch_tests import MEANS

OR = N_("or")
NOT = N_("not so: {told}")


def in_words(condition: Condition, facts: Mapping[str, Fact], language: str = "en") -> str:
    """What has to hold: an `or` of `and`s, each term with its question and its answers."""
    joined = (" · ".join(_term(each, facts, language) for each in all_of)
              for all_of in condition.either)  # fmt: skip
    return f" {say(OR, language)} ".join(joined)


def _term(term: Term, facts: Mapping[str, Fact], language: str) -> str:
    """One look at one thing."""
    asked, known = _words(term.name, facts, language)
    either = f" {say(OR, language)} "
    told = either.join(known.get(each, each) for each in sorted(term.values))
    sentence = f"{asked}: {told}" if told else asked
    return say(NOT, language, told=sentence) if term.negated else sentence


def _words(name: str, facts: Mapping[str, Fact], language: str) -> tuple[str, dict[str, str]]:
    """How a fact, a variable of the machine or a branch test is asked, and its answers."""
    if name in facts:
        return written(facts[name].ask, language), of_each(facts[name], language)
    if name in ASKS:
        return (
            say(ASKS[name], language),
            {each: say(words, language) for each, words in ANSWERS.get(name, {}).items()},
        )
    return say(MEANS.get(name, name), language), {}
