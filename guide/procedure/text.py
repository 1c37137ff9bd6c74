"""YAML text into plain nodes that know their line and column: the only import of yaml.

Every scalar stays text as typed (`on` stays `on`, `0.010` keeps its zero, `1:30` is not 90).
Refused: a repeated key, an anchor or alias, a tag, more than one document, text too long or
nested too deep.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any, NoReturn

from guide.plain import N_
from guide.procedure.problem import Place, Unusable, problem

LONGEST = 2_000_000
"""Characters in one file."""
DEEPEST = 20
"""Levels of nesting."""


@dataclass(frozen=True, slots=True)
class Node:
    """A scalar (str), a list of nodes, or a mapping of str to node, and where it stands."""

    value: str | list[Node] | dict[str, Node]
    place: Place
    keys: dict[str, Place]
    """Where each key of a mapping stands."""


def parse(text: str, file: str) -> Node:
    """The tree of one YAML document; raises `Unusable` naming the line."""
    import yaml

    if len(text) > LONGEST:
        _refuse(file, Place(1, 1), N_("the file is too long ({n} characters)"), n=len(text))
    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    try:
        events = yaml.parse(text, Loader=loader)
        next(events)
        if isinstance(next(events), yaml.StreamEndEvent):
            _refuse(file, Place(1, 1), N_("the file is empty"))
        tree = _node(events, next(events), file, 0)
        next(events)
        if not isinstance(extra := next(events), yaml.StreamEndEvent):
            _refuse(file, _place(extra), N_("only one document in a file"))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Place(mark.line + 1, mark.column + 1) if mark else Place(1, 1)
        _refuse(file, place, N_("not YAML here: {why}"), why=error.problem or error.context)
    except yaml.YAMLError as error:
        why = str(error).splitlines()[0]
        _refuse(file, Place(1, 1), N_("not YAML: {why}"), why=why)
    return tree


def word_at_top(text: str, key: str) -> str:
    """The scalar under a key of the outermost mapping, read no further; blank where it is none."""
    import yaml

    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    try:
        events = yaml.parse(text, Loader=loader)
        if not any(isinstance(each, yaml.MappingStartEvent) for each in islice(events, 3)):
            return ""
        while isinstance(event := next(events), yaml.ScalarEvent):
            value = _node(events, next(events), "", 1).value
            if event.value == key:
                return value if isinstance(value, str) else ""
    except (yaml.YAMLError, Unusable):
        pass
    return ""


def _node(events: Iterator[Any], event: Any, file: str, depth: int) -> Node:
    """One node from its first event on."""
    import yaml

    place = _place(event)
    if depth > DEEPEST:
        _refuse(file, place, N_("nested too deep"))
    if isinstance(event, yaml.AliasEvent) or event.anchor:
        _refuse(file, place, N_("anchors and aliases are not used here; write it out"))
    if event.tag:
        _refuse(file, place, N_("the tag {tag} is not used here"), tag=event.tag)
    if isinstance(event, yaml.ScalarEvent):
        return Node(event.value, place, {})
    if isinstance(event, yaml.SequenceStartEvent):
        return Node(list(_items(events, file, depth)), place, {})
    return _mapping(events, place, file, depth)


def _items(events: Iterator[Any], file: str, depth: int) -> Iterator[Node]:
    """The nodes of a list."""
    import yaml

    while not isinstance(event := next(events), yaml.SequenceEndEvent):
        yield _node(events, event, file, depth + 1)


def _mapping(events: Iterator[Any], place: Place, file: str, depth: int) -> Node:
    """A mapping; a repeated key is refused at its second place."""
    import yaml

    pairs: dict[str, Node] = {}
    keys: dict[str, Place] = {}
    while not isinstance(event := next(events), yaml.MappingEndEvent):
        key = _node(events, event, file, depth + 1)
        if not isinstance(key.value, str):
            _refuse(file, key.place, N_("a key must be a word"))
        if key.value in pairs:
            _refuse(
                file,
                key.place,
                N_("the key {key} stands here a second time (first on line {first})"),
                key=key.value,
                first=keys[key.value].line,
            )
        keys[key.value] = key.place
        pairs[key.value] = _node(events, next(events), file, depth + 1)
    return Node(pairs, place, keys)


def _place(event: Any) -> Place:
    """Where an event begins."""
    return Place(event.start_mark.line + 1, event.start_mark.column + 1)


def _refuse(file: str, place: Place, sentence: str, **values: object) -> NoReturn:
    """Stop at the first thing that is not a tree at all."""
    raise Unusable(file, (problem(place, sentence, "", **values),))
