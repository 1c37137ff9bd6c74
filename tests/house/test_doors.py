"""Each outside library comes in by one door, and floors hold for what is imported late too.

Read from the source, as an import inside a function is not seen when a module is loaded.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
FILES = sorted((TOP / "guide").rglob("*.py"))
DOORS = {
    "yaml": ("guide.procedure.text",),
    "sqlite3": ("guide.journal.store",),
    "transitions": ("guide.walk.machine",),
    "textual": ("guide.screens",),
    "rich": ("guide.screens", "guide.cli"),
    "babel": ("guide.present", "guide.measure.numerals"),
    "platformdirs": ("guide.settings",),
    "cryptography": ("guide.journal.keys",),
    "reportlab": ("guide.records.pdf",),
    "segno": ("guide.records.qr",),
    "aiohttp": ("guide.serve",),
    "textual_serve": ("guide.serve",),
    "fontTools": ("guide.records.outline",),
    "serial": ("guide.instruments.port",),
    "numpy": (),
    "scipy": (),
}
"""Modules or rooms that may import a library; numpy and scipy are for tests only."""
FLOOR = {
    "plain": 0, "settings": 0, "roles": 0, "procedure": 1, "measure": 1, "shop": 1, "journal": 1,
    "walk": 2, "people": 2, "equipment": 2, "instruments": 2, "present": 3, "records": 4,
    "rehearse": 4, "practice": 4, "front": 5, "screens": 6, "linear": 6, "serve": 7, "cli": 8,
}  # fmt: skip


def dotted(file: Path) -> str:
    """The name that a module is imported by."""
    parts = file.relative_to(TOP).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def imported(file: Path) -> tuple[str, ...]:
    """Everything that a file imports, wherever in the file it does so; each file is read once."""
    return tuple(_imported(file))


def _imported(file: Path) -> Iterator[str]:
    """The same, one after the other."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file} imports by dots"
            yield str(node.module)
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def is_in(module: str, rooms: tuple[str, ...]) -> bool:
    """Whether a module is one of some rooms or stands in one."""
    return any(module == each or module.startswith(f"{each}.") for each in rooms)


@pytest.mark.parametrize("library", DOORS)
def test_a_library_comes_in_by_its_own_door(library: str) -> None:
    """Nowhere else is it imported, early or late."""
    users = {dotted(f) for f in FILES if any(is_in(name, (library,)) for name in imported(f))}
    assert not {each for each in users if not is_in(each, DOORS[library])}


def test_no_room_imports_a_higher_floor_or_a_neighbour_even_late() -> None:
    """A room asks lower floors and itself; two rooms on one floor do not know each other."""
    for file in FILES:
        own = dotted(file).split(".")[1:2]
        for name in imported(file):
            room = name.split(".")[1:2] if name.startswith("guide.") else []
            if own and room and room != own and room[0] in FLOOR:
                assert FLOOR[room[0]] < FLOOR[own[0]], f"{dotted(file)} imports {name}"


def test_nothing_is_evaluated_and_only_the_command_line_picks_a_module_by_name() -> None:
    """No import is hidden from this test but that of a command, which stands beside its picker."""
    for file in FILES:
        called = {
            node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
            if isinstance(node, ast.Call)
        }
        allowed = {"import_module"} if dotted(file) == "guide.cli.lazily" else set()
        assert not called & {"eval", "exec", "__import__", "import_module"} - allowed, file
