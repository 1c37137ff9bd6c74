"""What a turn is read with, in plain values."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from guide.present.chuck_face import Face
from guide.present.nouns import spoken
from guide.screens.tongue import say
from guide.screens.widgets.inks import style_here

Trouble = Callable[[str], str]
"""What is wrong with a reading as typed; blank when nothing is."""
High = Callable[[Sequence[str], Sequence[str]], float | None]
"""The high spot by angles and values so far, where it can be told."""
Doubt = Callable[[Sequence[str], str], str]
"""Why a value beside the others may be a slip; blank when it may well be so."""
Rolls = Callable[[Sequence[str]], bool]
"""Whether the pointer may have passed its zero in these values."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The unit, the chuck and the positions of a turn, and what is said about them."""

    unit: str
    marks: Mapping[float, str]
    """Screws by their angle; empty where there are none yet."""
    counts: tuple[int, ...]
    """How many positions may be chosen, the best first."""
    way: str
    """Which way the face turns, seen from the tailstock."""
    why: str = ""
    """A sentence why so many positions, shown above them."""
    told: tuple[str, ...] = ()
    """What is said once before anything is read."""
    jaws: int = 3
    """Jaws of the chuck, drawn where there are screws."""

    in_jaws: bool = False
    """Whether independent jaws move the work, and no screws move the body."""

    def say(self, sentence: str, **values: object) -> str:
        """A sentence about a screw, said of what this chuck has."""
        return say(spoken(sentence, jaws=self.in_jaws), **values)

    def face(self) -> Face:
        """The picture of the chuck before it is turned."""
        jaws = self.jaws if self.marks else 0
        return Face(self.marks, way=self.way, jaws=jaws, style=style_here())
