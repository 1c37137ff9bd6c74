"""A simulated hand at the simulated chuck: it reads, watches the needle, stops near the value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from guide.measure.angles import across, of_screw
from guide.practice.chuck import Chuck


@dataclass(frozen=True, slots=True)
class Moved:
    """How a move ended: whether the screw went as asked, and what the dial read after it."""

    done: bool
    reads: Decimal | None = None
    why: str = ""
    """bottomed or stuck, where it was not done."""


class Hands:
    """Hands with one dial, at one chuck; lengths in inches."""

    def __init__(self, chuck: Chuck, graduation: float) -> None:
        self.chuck, self.graduation = chuck, graduation
        self.readings = self.moves = self.rounds = 0

    def read(self, angles: Sequence[float]) -> tuple[Decimal, ...]:
        """Read the dial at these positions in order."""
        self.readings += len(angles)
        return tuple(self.chuck.read(angle, self.graduation) for angle in angles)

    def move(
        self, screw: int, by: float, tighten: Sequence[int] | None = None, *, quiet: bool = False
    ) -> Moved:
        """Ease the bolts one stage, then bring the needle at a screw by so much, watching it.

        Without `tighten` the hand finds out by the needle which way to turn; with a wrong one it
        sees the needle go the wrong way after a hair and stops there.
        """
        chuck = self.chuck
        chuck.ease()
        self.moves += 1
        place = of_screw(screw, chuck.truth.screws)
        turned = {screw, across(screw, chuck.truth.screws) or screw}
        if turned & set(chuck.truth.stuck):
            return Moved(False, self._see(place, quiet), "stuck")
        wanted = self._wrongly(screw, by, tighten) or by + self._missed()
        went = chuck.push(place, wanted / (1 - chuck.truth.lash * 0.5))
        if abs(wanted) > 4 * self.graduation and abs(went) < 0.25 * abs(wanted):
            return Moved(False, self._see(place, quiet), "bottomed")
        return Moved(True, self._see(place, quiet))

    def torque(self) -> None:
        """The bolts to their torque: a round is over."""
        self.rounds += 1
        self.chuck.torque()

    def _see(self, place: float, quiet: bool) -> Decimal | None:
        """The dial after a move, unless the hand does not report it."""
        return None if quiet else self.read([place])[0]

    def _missed(self) -> float:
        """How far from the value the needle is left."""
        rng, truth = self.chuck.rng, self.chuck.truth
        jump = rng.uniform(-0.5, 0.5) * truth.stick
        return rng.gauss(0, truth.setting * self.graduation) + jump

    def _wrongly(self, screw: int, by: float, tighten: Sequence[int] | None) -> float:
        """A hair the wrong way, where the screws were named for the other sense; else nothing."""
        if not tighten or not by:
            return 0.0
        main = tighten[0] == screw
        raises = main == (self.chuck.truth.sense == "toward")
        hair = min(abs(by), 5 * self.graduation)
        return 0.0 if raises == (by > 0) else (-hair if by > 0 else hair)
