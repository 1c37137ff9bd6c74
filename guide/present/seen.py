"""An event of a setup with what surrounds it."""

from __future__ import annotations

from dataclasses import dataclass

from guide.procedure.model import Step
from guide.walk.state import Entry, State


@dataclass(frozen=True, slots=True)
class Seen:
    """An entry with what surrounds it."""

    entry: Entry
    step: Step | None
    """The step that it did, or None where it belongs to none."""
    before: State
    after: State
