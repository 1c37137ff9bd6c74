"""Which answers stand on a page because of a thing, so that no other thing is taken for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guide.equipment.belongs import BAR, BELONGS, KINDS, NAMED_BY
from guide.equipment.register import known_as


class Lent:
    """Answers that were filled in and not given by anybody, by the kind of thing they belong to."""

    def __init__(self) -> None:
        self.lender: dict[str, str] = {}
        """By kind, the name of the thing that they are of."""
        self.answers: dict[str, dict[str, str]] = {}

    def lend(self, kind: str, lender: str, answers: Mapping[str, str]) -> None:
        """So much was filled in because of a thing."""
        self.lender[kind] = lender
        self.answers[kind] = self.answers.get(kind, {}) | dict(answers)

    def remember(self, given: Mapping[str, str]) -> None:
        """What stands there from an earlier setup is of the thing that it named."""
        for kind in KINDS:
            if lender := given.get(NAMED_BY[kind], ""):
                belongs = {name: given[name] for name in BELONGS[kind] if given.get(name)}
                self.lend(kind, lender, belongs)

    def renamed(self, told: Mapping[str, str]) -> Iterator[str]:
        """The kinds of which the page now names another thing; a bar has no name to be typed."""
        for kind, lender in tuple(self.lender.items()):
            name = told.get(NAMED_BY[kind])
            if kind != BAR and name is not None and known_as(name) != known_as(lender):
                yield kind

    def take_back(self, kind: str, told: Mapping[str, str]) -> list[str]:
        """What is to be asked again; an answer that somebody has changed since stays."""
        self.lender.pop(kind, None)
        lent = self.answers.pop(kind, {})
        return [name for name in BELONGS[kind] if name in lent and told.get(name) == lent[name]]
