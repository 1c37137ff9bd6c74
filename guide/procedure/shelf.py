"""The procedures that are there: shipped ones and the shop's own, found by name."""

from __future__ import annotations

from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.load import load
from guide.procedure.model import Procedure
from guide.settings import own_procedures, shipped


def shipped_files() -> tuple[Path, ...]:
    """Every shipped procedure file, by name."""
    return tuple(sorted(shipped("procedures").glob("*.yaml")))


def files() -> tuple[Path, ...]:
    """Every procedure file, the shipped ones first, whose names no other file can take."""
    there = shipped_files()
    names = {path.stem for path in there}
    own = sorted(own_procedures().glob("*.yaml"))
    return (*there, *(path for path in own if path.stem not in names))


def is_shipped(name: str) -> bool:
    """Whether a name is that of a shipped procedure, and no file's path."""
    return name in {path.stem for path in shipped_files()}


def find(name: str) -> Procedure:
    """The procedure of that name, or in the file of that path; raises `BadInput`."""
    if name.endswith((".yaml", ".yml")):
        return load(Path(name))
    path = next((each for each in files() if each.stem == name), None)
    if path is None:
        raise BadInput(
            N_("There is no procedure called {name}."),
            N_("These are here: {names}."),
            name=name,
            names=", ".join(each.stem for each in files()),
        )
    return load(path)
