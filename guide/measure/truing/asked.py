"""What the advisor asks for next, always with a reason."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from guide.measure.verdict import Decision


@dataclass(frozen=True, slots=True)
class Why:
    """One or more sentences of the catalogue, with the values in them."""

    sentences: tuple[str, ...]
    values: Mapping[str, object] = field(default_factory=dict, hash=False)

    def __str__(self) -> str:
        """The sentences in English, values filled in."""
        return " ".join(each.format_map(dict(self.values)) for each in self.sentences)

    def and_then(self, other: Why) -> Why:
        """Both reasons, one after the other."""
        return Why((*self.sentences, *other.sentences), {**self.values, **other.values})


@dataclass(frozen=True, slots=True)
class Read:
    """Read the dial at these angles, in this order."""

    angles: tuple[float, ...]
    station: Decimal
    why: Why


@dataclass(frozen=True, slots=True)
class Move:
    """One move at the screw under the plunger; lengths in the facts' unit."""

    screw: int
    across: int | None
    """The screw opposite it, or None where an odd count has none."""
    reads: Decimal
    """What was last read there."""
    by: Decimal
    """The change of the dial wanted there, counted from the needle after any easing."""
    bring_to: Decimal
    """reads + by."""
    tighten: tuple[int, ...] | None
    """Screws to tighten, the main one first; None until the sense is known."""
    ease: tuple[int, ...] | None
    """Screws to ease first, the main one first; None until the sense is known."""
    why: Why


@dataclass(frozen=True, slots=True)
class Torque:
    """Bring every bolt to its torque."""

    why: Why


@dataclass(frozen=True, slots=True)
class Stop:
    """Nothing more to do, or nothing more that would help; lengths in the facts' unit."""

    verdict: str
    """within, outside or undecided."""
    judged: float
    expanded_uncertainty: float
    decision: Decision
    flags: tuple[str, ...]
    why: Why


Asked = Read | Move | Torque | Stop
