"""One fact as it is asked, with the answers that may be picked and what is wrong with one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from guide.measure.numerals import in_sign
from guide.plain import N_, Refusal
from guide.present.recorded import NOT_KNOWN, of_each
from guide.present.tongue import language, say, written
from guide.present.usual import USUAL, units
from guide.present.visible import visible
from guide.present.words import refused
from guide.procedure.model import Fact, Procedure
from guide.walk.anew import told_last_round
from guide.walk.answers import FIGURES, UNKNOWN_ANSWER, accepted
from guide.walk.remembered import filled_in
from guide.walk.state import State

Option = tuple[str, str]
"""An answer's value and its words."""
POINT, ODD_ONE = ".", "0987654321"
"""What is pressed for `not known` beside numbers, and for one more answer that is none."""
LONGEST = 9
"""Digits of an answer that a line takes; a screen takes a key."""


@dataclass(frozen=True, slots=True)
class Question:
    """One fact as it is asked."""

    name: str
    ask: str
    help: str
    options: tuple[Option, ...]
    """What may be chosen; empty where it is typed."""
    may_be_unknown: bool
    given: str
    """What was answered before, if it was."""
    usual: tuple[str, ...] = ()
    """Answers that may be picked instead of typed."""
    units: tuple[str, ...] = ()
    """Units for a figure that is typed without one."""
    kind: str = ""
    """What sort of answer it is."""


def at_this_step(fact: Fact, state: State, procedure: Procedure) -> Question:
    """One fact as the present step asks it; a round later anew, with what was told last."""
    if last := told_last_round(fact.name, state, procedure):
        anew = question(fact)
        words = visible(dict(options(fact)).get(last, given_as(fact.kind, last)))
        told = say(N_("Told in the last round: {answer}. Answer for this one."), answer=words)
        return replace(anew, help=f"{anew.help} {told}".strip())
    return question(fact, filled_in(fact, state))


def question(fact: Fact, given: str = "") -> Question:
    """One fact as it is asked."""
    return Question(
        fact.name,
        visible(written(fact.ask)),
        visible(written(fact.help)),
        options(fact),
        fact.may_be_unknown and not fact.closed,
        given_as(fact.kind, given),
        tuple(say(each) for each in USUAL.get(fact.name, ())),
        tuple(map(say, units(fact.kind))),
        fact.kind,
    )


def given_as(kind: str, answer: str) -> str:
    """An answer that stands there, a figure with the reader's decimal sign."""
    return in_sign(answer, language()) if kind in FIGURES else answer


def in_signs(asked: Iterable[Question], known: Mapping[str, str]) -> dict[str, str]:
    """Answers that are known, as they would stand at these questions."""
    kinds = {each.name: each.kind for each in asked}
    return {name: given_as(kinds.get(name, ""), each) for name, each in known.items()}


def options(fact: Fact) -> tuple[Option, ...]:
    """The answers of a closed fact in words, and `unknown` where it is allowed."""
    if not fact.closed:
        return ()
    told = [(each, visible(said)) for each, said in of_each(fact, language()).items()]
    if fact.may_be_unknown and UNKNOWN_ANSWER not in fact.closed:
        told.append((UNKNOWN_ANSWER, say(NOT_KNOWN)))
    return tuple(told)


def trouble(fact: Fact, text: str) -> str:
    """What is wrong with an answer, as a sentence; blank when nothing is."""
    if text.strip() == POINT and not fact.may_be_unknown:
        return must_be_known()
    try:
        accepted(fact, text, language())
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def keys_of(values: Sequence[str], digits: int = LONGEST) -> tuple[str, ...]:
    """What is pressed for each answer: one that is a whole number is pressed as that number.

    So no digit stands for another number. Beside such answers `not known` is a point, and one more
    that is none, or has more `digits` than can be pressed, is 0. Else they are counted.

    >>> keys_of(["3", "4", "6"]), keys_of(["3", "6", "other", "unknown"]), keys_of(["in", "mm"])
    (('3', '4', '6'), ('3', '6', '0', '.'), ('1', '2'))
    """
    own = [each for each in values if _is_key(each, digits)]
    odd = [each for each in values if each not in own and each != UNKNOWN_ANSWER]
    if own and len(odd) <= 1 and len(own) < len(ODD_ONE):
        free = next(each for each in ODD_ONE if each not in own)
        keys = {UNKNOWN_ANSWER: POINT, **dict.fromkeys(odd, free)}
        return tuple(keys.get(each, each) for each in values)
    return tuple(str(number) for number in range(1, len(values) + 1))


def _is_key(answer: str, digits: int) -> bool:
    """Whether an answer is a whole number as it would be pressed."""
    return answer.isdecimal() and answer.isascii() and len(answer) <= digits


def none_of(text: str, keys: Sequence[str]) -> str:
    """That something is no answer, and what would be."""
    return say(N_("“{text}” is none of the answers. Type one of these: {numbers}."),
               text=visible(text), numbers=", ".join(keys))  # fmt: skip


def must_be_known() -> str:
    """What to do where `not known` is no answer."""
    return say(N_(
        "This one has to be known. Look where it is stamped or written, or ask; where nobody can "
        "tell, press * and pause."
    ))  # fmt: skip
