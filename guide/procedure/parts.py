"""Parts that several procedures share: written once, and written into the text that is kept.

A part is a file `parts/NAME.yaml` beside the procedure, or else the shipped one of that name. What
is kept of a procedure is one text: its own, and below it, under `parts`, every part that it
includes. Reading that text looks at no file, so that a setup is replayed with the parts that it was
opened with, whatever has become of them since. A text that includes nothing is kept as it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.problem import Place, Unusable, problem
from guide.procedure.text import Node, parse
from guide.settings import shipped

INCLUDE = "include"
WRITTEN_IN = "parts"
"""The key under which parts stand in a text that is kept, and the folder that they stand in."""
NAME = re.compile(r"(?=.{1,60}\Z)[a-z]+(?:-[a-z]+)*")
"""A part's name is a word or words joined by dashes, short enough for a file, never a path."""
INDENT = 4
LINE_STARTS = re.compile("(\\A|\r\n|[\n\r\x85\u2028\u2029])(?=[^\n\r\x85\u2028\u2029])")
"""Wherever YAML begins a line that is not blank."""
MARKS = re.compile(r"---|\.\.\.|%")
"""What begins or ends a document of its own."""


def with_parts(text: str, path: Path) -> str:
    """A procedure's text as it is kept: with every part that it includes written in below.

    Raises `Unusable` where the text or a part is not plain YAML, `BadInput` for a part that is
    there and cannot be read.
    """
    if INCLUDE not in text:
        return text
    tree = parse(text, path.name)
    if WRITTEN_IN in tree.keys:
        stands = tree.keys[WRITTEN_IN]
        told = problem(stands, N_("a part stands in a file of its own, not under `parts`"))
        raise Unusable(path.name, (told,))
    files = {name: _file(name, path.parent) for name in _included(tree) if NAME.fullmatch(name)}
    there = {name: _text(name, file) for name, file in files.items() if file.is_file()}
    return _written_in(text, there) if there else text


def purpose_of(path: Path) -> str:
    """What the part in a file is for; blank where the file does not say, or cannot be read."""
    try:
        tree = parse(path.read_text(encoding="utf-8"), path.name)
    except (OSError, ValueError, Unusable):
        return ""
    told = tree.value.get("purpose") if isinstance(tree.value, dict) else None
    return told.value if told and isinstance(told.value, str) else ""


def place_in(name: str) -> str:
    """How a part's file is named in problems: never by the folder that it happens to lie in."""
    return f"{WRITTEN_IN}/{name}.yaml"


def written_in(tree: Node) -> dict[str, Node]:
    """The parts of a kept text by name, every place in them counted in the part's own file."""
    below = tree.value.get(WRITTEN_IN) if isinstance(tree.value, dict) else None
    if below is None or not isinstance(below.value, dict):
        return {}
    return {
        name: _moved(each, below.keys[name].line, place_in(name))
        for name, each in below.value.items()
    }


def _included(tree: Node) -> Iterator[str]:
    """The names after `include` in the lists of steps."""
    for stage in _list(tree, "stages"):
        for step in _list(stage, "steps"):
            name = step.value.get(INCLUDE) if isinstance(step.value, dict) else None
            if name is not None and isinstance(name.value, str):
                yield name.value


def _list(node: Node, key: str) -> list[Node]:
    """The list under a key, empty where there is none."""
    found = node.value.get(key) if isinstance(node.value, dict) else None
    return found.value if found is not None and isinstance(found.value, list) else []


def _file(name: str, folder: Path) -> Path:
    """The part beside the procedure, else the shipped one."""
    own = folder / WRITTEN_IN / f"{name}.yaml"
    return own if own.is_file() else shipped("procedures") / WRITTEN_IN / f"{name}.yaml"


def _text(name: str, file: Path) -> str:
    """The text of a part that is plain YAML when it stands by itself."""
    try:
        text = file.read_text(encoding="utf-8").removeprefix("\ufeff")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(
            N_("{path} cannot be read ({why})."), N_("Mend the part."), path=file, why=error
        ) from None
    try:
        parse(text, place_in(name))
    except Unusable as found:
        told = (replace(each, place=_at(each.place, place_in(name))) for each in found.problems)
        raise Unusable(place_in(name), tuple(told)) from None
    for number, line in enumerate(text.splitlines(), start=1):
        if MARKS.match(line):
            marked = Place(number, 1, place_in(name))
            told_mark = problem(marked, N_("a part is one plain document; leave this mark out"))
            raise Unusable(place_in(name), (told_mark,))
    return text


def _at(place: Place, file: str) -> Place:
    """A place in another file."""
    return Place(place.line, place.column, file)


def _written_in(text: str, parts: Mapping[str, str]) -> str:
    """Own text first, so that its lines keep their numbers; then each part, indented."""
    own = text if text.endswith("\n") else f"{text}\n"
    below = (f"  {name}:\n{_indented(each)}" for name, each in parts.items())
    return f"{own}{WRITTEN_IN}:\n{''.join(below)}"


def _indented(text: str) -> str:
    """A part's text moved to the right as a whole."""
    moved = LINE_STARTS.sub(lambda found: found[1] + " " * INDENT, text)
    return moved if moved.endswith("\n") else f"{moved}\n"


def _moved(node: Node, above: int, file: str) -> Node:
    """A node whose places count from the line behind its part's name."""

    def there(place: Place) -> Place:
        return Place(max(1, place.line - above), max(1, place.column - INDENT), file)

    value: str | list[Node] | dict[str, Node] = node.value
    if isinstance(value, list):
        value = [_moved(each, above, file) for each in value]
    elif isinstance(value, dict):
        value = {key: _moved(each, above, file) for key, each in value.items()}
    return Node(value, there(node.place), {key: there(at) for key, at in node.keys.items()})
