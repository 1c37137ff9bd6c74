"""The lines of the setup sheet: what was done, one line each."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One event as the sheet and every printed record show it."""

    sequence: int
    at: str
    """UTC as stored."""
    person: str
    stage: str
    """The stage's title, blank for an event that belongs to none."""
    title: str
    """The step's title, or what happened (paused, taken over, made sure …)."""
    value: str
    """What was entered or worked out, short: readings, torque, verdict, decision, what was seen."""
    note: str
    """A mark that must not be missed: faster than it can be read, changed from recorded, left."""
