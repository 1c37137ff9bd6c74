"""The procedures that are there: shipped ones and the shop's own, found by name."""

from __future__ import annotations

from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.load import load
from guide.procedure.model import Procedure
from guide.procedure.parts import WRITTEN_IN, purpose_of
from guide.procedure.text import word_at_top
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


def parts() -> dict[str, str]:
    """Every part that a procedure of one's own may include, with what it is for.

    A shop's own of the same name stands in place of the shipped one, as it does where it is used.
    """
    folders = (shipped("procedures"), own_procedures())
    found = {
        path.stem: path for each in folders for path in sorted((each / WRITTEN_IN).glob("*.yaml"))
    }
    return {name: purpose_of(path) for name, path in sorted(found.items())}


def is_shipped(name: str) -> bool:
    """Whether a name is that of a shipped procedure, and no file's path."""
    return name in {path.stem for path in shipped_files()}


def title_of(text: str) -> str:
    """The title of a procedure by its text, however old; blank where the text has none."""
    return word_at_top(text, "title")


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
