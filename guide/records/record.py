"""The record of one setup as frozen text: what every printed and portable form shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from guide.journal.link import Link
from guide.present.sheet import Line


@dataclass(frozen=True, slots=True)
class Worker:
    """Somebody who has a part in the setup, or stood beside."""

    name: str
    role: str
    """Blank where nobody signed on."""
    key: str
    """Public Ed25519 key as 64 hexadecimal digits, blank where nothing was signed."""


@dataclass(frozen=True, slots=True)
class Signature:
    """A name under something: printed name, date and time, meaning (21 CFR 11.50, from memory)."""

    sequence: int
    at: str
    name: str
    role: str
    under: str
    """The title of what was signed."""
    meaning: str
    key: str
    """The public key that it can be checked with, blank for a name that is not signed."""


@dataclass(frozen=True, slots=True)
class Deviation:
    """A task that was not done as it is written."""

    sequence: int
    at: str
    person: str
    title: str
    why: str
    allowed_by: str
    role: str


@dataclass(frozen=True, slots=True)
class Dial:
    """One value of a dial as it was typed."""

    sequence: int
    at: str
    person: str
    what: str
    """As found, as left, at one screw …"""
    read: str
    """What the value is: of a turn, back at the first, pushed, pulled, came to …"""
    station: str
    angle: str
    """Degrees on the face from screw 1, blank where it belongs to no angle."""
    screw: str
    """The screw or jaw under the plunger, blank where there is none."""
    typed: str
    unit: str


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
    serves_as: str = ""
    """The word for `what` that no language changes."""
    valid: bool = False
    """Whether it stands at the last event."""
    expanded: str = ""
    """U alone."""
    figures: Mapping[str, str] = field(default_factory=dict, hash=False)
    """The figures as they are stored, by name."""
    points: tuple[tuple[str, str], ...] = ()
    """Angle and value of each reading of a turn, as typed."""


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
    """What every page says for ever: practice, rehearsal, not from a terminal, not signed, does not
    verify."""
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
    """What ends the result before its date."""
    fallen: str
    """Why the result holds nothing; blank where it stands."""
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
    signatures: tuple[Signature, ...]
    """Under gates, verdicts, as witness, for a deviation, and at the hand-over."""
    lines: tuple[Line, ...]
    """Every event."""
    sign_on: bool = False
    """Whether every event is signed by the person who did it."""
    link: Link | None = None
    """The place of the last event among all events of the journal."""
    workers: tuple[Worker, ...] = ()
    """The same people as in `people` and those who stood beside, with role and key."""
    deviations: tuple[Deviation, ...] = ()
    dials: tuple[Dial, ...] = ()
    """Every value of a dial, in order."""
    screws: int = 0
    """How many adjusting screws or jaws move it, 0 where that is not known."""
    in_jaws: bool = False
    """Whether independent jaws move the work."""
    reverse: bool = False
    """Whether the spindle was turned in reverse for the readings."""
    bolts: int = 0
    """How many mounting bolts, 0 where that is not known."""
    order: tuple[int, ...] = ()
    """The order in which the bolts were to be tightened across or round, empty where none was."""
    torqued: int = 0
    """The event that brought the bolts to torque last, 0 where none did."""
    sound: bool = True
    """Whether every event stands as it was written and is allowed where it stands."""
    ends: str = ""
    """`finished` or `abandoned`, blank while it goes on."""
