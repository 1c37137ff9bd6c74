"""The procedures that are there: shipped ones, found by name."""

from __future__ import annotations

from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.load import load
from guide.procedure.model import Procedure
from guide.settings import shipped


def files() -> tuple[Path, ...]:
    """Every shipped procedure file, by name."""
    return tuple(sorted(shipped("procedures").glob("*.yaml")))


def find(name: str) -> Procedure:
    """The procedure of that name, or in the file of that path; raises `BadInput`."""
    if name.endswith((".yaml", ".yml")):
        return load(Path(name))
    path = shipped("procedures") / f"{name}.yaml"
    if path not in files():
        raise BadInput(
            N_("There is no procedure called {name}."),
            N_("These are here: {names}."),
            name=name,
            names=", ".join(each.stem for each in files()),
        )
    return load(path)
