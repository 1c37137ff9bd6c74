"""A part brought into the steps of a procedure: its steps, its facts and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.plain import N_
from guide.procedure.fields import Fields
from guide.procedure.parts import INCLUDE, NAME, WRITTEN_IN, place_in, written_in
from guide.procedure.problem import Place, Problem, problem
from guide.procedure.text import Node


@dataclass(frozen=True)
class Part:
    """What a part brings in, still as it is written."""

    rests_on: tuple[str, ...]
    facts: Node | None
    steps: tuple[Node, ...]


class Including:
    """Gives out the steps of a text with those of its parts in their places, one level deep."""

    def __init__(self, tree: Node, problems: list[Problem]) -> None:
        self.problems = problems
        self.nodes = written_in(tree)
        self.places = self._places(tree)
        self.brought_in: dict[str, Part] = {}
        self.first: dict[str, Place] = {}

    def written_out(self, steps: list[Node]) -> Iterator[Node]:
        """The steps of one stage, each part's in the place where it is included."""
        for node in steps:
            if isinstance(node.value, dict) and INCLUDE in node.value:
                yield from self._included(node)
            else:
                yield node

    def rests_on(self, own: tuple[str, ...]) -> tuple[str, ...]:
        """What the parts rest on besides what the procedure names itself, each once."""
        told = (each for part in self.brought_in.values() for each in part.rests_on)
        return tuple(dict.fromkeys(each for each in told if each not in own))

    def never_included(self) -> None:
        """Report the parts that stand below a text and that no stage includes."""
        for name, place in self.places.items():
            if name not in self.first:
                self._complain(place, N_("the part `{name}` is never included"), name=name)

    def _places(self, tree: Node) -> dict[str, Place]:
        """Where the parts begin in the kept text; `parts` has to be a mapping of them."""
        below = tree.value.get(WRITTEN_IN) if isinstance(tree.value, dict) else None
        return dict(Fields(self.problems, below).node.keys) if below else {}

    def _included(self, node: Node) -> tuple[Node, ...]:
        """The steps of the part that one line includes; none where it cannot be."""
        fields = Fields(self.problems, node)
        name, place = fields.text(INCLUDE), node.place
        fields.nothing_else()
        if name in self.first:
            self._complain(
                place,
                N_("the part `{name}` is included already on line {line}"),
                name=name,
                line=self.first[name].line,
            )
            return ()
        self.first[name] = place
        if name and not NAME.fullmatch(name):
            self._complain(
                place,
                N_("`{name}` cannot name a part: it is a word, or words joined by dashes"),
                name=name,
            )
            return ()
        if name not in self.nodes:
            if name:
                self._complain(place, N_("there is no part `{name}`"), name=name)
            return ()
        self.brought_in[name] = self._part(name, self.nodes[name])
        return self.brought_in[name].steps

    def _part(self, name: str, node: Node) -> Part:
        """One part; it is named as its file is, and includes no other."""
        fields = Fields(self.problems, node, name)
        called = fields.text("part")
        if called and called != name:
            fields.complain(
                node.value["part"].place if isinstance(node.value, dict) else node.place,
                N_("this part is called {called} and stands in {file}"),
                called=called,
                file=place_in(name),
            )
        fields.text("purpose")
        made = Part(
            tuple(word for word, _ in fields.words("rests-on", needed=True)),
            fields.left.pop("facts", None),
            tuple(self._own(fields)),
        )
        fields.nothing_else()
        return made

    def _own(self, fields: Fields) -> Iterator[Node]:
        """The steps that a part is written with."""
        for each in fields.items("steps", needed=True):
            if isinstance(each.value, dict) and INCLUDE in each.value:
                fields.complain(each.place, N_("a part includes no other part"))
            else:
                yield each

    def _complain(self, place: Place, sentence: str, **values: object) -> None:
        """Keep one problem."""
        self.problems.append(problem(place, sentence, "", **values))
