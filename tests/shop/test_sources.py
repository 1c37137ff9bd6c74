"""Every figure of the shop says where it comes from, and every example runs."""

from __future__ import annotations

import ast
import doctest
import re
from importlib import import_module
from pathlib import Path

import pytest

import guide.shop
from guide.shop.published import TABLES, rows, source_line
from guide.shop.sources import SOURCES

FOLDER = Path(guide.shop.__file__).parent
MODULES = sorted(path.stem for path in FOLDER.glob("*.py") if path.stem != "__init__")
CALCULATORS = {
    "lift": "lift",
    "torque": "torque",
    "weight": "weight",
    "threads": "stress_area",
    "tightening": "stages",
    "engagement": "least_engagement",
    "sling": "sling",
    "balance": "balance",
    "speed": "speed",
    "fit": "fit",
    "nose": "nose",
    "cradle": "cradle",
    "bar": "bar",
    "lift_duration": "sessions",
}


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    """The examples in the docstrings give what they show."""
    assert doctest.testmod(import_module(f"guide.shop.{name}")).failed == 0


@pytest.mark.parametrize(("module", "function"), CALCULATORS.items())
def test_each_calculator_has_an_example(module: str, function: str) -> None:
    """A calculator can be tried from its docstring."""
    assert ">>>" in getattr(import_module(f"guide.shop.{module}"), function).__doc__


def test_every_source_is_cited() -> None:
    """Each key of the bibliography stands in back ticks by a figure or in a table's line one."""
    files = [path for path in FOLDER.glob("*.py") if path.stem != "sources"]
    files += TABLES.glob("*.csv")
    text = "".join(path.read_text(encoding="utf-8") for path in files)
    cited = set(re.findall(r"`([a-z0-9-]+)`", text))
    assert SOURCES.keys() - cited == set()


@pytest.mark.parametrize("path", sorted(TABLES.glob("*.csv")), ids=lambda path: path.stem)
def test_a_table_cites_only_known_sources(path: Path) -> None:
    """Every key in a table's line one is in the bibliography."""
    cited = re.findall(r"`([a-z0-9-]+)`", source_line(path.stem))
    assert cited
    assert set(cited) <= SOURCES.keys()


@pytest.mark.parametrize("key", SOURCES)
def test_a_source_says_how_it_was_seen(key: str) -> None:
    """One of five marks, and it shows in the printed line."""
    assert str(SOURCES[key]).endswith(SOURCES[key].how)


@pytest.mark.parametrize("path", sorted(TABLES.glob("*.csv")), ids=lambda path: path.stem)
def test_a_table_names_its_source_in_line_one(path: Path) -> None:
    """Each table says where it comes from and how it was seen, and has no empty cell."""
    assert re.search(r"transcribed|seen|from memory", source_line(path.stem))
    assert path.read_text(encoding="utf-8").startswith("# ")
    assert all(cell for row in rows(path.stem) for cell in row.values())


@pytest.mark.parametrize("name", MODULES)
def test_everything_public_has_a_sentence(name: str) -> None:
    """Modules, classes and functions without a leading underscore have a docstring."""
    tree = ast.parse((FOLDER / f"{name}.py").read_text(encoding="utf-8"))
    nodes = [tree, *(n for n in ast.walk(tree) if isinstance(n, ast.ClassDef | ast.FunctionDef))]
    bare = [getattr(n, "name", name) for n in nodes if not ast.get_docstring(n)]
    assert [each for each in bare if not each.startswith("__")] == []
