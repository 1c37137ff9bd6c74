"""The debrief: what a learner did against what was hidden, from the journal and nothing else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from guide.measure.numerals import parse_number
from guide.plain import N_, BadInput
from guide.practice.best import Best, best
from guide.practice.dial import Dial
from guide.practice.judge import Decided, decided
from guide.practice.kept import dial, place, truth
from guide.practice.reach import Reach, reach
from guide.practice.truth import Truth
from guide.procedure.model import Step
from guide.walk.setup import Setup
from guide.walk.state import Entry

MISREAD = 1.0
"""Divisions that a typed value may lie off the needle before it was misread."""
SAME_PLACE = 5.0
"""Degrees within which a reading was taken where it was to be taken."""


@dataclass(frozen=True, slots=True)
class Misread:
    """A typed value that the needle did not show, in the dial's unit."""

    sequence: int
    angle: str
    """Where the spindle stood."""
    typed: str
    shown: str


@dataclass(frozen=True, slots=True)
class Debrief:
    """Everything that is told afterwards; lengths in inches where nothing else is said."""

    setup: str
    lesson: str
    seed: str
    place: str
    """Where the walk stands: finished, abandoned, or not ended yet."""
    truth: Truth = field(hash=False)
    dial: Dial
    stations: tuple[float, ...]
    tolerance: float
    reach: Reach
    best: Best
    rounds: int
    moves: int
    readings: int
    good_rounds: int
    """Rounds within which the lesson calls it well done."""
    good_readings: int
    decisions: tuple[Decided, ...]
    misread: tuple[Misread, ...]
    elsewhere: int
    """Readings that were typed while the spindle stood elsewhere."""
    rolled: int
    """Turns across the dial's zero that were taken as typed."""
    counts: Mapping[str, int] = field(hash=False)
    """What was done on the bench that should not have been, by name."""
    hints: int
    path: tuple[complex, ...]
    """Where the middle of the jaws was: at first, after each round, at the end."""
    runout: float
    """The true runout at the worst station, as it was left."""

    @property
    def well_ended(self) -> bool:
        """Whether the last decision was the right one."""
        return bool(self.decisions) and self.decisions[-1].right


def debrief(walk: Setup) -> Debrief:
    """The debrief of a practice setup; raises BadInput for one that was none."""
    kept = walk.state.opening.get("practice")
    if not isinstance(kept, Mapping):
        raise BadInput(
            N_("The setup {setup} was no practice."),
            N_("`spindleside records` says which ones were."),
            setup=walk.state.setup,
        )
    hidden, shown = truth(kept["truth"]), dial(kept["dial"])
    stations = tuple(float(each) for each in kept["stations"])
    tolerance = float(kept["tolerance"])
    found = reach(hidden, tolerance, stations)
    met = tuple(_met(walk))
    return Debrief(
        setup=walk.state.setup,
        lesson=str(kept["lesson"]),
        seed=str(kept["seed"]),
        place=walk.state.place,
        truth=hidden,
        dial=shown,
        stations=stations,
        tolerance=tolerance,
        reach=found,
        best=best(hidden, str(kept["seed"]), tolerance=tolerance, division=shown.division,
                  stations=stations),
        rounds=walk.state.rounds,
        moves=sum("got" in entry.data for _, entry in met),
        readings=sum(len(typed_of(step, entry)) for step, entry in met),
        good_rounds=int(kept["rounds"]),
        good_readings=int(kept["readings"]),
        decisions=tuple(decided(walk, met, found, tolerance)),
        misread=tuple(each for step, entry in met for each in _misread(step, entry, shown)),
        elsewhere=sum(_elsewhere(step, entry) for step, entry in met),
        rolled=sum(entry.data.get("rolled_over") == "no" for _, entry in met),
        counts=_counts(walk),
        hints=sum(int(_noted(each).get("hints", 0)) for each in walk.state.entries),
        path=_path(hidden, met, walk),
        runout=_runout(walk),
    )  # fmt: skip


Met = tuple[Step, Entry]


def _met(walk: Setup) -> Iterator[Met]:
    """Every entry that was made at a step, with its step."""
    for entry in walk.state.entries:
        step = walk.procedure.by_name.get(entry.place)
        if step is not None and entry.kind in ("record", "done", "acknowledge"):
            yield step, entry


def _noted(entry: Entry) -> Mapping[str, Any]:
    """What the bench noted with an entry."""
    told: Mapping[str, Any] = entry.data.get("practice", {}) if entry.kind != "open" else {}
    return told


def typed_of(step: Step, entry: Entry) -> tuple[str, ...]:
    """The values that were typed at an entry, in order."""
    data = entry.data
    if step.kind == "correction":
        return (str(data["got"]),) if data.get("got") else ()
    if step.kind != "readings":
        return ()
    if step.take == "pair":
        return (str(data["value"]),)
    closing = (str(data["closing"]),) if data.get("closing") else ()
    return (*map(str, data.get("values", ())), *closing)


def _shown(step: Step, entry: Entry) -> tuple[tuple[str, str, str], ...]:
    """What was to be read for each typed value: angle, nearest division, exactly."""
    told = _noted(entry)
    one = told.get("now")
    return (tuple(one),) if one else tuple(tuple(each) for each in told.get("shown", ()))


def _misread(step: Step, entry: Entry, shown: Dial) -> Iterator[Misread]:
    """Typed values that are further off the needle than a division."""
    for typed, (angle, nearest, exact) in zip(
        typed_of(step, entry), _shown(step, entry), strict=False
    ):
        needle = shown.to_inches(float(exact))
        if abs(shown.off(Decimal(parse_number(typed)), needle)) > MISREAD + 1e-6:
            yield Misread(entry.sequence, angle, typed, nearest)


def _elsewhere(step: Step, entry: Entry) -> int:
    """How many of a turn's readings were typed at another place than was asked for."""
    asked = [float(each) for each in entry.data.get("angles", ())]
    stood = [float(angle) for angle, *_ in _shown(step, entry)]
    off = (abs((a - b + 180) % 360 - 180) for a, b in zip((*asked, 0.0), stood, strict=False))
    return sum(each > SAME_PLACE for each in off) if asked else 0


def _counts(walk: Setup) -> dict[str, int]:
    """Everything that was counted on the bench, over all entries."""
    found: Counter[str] = Counter()
    for entry in walk.state.entries:
        told = _noted(entry).get("counts", {})
        found.update({str(name): int(count) for name, count in told.items()})
    return dict(found)


def _path(hidden: Truth, met: tuple[Met, ...], walk: Setup) -> tuple[complex, ...]:
    """The middle of the jaws at first and at every turn that was read."""
    turns = [
        place(_noted(entry)["bench"]["centre"])
        for step, entry in met
        if step.kind == "readings" and step.take != "pair" and "bench" in _noted(entry)
    ]
    found = [hidden.centre]
    for each in turns:
        if abs(each - found[-1]) > 1e-6:
            found.append(each)
    return tuple(found)


def _runout(walk: Setup) -> float:
    """The true runout that the last entry noted."""
    noted = (_noted(each).get("runout") for each in reversed(walk.state.entries))
    return float(next((each for each in noted if each is not None), "nan"))
