"""The bench: a simulated chuck under a learner's hands, one small thing at a time.

What is done here moves a `Chuck`; what the hand sees is the needle. Nothing refuses but what would
refuse at a lathe, and the one thing that must not be: a spindle turned with a key in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import Any

from guide.measure.angles import nearest_screw, of_screw
from guide.plain import N_
from guide.practice.chuck import Chuck, Where
from guide.practice.dial import Dial
from guide.practice.kept import place, place_text
from guide.practice.screws import Screws, gaps_of, gaps_text
from guide.practice.truth import Truth

STEP_DEG, HAIR_DEG = 15.0, 2.0
"""How far the spindle goes by one push at the rim, and by a nudge."""
HAIR, STEP = 0.5, 4.0
"""How far a screw goes by a nudge of the key and by a short pull, in divisions of the dial."""
AT_A_PLACE = 3.0
"""Degrees within which the spindle stands at a screw."""
PLACES: tuple[Where, ...] = ("bar", "plate", "nose")
FOLLOWS = 0.25
"""The part of a move that a needle must go along with, or the body has come to its end."""


@dataclass(frozen=True, slots=True)
class Said:
    """What the bench says to a hand: a sentence of the catalogue and its values."""

    sentence: str = ""
    values: Mapping[str, object] = field(default_factory=dict, hash=False)
    refused: bool = False
    """Whether what was asked was not done."""


QUIET = Said()


class Bench:
    """Chuck, bar, spindle, indicator and keys as a learner has them before him."""

    def __init__(self, truth: Truth, dial: Dial, seed: str, stations: Sequence[float] = (1.0,)):
        self.dial, self.seed, self.stations = dial, seed, tuple(stations)
        self.chuck = Chuck(truth, Random(seed), self.stations[0])
        self.screws = Screws(truth.screws, truth.sense)
        self.angle = 0.0
        """Where the learner means the spindle to stand, in degrees from screw 1."""
        self.missed = 0.0
        """How far off that it stands in truth."""
        self.rests = 0.0
        """What play adds where the spindle has come to rest."""
        self.hand = 0
        """−1 pushed from the indicator, 1 pulled to it, 0 let go."""
        self.where: Where = "bar"
        """Where the hand pushes and pulls, and the plunger with it."""
        self.key: int | None = None
        """The screw that the key is in."""
        self.chosen = 1
        """The screw that the key goes into next."""
        self.wound, self.slips, self.went, self.sideways = 0.0, 0.0, 0j, 0.0
        self.stirred = False
        """Whether a reading was taken since the spindle was last turned."""
        self.taken: list[tuple[float, str, str]] = []
        """Each reading noted since the last entry: angle, what was to be read, and exactly."""
        self.noted: Counter[str] = Counter()
        """What the debrief has to know of since the last entry, counted."""
        self.zero_here()
        self.noted.clear()

    @property
    def truth(self) -> Truth:
        """What is hidden."""
        return self.chuck.truth

    @property
    def bolts(self) -> str:
        """tight, snug, slack, or none where jaws are moved."""
        if self.truth.held == "jaws":
            return "none"
        return "tight" if self.chuck.tight else "slack" if self.chuck.slack else "snug"

    @property
    def station(self) -> float:
        """Where the indicator stands, in inches from the chuck face."""
        return self.chuck.station

    @property
    def under(self) -> int | None:
        """The screw under the plunger, or None between two."""
        near = nearest_screw(self.angle, self.truth.screws)
        off = abs((self.angle - of_screw(near, self.truth.screws) + 180) % 360 - 180)
        return near if off <= AT_A_PLACE else None

    def needle(self, angle: float | None = None) -> float:
        """What the dial shows, in inches between its divisions."""
        turn = (self.angle if angle is None else angle) + self.missed
        return self.chuck.needle(turn) + self.rests + self.hand * self.chuck.gives(self.where) / 2

    def shown(self) -> str:
        """What is to be read off the face: the nearest division in the dial's unit."""
        return str(self.dial.nearest(self.needle()))

    def runout(self) -> float:
        """The true full runout at the worst of the stations."""
        return max(self.chuck.runout(each) for each in self.stations)

    def turn(self, by: float) -> Said:
        """Turn the spindle by hand; never with a key in."""
        return self._come_to(self.angle + by, self.missed)

    def next_place(self, count: int) -> Said:
        """Turn on to the next of so many even positions, set by eye."""
        step = 360 / count
        place = (int((self.angle + 1e-6) // step) + 1) * step
        return self._come_to(place, self.chuck.rng.gauss(0, self.truth.angle_error))

    def _come_to(self, angle: float, missed: float) -> Said:
        """The spindle comes to another place: what creeps, creeps now."""
        if self.key is not None:
            self.noted["key_in"] += 1
            return Said(KEY_IN, {"screw": self.key}, refused=True)
        if self.stirred:
            self.chuck.between_readings()
            self.stirred = False
        self.angle, self.missed = angle % 360, missed
        self.chuck.angle = self.angle
        self.hand, self.where, self.rests = 0, "bar", self.chuck.given_way()
        self.chosen = nearest_screw(self.angle, self.truth.screws)
        return QUIET

    def other_screw(self) -> Said:
        """The key goes to the next of the screws that work along the plunger's line."""
        was, inside = self.chosen, self.key is not None
        self.key_out()
        ring = self._ring()
        self.chosen = ring[(ring.index(was) + 1) % len(ring)] if was in ring else ring[0]
        return self.key_in() if inside else QUIET

    def _ring(self) -> tuple[int, ...]:
        """The screw under the plunger and those across from it."""
        near = nearest_screw(self.angle, self.truth.screws)
        return (near, *self.screws.against(near))

    def key_in(self) -> Said:
        """The key goes into the chosen screw."""
        self.key = self.chosen
        self.wound, self.went = 0.0, 0j
        self.slips = self._slip()
        self.sideways = self.truth.across + self.chuck.rng.gauss(0, self.truth.across_spread)
        return QUIET

    def key_out(self) -> Said:
        """The key comes out, and the body gives back what it was only held to."""
        if self.key is not None and self.went:
            gone = self.chuck.slide(-self.truth.lash * self.went)
            self.screws.followed(gone, None)
        self.key, self.wound, self.went = None, 0.0, 0j
        return QUIET

    def turn_key(self, hairs: float) -> Said:
        """Tighten the screw that the key is in, or ease it (below nought), by so many hairs."""
        if self.key is None:
            return Said(NO_KEY, refused=True)
        if self.key in self.truth.stuck:
            self.noted["forced"] += 1
            return Said(STUCK, {"screw": self.key}, refused=True)
        if self.bolts == "tight":
            self.noted["against_bolts"] += 1
            return Said(BOLTS_HOLD, refused=True)
        left = self.screws.turned(self.key, hairs * HAIR * self.dial.division)
        return self._drive(self.key, left) if hairs > 0 else QUIET

    def _drive(self, screw: int, by: float) -> Said:
        """A screw that bears is driven: friction holds, then the body slips."""
        if by <= 0:
            return QUIET
        room = self.screws.room(screw)
        if (stop := self.screws.bearing(screw)) is not None:
            self.wound = 0.0
            self.noted["forced"] += 1
            return Said(STIFF, {"screw": stop}, refused=True)
        self.wound += by
        if self.wound < self.slips:
            return QUIET
        wanted, self.wound, self.slips = min(self.wound, room), 0.0, self._slip()
        return self._slide(screw, wanted)

    def _slide(self, screw: int, by: float) -> Said:
        """The body goes, a little sideways too, and no further than its register lets it."""
        way = self.screws.way(screw)
        gone = self.chuck.slide(by * way * (1 + 1j * self.sideways))
        self.went += gone
        self.screws.followed(gone, screw)
        if (gone * way.conjugate()).real < FOLLOWS * by:
            return Said(AT_ITS_END)
        return QUIET

    def _slip(self) -> float:
        """How far a screw winds up before the body slips."""
        return self.truth.stick * self.chuck.rng.uniform(0.5, 1.5)

    def ease_bolts(self) -> Said:
        """The bolts come back one stage: from tight to snug, and once more to slack."""
        if self.bolts in ("none", "slack"):
            return Said(NO_BOLTS if self.bolts == "none" else SLACK, refused=True)
        if self.bolts == "snug":
            self.noted["slack"] += 1
            self.chuck.slacken()
            return Said(SLACK)
        self.chuck.ease()
        return Said(SNUG)

    def torque_bolts(self) -> Said:
        """The bolts come to their torque; the screws touch before it."""
        if self.bolts in ("none", "tight"):
            return Said(NO_BOLTS if self.bolts == "none" else TIGHT, refused=True)
        if self.key is not None:
            return Said(KEY_IN_BOLTS, {"screw": self.key}, refused=True)
        self.chuck.torque()
        self.screws.touch()
        return Said(TIGHT)

    def nip(self) -> None:
        """Screws or jaws are pulled up evenly."""
        self.key_out()
        self.chuck.nip()
        self.screws.touch()

    def push(self, hand: int) -> Said:
        """Push toward the plunger (1), pull away from it (−1), or let go (0)."""
        self.hand = hand
        return Said({1: PUSHED, 0: "", -1: PULLED}[hand])

    def feel_at(self) -> Said:
        """Hand and plunger go from the bar to the plate, to the bare nose, and back."""
        self.where = PLACES[(PLACES.index(self.where) + 1) % len(PLACES)]
        self.hand = 0
        return Said(FEELS[self.where])

    def zero_here(self) -> Said:
        """Turn the dial so that zero stands under the needle."""
        self.chuck.zero -= self.needle()
        self.noted["zeroed"] += 1
        return Said(ZEROED)

    def slide_indicator(self) -> Said:
        """The indicator goes to the next station, and is set to zero there."""
        place = (self.stations.index(self.station) + 1) % len(self.stations)
        self.chuck.station = self.stations[place]
        self.zero_here()
        return Said(AT_STATION, {"station": f"{self.dial.of_inches(self.station):g} {self.unit}"})

    def turn_bar(self) -> Said:
        """The bar goes half round in the jaws and is gripped again."""
        if self.key is not None:
            return Said(KEY_IN_BOLTS, {"screw": self.key}, refused=True)
        self.chuck.turn_bar()
        self.noted["bar_turned"] += 1
        return Said(BAR_TURNED)

    @property
    def unit(self) -> str:
        """The unit that the dial is read in."""
        return self.dial.unit

    def note_reading(self) -> None:
        """A reading was typed: what was to be read then is kept for the debrief."""
        exact = repr(self.dial.exactly(self.needle()))
        self.taken.append((self.angle, self.shown(), exact))
        self.stirred = True

    def take_back(self, count: int) -> None:
        """Only so many of the readings noted since the last entry are left."""
        del self.taken[count:]

    def entered(self, number: int) -> None:
        """An entry was written: the notes begin anew, and chance goes on from its number."""
        self.taken.clear()
        self.noted.clear()
        self.chuck.rng.seed(f"{self.seed}/{number}")

    def as_text(self) -> dict[str, Any]:
        """How the bench stands, as text for the journal."""
        chuck = self.chuck
        return {
            "centre": place_text(chuck.centre),
            "shift": place_text(chuck.last_shift),
            "zero": repr(chuck.zero),
            "angle": repr(self.angle),
            "missed": repr(self.missed),
            "rests": repr(self.rests),
            "bolts": self.bolts,
            "half_round": str(chuck.half_round),
            "station": repr(self.station),
            "readings": str(chuck.readings),
            "gaps": gaps_text(self.screws.gaps),
            "stirred": str(self.stirred),
        }

    def stand_as(self, told: Mapping[str, Any], number: int) -> None:
        """Bring the bench to how it stood at an entry; no key is ever left in."""
        chuck = self.chuck
        chuck.centre, chuck.last_shift = place(told["centre"]), place(told["shift"])
        chuck.zero, chuck.station = float(told["zero"]), float(told["station"])
        chuck.tight, chuck.slack = told["bolts"] == "tight", told["bolts"] == "slack"
        chuck.half_round = told["half_round"] == "True"
        chuck.readings = int(told["readings"])
        self.angle, self.missed = float(told["angle"]), float(told["missed"])
        self.rests, self.stirred = float(told["rests"]), told["stirred"] == "True"
        self.screws = Screws(self.truth.screws, self.truth.sense, gaps_of(told["gaps"]))
        self.key, self.hand, self.where = None, 0, "bar"
        self.entered(number)


KEY_IN = N_("Key in screw {screw}: never turn the spindle with it in. Take it out.")
KEY_IN_BOLTS = N_("The key is still in screw {screw}: take it out first.")
NO_KEY = N_("No key is in a screw. Put it in first.")
STUCK = N_("Screw {screw} does not turn. Do not force it.")
BOLTS_HOLD = N_("The bolts hold the body: ease them one stage first.")
STIFF = N_("Stiff: screw {screw} bears from the other side. Ease it a hair first.")
AT_ITS_END = N_("The needle no longer follows: the body is at its end.")
NO_BOLTS = N_("No bolts here: the jaws hold the work.")
SNUG = N_("Bolts snug: the body stays where it is put.")
SLACK = N_("Bolts slack: the body has dropped. One stage is enough.")
TIGHT = N_("Bolts at their torque.")
PUSHED = N_("Pushed toward the plunger. Let go before you read.")
PULLED = N_("Pulled away from the plunger. Let go before you read.")
FEELS: Mapping[Where, str] = {
    "bar": N_("Hand and plunger at the bar."),
    "plate": N_("Hand and plunger at the plate: push, pull."),
    "nose": N_("Hand and plunger at the nose: push, pull."),
}
ZEROED = N_("The dial is set to zero here.")
AT_STATION = N_("Dial {station} from the chuck face, set to zero there.")
BAR_TURNED = N_("Bar turned half round and gripped again.")
