"""The catalogue of sentences is the one that the code has."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

TOP = Path(__file__).parents[2]
KEYWORDS = {"N_": None, "say": None}


def test_the_catalogue_holds_every_sentence_and_no_other() -> None:
    """Extracting again changes nothing."""
    found = Catalog()
    for _, _, message, _, _ in extract_from_dir(str(TOP / "guide"), keywords=KEYWORDS):
        if message:
            found.add(message)
    with (TOP / "locales" / "spindleside.pot").open("rb") as file:
        kept = read_po(file)
    assert {each.id for each in found if each.id} == {each.id for each in kept if each.id}


def marked() -> Iterator[str]:
    """Every sentence that the code marks, wherever it stands."""
    for path in (TOP / "guide").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                first = node.args[0] if node.args else None
                if node.func.id == "N_" and isinstance(first, ast.Constant):
                    yield str(first.value)


def test_no_marked_sentence_is_missed_by_the_extraction() -> None:
    """The extractor overlooks some that stand inside another call; those are moved out."""
    with (TOP / "locales" / "spindleside.pot").open("rb") as file:
        kept = {each.id for each in read_po(file)}
    assert set(marked()) <= kept
