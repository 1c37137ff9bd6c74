"""The graded lessons, as plain data. Every size in them is invented."""

from __future__ import annotations

from cmath import exp
from dataclasses import replace
from math import radians
from random import Random

from guide.plain import N_, BadInput
from guide.practice.lesson import DRAWN, Lesson
from guide.practice.reach import reach
from guide.practice.truth import Truth, drawn


def _calm(**told: object) -> Truth:
    """A chuck on which nothing disturbs but what the lesson is about."""
    quiet = {
        "play": 0.00003, "angle_error": 1.0, "lash": 0.02, "across_spread": 0.01,
        "shift_spread": 0.00004, "stick": 0.00003,
    }  # fmt: skip
    return Truth(**{**quiet, **told})  # type: ignore[arg-type]


def _at(size: float, degrees: float) -> complex:
    """So far off, toward an angle."""
    return size * exp(1j * radians(degrees))


LESSONS: tuple[Lesson, ...] = (
    Lesson(
        "one-offset",
        N_("One direction only"),
        N_("Read a turn, see which screw is high, and bring that one pair to the middle."),
        _calm(centre=_at(0.0015, 0)),
        N_("Only one pair was out; the other needed nothing."),
        rounds=1, readings=34, shows_advice=True,
    ),
    Lesson(
        "two-pairs",
        N_("Both directions"),
        N_("Move the larger direction first, and read the second anew before it is moved."),
        _calm(centre=_at(0.0018, 303), across=0.10),
        N_("The first move dragged the second pair along, so its old reading was no longer true."),
        rounds=1, readings=36, shows_advice=True,
    ),
    Lesson(
        "half-difference",
        N_("Half the difference"),
        N_("Two readings half a turn apart: bring the dial half their difference, not to zero."),
        _calm(centre=_at(0.0017, 166)),
        N_("Zero was only where the dial happened to be set; true is midway between the two."),
        rounds=1, readings=36,
    ),
    Lesson(
        "across-zero",
        N_("A dial that rolls over"),
        N_("On a dial numbered one way, 96 may mean four below zero: see it pass, type it as −4."),
        _calm(centre=_at(0.0016, 35)),
        N_("The readings went below zero, where this face begins again at its highest number."),
        rounds=1, readings=36, continuous=True,
    ),
    Lesson(
        "unknown-sense",
        N_("Which way do the screws work?"),
        N_("Make the first move small, watch which way the needle goes, then say what you saw."),
        _calm(centre=_at(0.0016, 250), sense="away"),
        N_("A screw driven in sent the body away from it, against the usual."),
        rounds=2, readings=48, tells_sense=False,
    ),
    Lesson(
        "knock",
        N_("The indicator is knocked"),
        N_("The closing reading tells on a zero that moved: read another turn, correct nothing."),
        _calm(centre=_at(0.0012, 200), knock=0.0008, knocked_at=5),
        N_("In the first turn the zero jumped, and the readings after it said something untrue."),
        rounds=1, readings=48,
    ),
    Lesson(
        "bolts",
        N_("What the bolts do"),
        N_("Ease the bolts one stage, never slack; only what is read with tight bolts counts."),
        _calm(centre=_at(0.0014, 80), shift=_at(0.0004, 20), shift_spread=0.00008, returns=0.7),
        N_("Torquing shifted the body by about the same each time; aim off against it."),
        rounds=3, readings=75,
    ),
    Lesson(
        "three-lobes",
        N_("A bar that is not round"),
        N_("Read a three-lobed bar at eight positions: at four it looks like plain eccentricity."),
        _calm(centre=_at(0.0001, 60), lobes={3: _at(0.0006, 40)}),
        N_("The bar has three lobes and the chuck was true: no screw makes a bar round."),
        flag="form", rounds=0, readings=18,
    ),
    Lesson(
        "tilt",
        N_("True here, out there"),
        N_("Runout that grows along the bar is tilt: look at a second station before you accept."),
        _calm(centre=_at(0.0009, 120), tilt=_at(0.0004, 200)),
        N_("The axis of the chuck is tilted: screws set one place true and leave the other out."),
        flag="tilt", rounds=1, readings=60, stations=(1.0, 5.0), tools=("slide",),
    ),
    Lesson(
        "worn-bearing",
        N_("A spindle that gives"),
        N_("Push and pull before you correct: what gives is bearing, and no screw cures it."),
        _calm(centre=_at(0.0003, 310), play=0.0013, play_shows="two-sided"),
        N_("The spindle itself gives more than the tolerance, at the nose as at the bar."),
        flag="spindle-limit", rounds=1, readings=40,
    ),
    Lesson(
        "chip",
        N_("A chip under the plate"),
        N_("When the needle no longer follows, the body is at its end: stop, look at the seat."),
        _calm(centre=_at(0.0019, 24), register=_at(0.0058, 23), tilt=_at(0.0001, 23)),
        N_("A chip held the plate off its seat: the body had no travel left toward the middle."),
        flag="beyond-travel", rounds=1, readings=50,
    ),
    Lesson(
        "bar-or-chuck",
        N_("The bar or the chuck?"),
        N_("Turn the bar half round in the jaws: if the high spot goes with it, it is the bar."),
        _calm(centre=_at(0.0001, 90), bar=_at(0.0011, 340)),
        N_("The chuck was true and the bar sat off its middle: trued to it, the chuck is put out."),
        flag="cannot-prove", rounds=0, readings=27, tools=("bar",),
    ),
    Lesson(
        "six-screws",
        N_("Six screws"),
        N_("With six screws the pairs are not independent: read again after every move."),
        _calm(centre=_at(0.0018, 205), screws=6),
        N_("A move along one pair was felt in the others, at half its size."),
        rounds=2, readings=60,
    ),
    Lesson(
        "metric",
        N_("In millimetres, on a display"),
        N_("The same work with a display that can type what it shows: look before you let it."),
        _calm(centre=_at(0.0045, 140), shift_spread=0.00015),
        N_("Nothing else was hidden; hundredths are coarser than tenths of a thou."),
        rounds=2, readings=48, unit="mm", coarse=True, digital=True,
    ),
    Lesson(
        "four-jaws",
        N_("Four jaws, each by itself"),
        N_("Ease one jaw a hair, then drive the one across: the work goes away from it."),
        _calm(centre=_at(0.0110, 295), clearance=2.0, sense="away", held="jaws",
              shift_spread=0.0003, stick=0.0001),
        N_("Jaws push the work away, and what counts is read when all four are pulled up."),
        rounds=2, readings=48, coarse=True,
    ),
)  # fmt: skip
"""In the order in which they are best taken."""


