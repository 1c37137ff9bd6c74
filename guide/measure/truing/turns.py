"""Which screws to turn for a change of the dial, and how an offset is shared among them."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians

from guide.measure.angles import across, of_screw
from guide.measure.reading import sign_of
from guide.measure.sense import Sense
from guide.measure.truing.facts import Facts


def turns(
    screw: int, by: float, facts: Facts, sense: Sense
) -> tuple[tuple[int, ...] | None, tuple[int, ...] | None]:
    """Which screws to tighten and which to ease for a dial change at a screw; None, None unknown.

    A body that moves toward a screw moves toward its neighbours by the cosine between them.
    """
    if sense == "unknown" or not by:
        return None, None
    way = sign_of(facts.surface) * (1 if by > 0 else -1) * (1 if sense == "toward" else -1)
    parts = {
        k: way * cos(radians(of_screw(k, facts.screws) - of_screw(screw, facts.screws)))
        for k in range(1, facts.screws + 1)
    }
    return _strongest(parts, 1), _strongest(parts, -1)


def to_watch(screw: int, by: float, facts: Facts, sense: Sense) -> tuple[int, float]:
    """The screw of a pair that is tightened, and the change wanted there: the one to watch.

    Until the sense is known it is the one whose dial is to rise.
    """
    other = across(screw, facts.screws)
    presumed: Sense = "toward" if sense == "unknown" else sense
    tighten, _ = turns(screw, by, facts, presumed)
    return (screw, by) if other is None or not tighten or tighten[0] == screw else (other, -by)


def _strongest(parts: dict[int, float], way: int) -> tuple[int, ...]:
    """The screws moved this way, the one moved most first."""
    chosen: Iterable[int] = (k for k, part in parts.items() if part * way > 1e-6)
    return tuple(sorted(chosen, key=lambda k: (-round(abs(parts[k]), 6), k)))
