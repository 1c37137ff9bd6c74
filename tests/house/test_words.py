"""Names and sentences of the house."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
FILES = sorted((TOP / "guide").rglob("*.py"))
ALL = sorted(
    file
    for folder in ("guide", "procedures", "tests", "locales")
    for file in (TOP / folder).rglob("*")
    if file.suffix in (".py", ".yaml", ".tcss", ".md", ".csv", ".pot")
)


def public(tree: ast.Module) -> Iterator[ast.FunctionDef | ast.ClassDef | ast.AsyncFunctionDef]:
    """Public functions and classes, and the public methods of public classes."""
    for each in tree.body:
        if isinstance(each, ast.FunctionDef | ast.ClassDef | ast.AsyncFunctionDef):
            if each.name.startswith("_"):
                continue
            yield each
            for part in each.body if isinstance(each, ast.ClassDef) else ():
                is_one = isinstance(part, ast.FunctionDef | ast.AsyncFunctionDef)
                if is_one and not part.name.startswith("_"):
                    yield part


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(TOP)))
def test_everything_public_says_what_it_is(file: Path) -> None:
    """Modules, classes and functions open with one sentence."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree), file
    silent = [each.name for each in public(tree) if not ast.get_docstring(each)]
    assert not silent


def test_no_room_is_called_after_nothing() -> None:
    """A name says what is inside."""
    names = {part for file in FILES for part in file.relative_to(TOP).with_suffix("").parts}
    assert not names & {"utils", "util", "helpers", "helper", "manager", "info", "misc", "common"}


def test_nothing_is_left_open_in_the_code() -> None:
    """No note to oneself is handed over."""
    note = re.compile(r"\b(?:TO" + r"DO|FIX" + r"ME|XX" + r"X)\b")
    assert not [str(f) for f in ALL if note.search(f.read_text(encoding="utf-8"))]


def test_no_path_of_one_machine_is_named() -> None:
    """The project runs anywhere."""
    path = re.compile(r"/(?:w[o]rk|r[o]ot|h[o]me/[a-z]+)/")
    assert not [str(f) for f in ALL if path.search(f.read_text(encoding="utf-8"))]
