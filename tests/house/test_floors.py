"""The floors hold in a fresh interpreter, not only in what the linter reads."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
FLOORS = (
    ("guide.plain", "guide.settings", "guide.roles"),
    ("guide.procedure", "guide.measure", "guide.shop", "guide.journal"),
    ("guide.walk", "guide.people", "guide.equipment", "guide.instruments"),
    ("guide.present",),
    ("guide.records", "guide.rehearse", "guide.practice"),
    ("guide.front",),
    ("guide.screens", "guide.linear"),
    ("guide.serve",),
    ("guide.cli",),
)
"""From the lowest up; rooms on one line do not know each other."""
DOORS = {
    "yaml": "guide.procedure.text",
    "sqlite3": "guide.journal",
    "transitions": "guide.walk.machine",
    "textual": "guide.screens",
    "rich": "guide.screens",
    "aiohttp": "guide.serve",
    "textual_serve": "guide.serve",
}
"""The one room that each outside library comes in by."""

LOOK = """
import json, os, sys
from importlib import import_module

for each in sys.argv[1:]:
    import_module(each)
for line in sys.stdin:
    if os.fork() == 0:
        import_module(line.strip())
        print(json.dumps(sorted(sys.modules)), flush=True)
        os._exit(0)
    _, status = os.wait()
    if status:
        print(json.dumps(None), flush=True)
"""
"""A fresh interpreter with nothing of the program in it; each module is loaded in a fork of it."""
BEFORE = ("rich", "textual.app", "textual.widgets")
"""What is loaded before, for modules that may load it themselves: it takes longest."""


def modules() -> list[str]:
    """Every module of the program."""
    files = (TOP / "guide").rglob("*.py")
    names = (file.relative_to(TOP).with_suffix("").as_posix().replace("/", ".") for file in files)
    return sorted(name.removesuffix(".__init__") for name in names)


def room(module: str) -> tuple[int, str]:
    """The floor and the room of a module; the package itself lies below all of them."""
    for number, rooms in enumerate(FLOORS):
        for each in rooms:
            if module == each or module.startswith(f"{each}."):
                return number, each
    return -1, module


def may_load(module: str, library: str) -> bool:
    """Whether a module stands in the room that a library comes in by, or on a floor above it."""
    (floor, own), (door_floor, door) = room(module), room(DOORS[library])
    return own == door or floor > door_floor


@pytest.fixture(scope="module")
def loaded_by(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[str], list[str]]]:
    """What a fresh interpreter has loaded after importing one module; compiled code is kept."""
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    kept |= {"PYTHONPYCACHEPREFIX": str(tmp_path_factory.mktemp("compiled"))}
    fresh: dict[bool, subprocess.Popen[str]] = {}
    with ExitStack() as stack:

        def loaded(module: str) -> list[str]:
            on_screen = may_load(module, "textual")
            if on_screen not in fresh:
                fresh[on_screen] = stack.enter_context(interpreter(on_screen, kept))
            print(module, file=fresh[on_screen].stdin, flush=True)
            names: list[str] | None = json.loads(fresh[on_screen].stdout.readline())
            assert names is not None, f"{module} cannot be imported"
            return names

        yield loaded


def interpreter(on_screen: bool, environment: dict[str, str]) -> subprocess.Popen[str]:
    """A fresh interpreter that is told modules and says what each has loaded."""
    command, pipe = [sys.executable, "-c", LOOK, *(BEFORE if on_screen else ())], subprocess.PIPE
    return subprocess.Popen(command, stdin=pipe, stdout=pipe, cwd=TOP, text=True, env=environment)


def test_every_module_has_its_room() -> None:
    """No module stands outside the house."""
    assert [name for name in modules() if room(name)[0] < 0] == ["guide"]


@pytest.mark.parametrize("module", [name for name in modules() if name != "guide"])
def test_a_module_loads_no_higher_floor_and_no_neighbour(
    module: str, loaded_by: Callable[[str], list[str]]
) -> None:
    """Importing it alone loads lower floors and its own room only, each library by its door."""
    floor, own = room(module)
    for name in loaded_by(module):
        other, neighbour = room(name)
        if name.startswith("guide."):
            assert other < floor or neighbour == own, f"{module} loads {name}"
        library = name.split(".")[0]
        assert library not in DOORS or may_load(module, library), f"{module} loads {name}"
