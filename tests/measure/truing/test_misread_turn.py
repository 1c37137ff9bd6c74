"""A turn that was misread spoils the round that it began, and none after the next whole turn."""

from __future__ import annotations

from cmath import exp
from decimal import Decimal
from math import pi, radians

import pytest

from guide.measure.advice import advise, correct
from guide.measure.truing.asked import Asked, Move, Read, Stop
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.measure.truing.hearing import told

FACTS = Facts("mm", Decimal("0.04"), Decimal("0.01"), sense="away")
FOUR = (0.0, 90.0, 180.0, 270.0, 360.0)
ENOUGH = 60
"""Questions within which work of this kind is true."""


class Work:
    """Work in four independent jaws that goes exactly where it is sent, and a dial to read it."""

    def __init__(self, centre: complex, lied: float) -> None:
        self.centre, self.lied = centre, lied
        self.zero = centre.real
        """What the dial was set to nothing on."""
        self.heard: list[Heard] = []
        self.off: list[tuple[int, float]] = []
        """By round, how far each advised value was off the one at which the pair is centred."""
        self.rounds = 0

    def shows(self, angle: float) -> Decimal:
        """The dial at an angle, to a division."""
        way = exp(1j * radians(angle))
        value = (self.centre * way.conjugate()).real - self.zero
        return round(Decimal(repr(value)), 2)

    def read(self, asked: Read) -> None:
        """A set of readings; of the first one the value at one place has its sign forgotten."""
        angles = tuple(asked.angles) if self.heard else FOUR
        values = tuple(
            -self.shows(angle) if angle == self.lied and not self.heard else self.shows(angle)
            for angle in angles
        )
        self.heard.append(WasRead(angles, values, asked.station))

    def move(self, asked: Move) -> None:
        """The jaws are moved until the dial shows what was asked."""
        way = exp(2j * pi * (asked.screw - 1) / 4)
        self.off.append((self.rounds, float(asked.bring_to) + self.zero))
        self.centre += float(asked.bring_to - self.shows((asked.screw - 1) * 90)) * way
        self.heard.append(
            WasMoved(asked.screw, asked.by, reads=asked.bring_to, bring_to=asked.bring_to)
        )

    def trued(self) -> Asked:
        """As advised, to the end, but that another turn is refused after the first one."""
        for _ in range(ENOUGH):
            once = len(self.heard) == 1
            asked = correct(told(FACTS, self.heard)) if once else advise(FACTS, self.heard)
            if isinstance(asked, Read):
                self.read(asked)
            elif isinstance(asked, Move):
                self.move(asked)
            elif isinstance(asked, Stop):
                return asked
            else:
                self.heard.append(WasTorqued())
                self.rounds += 1
        return asked


@pytest.mark.parametrize("lied", [90.0, 180.0, 270.0])
@pytest.mark.parametrize("centre", [-0.62 + 0.51j, 0.4 - 0.7j, 0.8 + 0.1j])
def test_what_a_misread_turn_taught_is_forgotten_by_the_next_one(
    centre: complex, lied: float
) -> None:
    """No later move aims beside the true value, no torque is blamed, and it ends within."""
    work = Work(centre, lied)
    end = work.trued()
    assert isinstance(end, Stop)
    assert end.verdict == "within"
    later = [abs(off) for rounds, off in work.off if rounds > 0]
    assert all(off < 0.06 for off in later), work.off
