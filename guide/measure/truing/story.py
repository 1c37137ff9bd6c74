"""The story so far: readings since the last torque, the centre, the zero, what the moves taught."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from math import sqrt

from guide.measure.harmonic import Fit, fit, shape
from guide.measure.truing.belief import Belief
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import WasMoved
from guide.measure.truing.learning import Learned, shift_spread
from guide.measure.truing.noise import learned, with_angle

NOWHERE = 1e-12 + 0j
"""A move that goes nowhere and only makes the centre less sure."""


@dataclass(frozen=True, slots=True)
class Blocked:
    """A screw that would not go the way it was asked, at its screw and with its sign."""

    screw: int
    raising: bool
    why: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the moves of a round were to do, and how far that way the turn after it found it."""

    asked: float
    went: float


@dataclass
class Story:
    """The state of the advice; lengths in the facts' unit."""

    facts: Facts
    known: Learned
    u: float
    """Standard uncertainty of one reading where the angle does not matter."""
    belief: Belief | None = None
    station: Decimal | None = None
    """Where the indicator stands."""
    taken: dict[Decimal, list[tuple[float, float]]] = field(default_factory=dict)
    """Readings at each station since the bolts were last torqued, with one zero."""
    last: dict[int, float] = field(default_factory=dict)
    """What each screw last read, with the present zero."""
    seen_since_easing: set[int] = field(default_factory=set)
    """Screws read after the bolts were eased for this round."""
    eased: bool = False
    """Whether the bolts were eased since they were last torqued."""
    contradiction: tuple[int, Decimal, Decimal] | None = None
    """A screw just read, its value and what it should about read, where they contradict."""
    moves: list[WasMoved] = field(default_factory=list)
    """Moves since the last torque."""
    turned_round: bool = False
    """Whether the last move, or the turn after it, showed that the screws work in the other sense,
    or made it likely."""
    blocked: list[Blocked] = field(default_factory=list)
    rounds: int = 0
    idle: bool = False
    """Whether the bolts were last torqued without a move before it."""
    asked: complex = 0j
    """What the moves since the last torque were to do that no needle showed to be done."""
    undone: tuple[Outcome, ...] = ()
    """The last rounds, one after the other, whose turn found that it was not done."""
    turned_at: complex | None = None
    """Where the last whole turn found the centre, at the first station."""
    unseen: complex = 0j
    """What the moves since then were to do that nobody read."""
    before_torque: complex | None = None
    """Where it was believed to be before the bolts were torqued, at the first station."""
    form: dict[Decimal, dict[float, float]] = field(default_factory=dict)
    """How far the surface at each place of the last turn stands off its first harmonic."""
    leans: dict[Decimal, complex] = field(default_factory=dict)
    """How far the centre at each station is off the one at the first, once both were read."""
    seen_twice: set[Decimal] = field(default_factory=set)
    """Stations at which a second turn showed the same form, since the bolts were torqued."""
    unlike: int = 0
    """Turns since then of which the next one showed another form."""
    doubted: int = 0
    """Turns since then that left the form in doubt."""
    unlearned: set[Decimal] = field(default_factory=set)
    """Stations whose first turn of the round has still to teach what it can."""
    alarms: int = 0
    """Sets with a moved zero, one after the other."""
    zero_moved: bool = False
    drifting: bool = False
    rate: float = 0.0
    """How far the zero creeps from one reading to the next, while drifting."""
    repeats: list[float] = field(default_factory=list)
    """Differences of two readings of one place."""
    scatter: dict[Decimal, tuple[float, int]] = field(default_factory=dict)
    """What each station's readings leave over beside three orders: squares, degrees of freedom."""
    scatters: list[tuple[float, int]] = field(default_factory=list)
    """The same of earlier rounds."""

    @property
    def moving(self) -> bool:
        """Whether a move was tried since the bolts were torqued."""
        return bool(self.moves)

    @property
    def claimed(self) -> bool:
        """Whether the sense was told or borne out, so that another way would be the wrong way."""
        return self.facts.sense != "unknown" or self.known.sure

    def readings(self, station: Decimal) -> list[tuple[float, float]]:
        """Angles and values at a station since the bolts were torqued."""
        return self.taken.get(station, [])

    def lean(self) -> complex:
        """How far the centre where the indicator stands is off the one at the first station."""
        return self.leans.get(self.station, 0j) if self.station is not None else 0j

    def form_at(self, angle: float) -> float:
        """How far the surface under the plunger stands off the first harmonic, as last seen."""
        if self.station is None:
            return 0.0
        return self.form.get(self.station, {}).get(place(angle), 0.0)

    def found(self, station: Decimal) -> Fit | None:
        """The first harmonic there, or None before enough was read."""
        pairs = self.readings(station)
        if len({place(angle) for angle, _ in pairs}) < 3:
            return None
        return fitted(tuple(pairs))

    def ease(self) -> None:
        """The bolts are eased, once a round: the body gives back some of its shift."""
        if self.belief is not None and not self.eased:
            spread = shift_spread(self.known, self.facts)
            self.belief = self.belief.moved(NOWHERE, spread, spread)
        self.eased = True

    def creep(self, readings: int) -> None:
        """So many readings pass: a drifting zero moves on, and is known the less."""
        if self.belief is None or not self.rate:
            return
        by = readings * self.rate
        self.belief = self.belief.drifted(by, abs(self.rate) * sqrt(readings))
        self.last = {screw: value + by for screw, value in self.last.items()}

    def trust(self) -> None:
        """How far one reading is trusted, by everything repeated so far."""
        scatters = (*self.scatters, *self.scatter.values())
        self.u = learned(self.facts, self.repeats, scatters)

    def u_at(self, found: Fit) -> float:
        """u of one reading on this eccentricity, averaged round the turn."""
        return with_angle(self.u, found.eccentricity / sqrt(2))


def place(angle: float) -> float:
    """An angle as a place of the turn, by which readings of one place are known."""
    return round(angle % 360, 6)


Pairs = tuple[tuple[float, float], ...]
"""Angles and values."""


@lru_cache(maxsize=1024)
def fitted(pairs: Pairs) -> Fit:
    """The first harmonic, worked out once: every question folds the whole story again."""
    return fit([angle for angle, _ in pairs], [value for _, value in pairs])


@lru_cache(maxsize=1024)
def scattered(pairs: Pairs) -> tuple[float, int] | None:
    """What is left beside three orders: squares and degrees of freedom; None where none is told."""
    orders, whole = shape([angle for angle, _ in pairs], [value for _, value in pairs])
    return (whole.squares, whole.spare) if orders[-1] == 3 and whole.spare > 0 else None
