"""What the inks of a drawing are on this screen: tokens of the theme and nothing else."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from contextvars import ContextVar
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from textual.content import Content

from guide.present.canvas import PAPER, Row, Rows
from guide.present.drawing_style import drawing_style

INKS: Mapping[str, str] = {
    "body": "$panel",
    "rim": "$primary",
    "jaw": "$quiet",
    "bar": "$secondary",
    "bore": "$background",
    "screw": "$foreground",
    "under": "$accent",
    "plunger": "$accent",
    "high": "$warning",
    "tighten": "$accent",
    "ease": "$primary",
    "point": "$foreground",
    "again": "$accent",
    "curve": "$primary",
    "guess": "$quiet",
    "fill": "$panel",
    "left": "$secondary",
    "zero": "$quiet",
    "axis": "$quiet",
    PAPER: "$background",
}
"""The token of every ink."""
LINES = frozenset({"curve", "guess", "rim", "left", "zero"})
"""Inks of lines: a sign that stands on one is drawn on paper, or it could not be seen."""


@dataclass(slots=True)
class Drawn:
    """How one program draws: the same for all its tasks, which each copied their context."""

    colours: bool = True
    """False where the screens have no colours: drawings then have only signs."""


DRAWN: ContextVar[Drawn] = ContextVar("drawn")
STRONG = frozenset({"screw", "under", "high", "tighten", "ease", "plunger", "point", "again"})
"""Inks that are written in bold, so that they stand out where there are no colours."""


def style_here(environ: Mapping[str, str] | None = None, encoding: str | None = None) -> str:
    """How drawings are made on this terminal."""
    env = os.environ if environ is None else environ
    env = env if DRAWN.get(Drawn()).colours else {**env, "NO_COLOR": "1"}
    written_in = getattr(sys.__stdout__, "encoding", None) if encoding is None else encoding
    return drawing_style(env, written_in or "utf-8")


def content(rows: Rows) -> Content:
    """Rows of cells as the screen shows them."""
    return Content("\n").join(map(line, rows))


@lru_cache(maxsize=1024)
def line(row: Row) -> Content:
    """One row; cells in the same inks go together, and a row that stands is not made again."""
    runs = groupby(row, key=lambda cell: (cell.ink, cell.ground))
    return Content.assemble(
        *(("".join(cell.sign for cell in cells), style(*inks)) for inks, cells in runs)
    )


def style(ink: str, ground: str) -> str:
    """The style of a sign in one ink on another."""
    ground = PAPER if ink in STRONG and ground in LINES else ground
    parts = ["bold"] if ink in STRONG else []
    parts += [INKS[ink]] if ink else []
    return " ".join([*parts, f"on {INKS[ground]}"] if ground else parts)
