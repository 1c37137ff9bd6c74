"""A lesson: what is to be learned, what is hidden, and what a right end looks like."""

from __future__ import annotations

from dataclasses import dataclass, replace

from guide.practice.dial import COARSE, FINE, Dial, Numbering
from guide.practice.reach import Reach, reach
from guide.practice.truth import Truth
from guide.walk.answers import quantity

PROCEDURE = "quick-centring"
"""The procedure that is practised on: straight to the dial, gates and all."""
LATHE = "practice bench (simulated)"
TOLERANCES = {"in": "0.001 in", "mm": "0.025 mm"}
COARSE_TOLERANCES = {"in": "0.002 in", "mm": "0.05 mm"}
DRAWN = "drawn"
"""The name of what is drawn from a seed."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson as plain data; the truth is in inches whatever the dial is read in."""

    name: str
    title: str
    learn: str
    """What it teaches, in one sentence of the catalogue."""
    truth: Truth
    moral: str
    """What there was to see, in one sentence, told afterwards."""
    flag: str = ""
    """What a stop is right for; blank where it can be accepted."""
    rounds: int = 2
    """Rounds within which it is well done."""
    readings: int = 45
    """Readings within which it is well done."""
    unit: str = "in"
    coarse: bool = False
    """Whether the dial is the coarse one."""
    continuous: bool = False
    """Whether the dial is numbered on all the way round."""
    digital: bool = False
    stations: tuple[float, ...] = (1.0,)
    """Where it has to run true, in inches from the chuck face."""
    tells_sense: bool = True
    """Whether it is known which way the screws move the body."""
    shows_advice: bool = False
    """Whether the sheet shows the move, or only when a hint is asked for."""
    tools: tuple[str, ...] = ()
    """What else lies on the bench: `bar` to turn it half round, `slide` for the indicator."""

    @property
    def right(self) -> str:
        """accept or stop."""
        return "stop" if self.flag else "accept"

    @property
    def dial(self) -> Dial:
        """The indicator in the lesson's unit."""
        dial = (COARSE if self.coarse else FINE)[self.unit]
        numbering: Numbering = "continuous" if self.continuous else "balanced"
        return replace(dial, numbering=numbering, digital=self.digital)

    @property
    def tolerance(self) -> str:
        """What is allowed, as it is answered."""
        return (COARSE_TOLERANCES if self.coarse else TOLERANCES)[self.unit]

    @property
    def tolerance_in(self) -> float:
        """What is allowed, in inches."""
        return float(quantity("length", self.tolerance).exactly("in"))

    def reach(self) -> Reach:
        """What can be reached, worked out from what is hidden."""
        return reach(self.truth, self.tolerance_in, self.stations)

    def facts(self) -> dict[str, str]:
        """Every answer of the procedure but the lathe, from the lesson."""
        truth, dial = self.truth, self.dial
        told = {
            "nose": "camlock",
            "guard-fitted": "yes",
            "chuck-kind": "independent" if truth.held == "jaws" else "adjustable",
            "work": "ground bar (simulated)",
            "indicator-name": "simulated indicator",
            "unit": dial.unit,
            "graduation": f"{dial.graduation} {dial.unit}",
            "tolerance": self.tolerance,
            "direction": "forward",
            "numbering": dial.numbering,
            "range-per-turn": f"{dial.per_turn} {dial.unit}",
            "rule": "guarded",
            "bolt-torque": "33 lbf·ft",
            "bolt-torque-source": "invented for practice",
        }
        return told if truth.held == "jaws" else {**told, **self._screws()}

    def _screws(self) -> dict[str, str]:
        """The answers about adjusting screws and bolts."""
        clearance = self.dial.of_inches(self.truth.clearance)
        return {
            "screw-count": str(self.truth.screws),
            "sense": self.truth.sense if self.tells_sense else "unknown",
            "clearance": f"{clearance:.4g} {self.unit}",
            "bolt-count": "4",
        }
