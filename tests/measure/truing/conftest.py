"""A body without noise, walked to the stop, with the one thing wrong that a test is about."""

from __future__ import annotations

from cmath import exp
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from math import cos, radians

import pytest

from guide.measure.advice import advise
from guide.measure.angles import across, of_screw
from guide.measure.truing.asked import Asked, Move, Read, Stop
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued

MOST = 300


@dataclass
class Bar:
    """A bar in a chuck; lengths in inches."""

    centre: complex
    goes: float = 1.0
    """The part of every move that is done."""
    idle: int = 0
    """So many first rounds in which nothing is moved, though it is called done."""
    quiet: bool = False
    """Whether nobody reads the dial after a move."""
    back: bool = False
    """Whether the torque puts the centre back to where it was."""
    stop: float = 9.0
    """How far toward screw 1 the body is held by something, at the least: nine for nothing."""
    lobes: float = 0.0
    """Amplitude of three lobes."""
    drift: float = 0.0
    """How far the zero goes up with every reading."""
    knocked: int = -1
    """The reading before which the zero jumps."""
    knock: float = 0.0
    tightened: bool = False
    """Whether it is said that the screw under the plunger was tightened."""
    stuck: tuple[int, ...] = ()
    """Screws that do not turn."""
    division: float = 1e-6
    zero: float = 0.0
    readings: int = 0
    rounds: int = 0
    before: complex = 0j
    asked: list[Asked] = field(default_factory=list)
    heard: list[Heard] = field(default_factory=list)

    def read(self, angle: float) -> Decimal:
        """What the dial shows there."""
        self.zero += self.drift + (self.knock if self.readings == self.knocked else 0.0)
        self.readings += 1
        turn = radians(angle)
        here = self.zero + (self.centre * exp(-1j * turn)).real + self.lobes * cos(3 * turn)
        return round(here / self.division) * Decimal(repr(self.division))

    def answer(self, asked: Asked, screws: int) -> Heard:
        """What is done with a question."""
        if isinstance(asked, Read):
            return WasRead(asked.angles, tuple(map(self.read, asked.angles)), asked.station)
        if isinstance(asked, Move):
            return self._move(asked, screws)
        self.rounds += 1
        self.centre = self.before = self.before if self.back else self.centre
        return WasTorqued()

    def _move(self, move: Move, screws: int) -> WasMoved:
        """The move, as far as it goes."""
        way = exp(1j * radians(of_screw(move.screw, screws)))
        stuck = {move.screw, across(move.screw, screws)} & set(self.stuck)
        if self.rounds >= self.idle and not stuck:
            self.centre += float(move.by) * self.goes * way
        if self.stop < 9:
            self.centre = complex(max(self.centre.real, self.stop), self.centre.imag)
        reads = None if self.quiet else self.read(of_screw(move.screw, screws))
        return WasMoved(
            move.screw,
            move.by,
            reads,
            not stuck,
            "stuck" if stuck else "",
            move.bring_to,
            named=move.tighten is not None,
            tightened=move.screw if self.tightened else None,
        )

    def walk(self, facts: Facts) -> Stop:
        """Every question answered, to the stop."""
        self.before = self.centre
        for _ in range(MOST):
            asked = self.walk_one(facts)
            if isinstance(asked, Stop):
                return asked
        raise AssertionError("it never stops")

    def walk_one(self, facts: Facts) -> Asked:
        """One question, answered unless it is the stop."""
        asked = advise(facts, self.heard)
        self.asked.append(asked)
        if not isinstance(asked, Stop):
            self.heard.append(self.answer(asked, facts.screws))
        return asked

    @property
    def moves(self) -> list[Move]:
        """Every move that was asked for."""
        return [each for each in self.asked if isinstance(each, Move)]


@pytest.fixture
def bar() -> Callable[..., Bar]:
    """A bar whose centre is off by so much, and what is wrong with it."""
    return Bar
