"""Conditions over machine state, facts and branch tests, in the spelling of the reviewed table.

`seat=locked and body=apart or bolts=snug/tight` is an `or` of `and`s of terms. A term is
`name=value/value`, a bare name of a branch test, or either behind `not`. Nothing is evaluated:
a condition is parsed into terms that the walk looks up.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

TERM = re.compile(r"(not )?([a-z][a-z0-9-]*)(?:=([a-z0-9-]+(?:/[a-z0-9-]+)*))?")


@dataclass(frozen=True, slots=True)
class Term:
    """One look at one thing; `values` is empty for a branch test."""

    name: str
    values: frozenset[str]
    negated: bool = False


@dataclass(frozen=True, slots=True)
class Condition:
    """An `or` of `and`s of terms, and the text it was written as."""

    text: str
    either: tuple[tuple[Term, ...], ...]

    def __hash__(self) -> int:
        """That of the text, which is kept: a condition is looked up at every step of a walk."""
        return hash(self.text)

    @property
    def terms(self) -> tuple[Term, ...]:
        """All terms, in order."""
        return tuple(term for all_of in self.either for term in all_of)


def condition(text: str) -> Condition:
    """Parse one condition; raises ValueError with the part that cannot be read."""
    text = " ".join(text.split())
    either = (alternative.split(" and ") for alternative in text.split(" or "))
    return Condition(text, tuple(tuple(map(_term, parts)) for parts in either))


def _term(text: str) -> Term:
    """Parse one term."""
    found = TERM.fullmatch(text.strip())
    if not found or found[2] in ("and", "or", "not"):
        raise ValueError(text)
    return Term(found[2], frozenset(found[3].split("/") if found[3] else ()), bool(found[1]))
