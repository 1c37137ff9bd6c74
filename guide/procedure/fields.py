"""One mapping of a procedure file: its keys given out, and those that nobody asked for."""

from __future__ import annotations

from collections.abc import Iterable

from guide.plain import N_
from guide.procedure.condition import Condition, condition
from guide.procedure.model import Doing
from guide.procedure.problem import Place, Problem, problem
from guide.procedure.text import Node


class Fields:
    """One mapping of the file: gives out its keys and reports those that nobody asked for."""

    def __init__(self, problems: list[Problem], node: Node, step: str = "") -> None:
        self.problems = problems
        self.node = node
        self.step = step
        self.left: dict[str, Node] = {}
        if isinstance(node.value, dict):
            self.left = dict(node.value)
        else:
            self.complain(node.place, N_("a mapping of `key: value` lines is wanted here"))

    def complain(self, place: Place, sentence: str, **values: object) -> None:
        """Keep one problem."""
        self.problems.append(problem(place, sentence, self.step, **values))

    def where(self, key: str) -> Place:
        """The place of a key, or of the mapping when it is not there."""
        return self.node.keys.get(key, self.node.place)

    def text(self, key: str, default: str | None = None, among: Iterable[str] = ()) -> str:
        """A scalar; without a default it has to be there, and with `among` to be one of them."""
        node = self.left.pop(key, None)
        if node is None:
            if default is None:
                self.complain(self.node.place, N_("`{key}` is missing"), key=key)
            return default or ""
        if not isinstance(node.value, str):
            self.complain(node.place, N_("`{key}` must be one piece of text"), key=key)
            return ""
        value = " ".join(node.value.split()) if "\n" not in node.value else node.value.strip()
        if default is None and not value:
            self.complain(node.place, N_("`{key}` is empty"), key=key)
        allowed = tuple(among)
        if allowed and value not in allowed:
            self.complain(
                node.place,
                N_("`{key}: {value}` is not known; it may be {allowed}"),
                key=key,
                value=value,
                allowed=", ".join(filter(None, allowed)),
            )
        return value

    def items(self, key: str, needed: bool = False) -> list[Node]:
        """A list of nodes; a lone scalar counts as a list of one."""
        node = self.left.pop(key, None)
        if node is None:
            if needed:
                self.complain(self.node.place, N_("`{key}` is missing"), key=key)
            return []
        if isinstance(node.value, dict):
            self.complain(node.place, N_("`{key}` must be a list"), key=key)
            return []
        if isinstance(node.value, str):
            return [node] if node.value.strip() else []
        if needed and not node.value:
            self.complain(node.place, N_("`{key}` is empty"), key=key)
        return node.value

    def words(self, key: str, needed: bool = False) -> tuple[tuple[str, Place], ...]:
        """A list of scalars with their places."""
        found = []
        for node in self.items(key, needed):
            if isinstance(node.value, str):
                found.append((" ".join(node.value.split()), node.place))
            else:
                self.complain(node.place, N_("`{key}` must be a list of plain words"), key=key)
        return tuple(found)

    def condition(self, text: str, place: Place) -> Condition | None:
        """A condition, or a problem where it cannot be read."""
        try:
            return condition(text)
        except ValueError as error:
            self.complain(
                place,
                N_("`{part}` is not a condition; write `name=value`, joined by and/or"),
                part=error,
            )
            return None

    def one_condition(self, key: str) -> Condition | None:
        """The condition under a key, if it is there."""
        place = self.left[key].place if key in self.left else self.node.place
        text = self.text(key, "")
        return self.condition(text, place) if text else None

    def conditions(self, key: str) -> tuple[Condition, ...]:
        """A list of conditions."""
        made = (self.condition(text, place) for text, place in self.words(key))
        return tuple(each for each in made if each)

    def doings(self, key: str) -> tuple[Doing, ...]:
        """A list of actions, each perhaps with `if` and a condition behind it."""
        found = []
        for text, place in self.words(key):
            action, _, only_if = text.partition(" if ")
            found.append(Doing(action, self.condition(only_if, place) if only_if else None, place))
        return tuple(found)

    def nothing_else(self) -> None:
        """Report the keys that nobody asked for."""
        for key in self.left:
            self.complain(self.where(key), N_("`{key}` is not a key here"), key=key)
