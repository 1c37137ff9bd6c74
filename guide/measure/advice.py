"""What to do next at the screws: one move, from the latest readings.

Tightening is meant with the opposite screw eased first. With sense `toward` the screws bear on a
fixed boss, so the body comes to the screw that is tightened; with `away` it goes from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import cos, radians

from guide.measure.angles import across, of_screw
from guide.measure.directions import at_screw, change_at, directions, last_at, refuse_screws
from guide.measure.quantity import Length
from guide.measure.reading import Reading, Surface, sign_of
from guide.measure.sense import SENSES, Sense
from guide.plain import N_, BadInput

WHY_FIRST = N_(
    "This direction is the further out: bring the dial to the value, a little at a time."
)
WHY_NEXT = N_("This screw was just read: bring the dial to the value, a little at a time.")
WHY_UNKNOWN = N_(
    "Which way these screws move the body is not known yet: "
    "back both a hair, then watch the needle."
)
WHY_READ = N_("This direction is the further out: bring this screw under the plunger and read it.")


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of the chuck and the dial."""

    unit: str
    """Unit of every length here."""
    screws: int = 4
    sense: Sense = "unknown"
    surface: Surface = "outside"
    tolerance: Decimal | None = None
    """The largest full runout allowed."""
    clearance: Decimal | None = None
    """Diametral clearance between body and register; half of it is the travel each way."""
    graduation: Decimal | None = None
    """One division of the dial; a move under half of it cannot be set."""

    def __post_init__(self) -> None:
        Length.factor(self.unit)
        sign_of(self.surface)
        refuse_screws(self.screws)
        if self.sense not in SENSES:
            raise BadInput(
                N_("The sense {sense} is not known."),
                N_("Say toward, away or unknown."),
                sense=self.sense,
            )


@dataclass(frozen=True, slots=True)
class Move:
    """One move; lengths in the facts' unit, exact where pairs were read."""

    screw: int
    """The screw under the plunger."""
    across: int | None
    """The screw opposite it, or None where an odd count has none."""
    reads: Decimal | None
    """What the dial shows there now, or None where it has to be read first."""
    by: Decimal
    """The change of the dial wanted there."""
    bring_to: Decimal | None
    """reads + by, or None where it has to be read first."""
    tighten: tuple[int, ...] | None
    """Screws to tighten, the main one first; None until the sense is known."""
    ease: tuple[int, ...] | None
    """Screws to ease first, the main one first; None until the sense is known."""
    why: str
    """A sentence of the catalogue."""


def advise(readings: Sequence[Reading], facts: Facts, under: Reading | None = None) -> Move | None:
    """The next move, or None where nothing is left that this dial could set.

    `readings` are the latest at each position, one dial zero, after the bolts were last at their
    torque. Without `under` the move is in the direction that is further out. `under` is a reading
    just taken at the screw under the plunger, after the bolts were eased: then the move is at
    that screw, and `bring_to` counts from it. The second direction is re-read before it is moved.
    """
    wanted = directions(readings, facts.screws)
    screw = _furthest(wanted) if under is None else at_screw(under, facts.screws)
    by = change_at(screw, wanted, readings, facts.screws)
    if abs(by) < _least(facts) or not by:
        return None
    if under is None and _better_across(screw, by, facts):
        screw, by = across(screw, facts.screws) or screw, -by
    reads = under.value if under is not None else last_at(screw, readings, facts.screws)
    tighten, ease = turns(screw, by, facts)
    return Move(
        screw=screw,
        across=across(screw, facts.screws),
        reads=reads,
        by=by,
        bring_to=None if reads is None else reads + by,
        tighten=tighten,
        ease=ease,
        why=_why(reads, facts, first=under is None),
    )


def turns(
    screw: int, by: Decimal, facts: Facts
) -> tuple[tuple[int, ...] | None, tuple[int, ...] | None]:
    """Which screws to tighten and which to ease for a dial change at a screw; None, None unknown.

    A body that moves toward a screw moves toward its neighbours by the cosine between them.
    """
    if facts.sense == "unknown":
        return None, None
    way = sign_of(facts.surface) * (1 if by > 0 else -1) * (1 if facts.sense == "toward" else -1)
    parts = {
        k: way * cos(radians(of_screw(k, facts.screws) - of_screw(screw, facts.screws)))
        for k in range(1, facts.screws + 1)
    }
    return _strongest(parts, 1), _strongest(parts, -1)


def _furthest(wanted: Mapping[int, Decimal]) -> int:
    """The screw of the largest change wanted; of equals the lower number."""
    return max(wanted, key=lambda k: (abs(wanted[k]), -k))


def _better_across(screw: int, by: Decimal, facts: Facts) -> bool:
    """Whether the opposite screw is the one that will be tightened, and so the one to watch."""
    if across(screw, facts.screws) is None:
        return False
    toward = by * sign_of(facts.surface) > 0
    return toward == (facts.sense == "away")


def _strongest(parts: Mapping[int, float], way: int) -> tuple[int, ...]:
    """The screws moved this way, the one moved most first."""
    chosen: Iterable[int] = (k for k, part in parts.items() if part * way > 1e-6)
    return tuple(sorted(chosen, key=lambda k: (-round(abs(parts[k]), 6), k)))


def _least(facts: Facts) -> Decimal:
    """The smallest change that can be set on the dial."""
    return Decimal(0) if facts.graduation is None else facts.graduation / 2


def _why(reads: Decimal | None, facts: Facts, *, first: bool) -> str:
    """The sentence that goes with a move."""
    if facts.sense == "unknown":
        return WHY_UNKNOWN
    return (WHY_READ if reads is None else WHY_FIRST) if first else WHY_NEXT
