"""The floors hold in a fresh interpreter, not only in what the linter reads."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
FLOORS = (
    ("guide.plain", "guide.settings"),
    ("guide.procedure", "guide.measure", "guide.shop", "guide.journal"),
    ("guide.walk",),
    ("guide.present",),
    ("guide.records", "guide.rehearse", "guide.practice"),
    ("guide.screens",),
    ("guide.cli",),
)
"""From the lowest up; rooms on one line do not know each other."""
DOORS = {
    "yaml": "guide.procedure.text",
    "sqlite3": "guide.journal",
    "transitions": "guide.walk.machine",
    "textual": "guide.screens",
    "rich": "guide.screens",
}
"""The one room that each outside library comes in by."""

LOOK = """
import json, sys
from importlib import import_module
found = {}
import_module(sys.argv[1])
print(json.dumps(sorted(sys.modules)))
"""


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


def loaded_by(module: str) -> list[str]:
    """What a fresh interpreter has loaded after importing one module."""
    said = subprocess.run(
        [sys.executable, "-c", LOOK, module], capture_output=True, check=True, cwd=TOP, text=True
    )
    names: list[str] = json.loads(said.stdout)
    return names


def test_every_module_has_its_room() -> None:
    """No module stands outside the house."""
    assert [name for name in modules() if room(name)[0] < 0] == ["guide"]


@pytest.mark.parametrize("module", [name for name in modules() if name != "guide"])
def test_a_module_loads_no_higher_floor_and_no_neighbour(module: str) -> None:
    """Importing it alone loads lower floors and its own room only, each library by its door."""
    floor, own = room(module)
    for name in loaded_by(module):
        other, neighbour = room(name)
        if name.startswith("guide."):
            assert other < floor or neighbour == own, f"{module} loads {name}"
        door = DOORS.get(name.split(".")[0])
        allowed = floor >= room(door)[0] if door else True
        assert allowed, f"{module} loads {name}"