def lesson(wanted: str) -> Lesson:
    """A lesson by its number or its name; raises BadInput for any other."""
    by = {str(number): each for number, each in enumerate(LESSONS, start=1)}
    by |= {each.name: each for each in LESSONS}
    if wanted not in by:
        raise BadInput(
            N_("There is no lesson {wanted}."),
            N_("`spindleside practice --list` shows them by number and name."),
            wanted=wanted,
        )
    return by[wanted]


def number_of(name: str) -> int | None:
    """The number of a lesson, or None for what was drawn."""
    names = [each.name for each in LESSONS]
    return names.index(name) + 1 if name in names else None


def in_unit(one: Lesson, unit: str | None) -> Lesson:
    """The same lesson on a dial of another unit."""
    return one if unit in (None, one.unit) else replace(one, unit=str(unit))


FREE = 0.0022
"""How far off a drawn chuck may be, in inches, so that the fine dial shows all of it in a turn."""


def free(seed: int, unit: str = "in") -> Lesson:
    """A chuck drawn from a seed, the same for the same seed, with what was drawn for it to hide."""
    rng = Random(f"spindleside practice {seed}")
    screws = rng.choice((4, 4, 4, 6))
    truth = drawn(rng, 0.0001, screws=screws)
    if abs(truth.centre) > FREE:
        truth = replace(truth, centre=truth.centre / abs(truth.centre) * rng.uniform(0.0008, FREE))
    fault = rng.choice(("none", "none", "none", "lobes", "knock", "play", "travel"))
    truth = _with_fault(truth, fault, rng)
    found = reach(truth, 0.001)
    return Lesson(
        DRAWN,
        N_("Drawn from a seed"),
        N_("Find out what this chuck needs, and end with the right decision."),
        truth,
        MORALS[fault],
        flag=found.flag,
        rounds=2,
        readings=60,
        unit=unit,
        continuous=rng.random() < 0.3,
        tells_sense=rng.random() < 0.5,
    )


def _with_fault(truth: Truth, fault: str, rng: Random) -> Truth:
    """The same chuck with one more thing hidden."""
    way = rng.uniform(0, 360)
    if fault == "lobes":
        return replace(truth, lobes={**truth.lobes, 3: _at(rng.uniform(0.0002, 0.0007), way)})
    if fault == "knock":
        return replace(truth, knock=rng.choice((-1, 1)) * 0.0008, knocked_at=rng.randint(3, 20))
    if fault == "play":
        return replace(truth, play=rng.uniform(0.0006, 0.0014), play_shows="two-sided")
    if fault == "travel":
        toward = truth.centre / (abs(truth.centre) or 1)
        return replace(truth, register=toward * rng.uniform(0.0045, 0.0062))
    return truth


MORALS = {
    "none": N_("Nothing was wrong with it but that it stood off the middle."),
    "lobes": N_("The bar has three lobes besides."),
    "knock": N_("The indicator was knocked once while it was read."),
    "play": N_("The spindle gives, one way or the other."),
    "travel": N_("The middle of the body's travel lies off the axis."),
}
"""What was drawn for it to hide."""
