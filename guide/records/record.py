"""The record of one setup as frozen text: what every printed and portable form shows."""

from __future__ import annotations

from dataclasses import dataclass

from guide.present.sheet import Line


@dataclass(frozen=True, slots=True)
class Answer:
    """One fact of the setup."""

    name: str
    ask: str
    answer: str
    before: str
    """What it was before somebody corrected it, blank where nobody did."""


@dataclass(frozen=True, slots=True)
class Gate:
    """A gate that was acknowledged."""

    sequence: int
    at: str
    person: str
    title: str
    checks: tuple[str, ...]
    """What each check said, in order; each was confirmed by its own number."""
    seconds: str
    """How long it took, blank where nothing told."""
    note: str
    """Filled where it was acknowledged faster than it can be read."""


@dataclass(frozen=True, slots=True)
class Result:
    """One turn of readings and what it came to, every figure with its unit."""

    what: str
    """As found, as mounted, after a round …"""
    sequence: int
    at: str
    person: str
    readings: str
    """As typed, each behind its angle."""
    judged: str
    uncertainty: str
    """U at k = 2, blank where it could not be worked out."""
    at_most: str
    """Near zero, where the figure reads high: what it is below at 95 %."""
    tolerance: str
    verdict: str
    rule: str
    """The decision rule and its factor."""
    high: str
    """Where the high spot is, blank where nothing is off centre."""
    flags: str
    """What a person must know about it."""
    stands: str
    """That it stands, or which event voided it; blank where it was read before all was tight."""


@dataclass(frozen=True, slots=True)
class Record:
    """One setup; all text is safe to show, and what is not known is blank."""

    setup: str
    procedure: str
    title: str
    revision: str
    text: str
    """The digest of the procedure text that was walked."""
    head: str
    """The digest of the last event as it is stored."""
    events: int
    marks: tuple[str, ...]
    """What every page says for ever: practice, rehearsal, not from a terminal, does not verify."""
    place: str
    """Finished, abandoned, or where it stands."""
    opened_at: str
    last_at: str
    people: tuple[str, ...]
    answers: tuple[Answer, ...]
    results: tuple[Result, ...]
    rules: tuple[str, ...]
    """The decision rules that were used, each with its edition."""
    body_runout: str
    """What the body itself was read to run out after truing, or that nobody read it."""
    ran_slowly: bool
    """Whether it was run at its lowest speed before it was handed over."""
    recheck: str
    """The date on which to look again."""
    one_grip: bool
    """Whether the result is that of one workpiece in one grip, so that no date is of any use."""
    voids: tuple[str, ...]
    """What ends the result before that date."""
    gates: tuple[Gate, ...]
    corrections: tuple[Line, ...]
    """What was read at each screw, what was advised, and what the needle came to."""
    torques: tuple[Line, ...]
    """Bolts and screws: torque, its source, the order, and whether a torque wrench showed it."""
    verdicts: tuple[Line, ...]
    interruptions: tuple[Line, ...]
    """Pauses, take-overs, making sure, corrected answers, steps done again."""
    left: tuple[tuple[str, str], ...]
    """What is to be known of the machine as the last event leaves it: what hangs where, and so on.

    Empty while nobody has looked yet.
    """
    signatures: tuple[Line, ...]
    """Printed name, time and meaning."""
    lines: tuple[Line, ...]
    """Every event."""
