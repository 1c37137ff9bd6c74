"""Runout of one turn: what is asked, and the judged figure, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.measure.runout import Runout, runout
from guide.measure.verdict import SAID
from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.present.worked.dial import BY_HAND, GRADUATION, TOLERANCE, UNIT, flags, in_unit, maybe


def work(typed: Typed) -> Answer:
    """One turn at even positions, or at the angles given."""
    found = runout(
        typed.numbers("readings"),
        typed.text("unit"),
        typed.numbers("angles") if typed.has("angles") else None,
        tolerance=maybe(typed, "tolerance"),
        graduation=maybe(typed, "graduation"),
        screws=typed.whole("screws") if typed.has("screws") else 4,
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _lines(found: Runout, typed: Typed) -> Iterator[str]:
    """The judged runout, its uncertainty and verdict, the targets and the flags."""
    unit = found.unit
    if found.judged is None:
        size = in_unit(found.bring_to or 0.0, unit, typed)
        yield typed.say(N_("One pair only: bring the dial to {size}."), size=size)
        return
    size = in_unit(found.judged, unit, typed)
    at = typed.figure(found.high_at_deg or 0.0, 0)
    yield typed.say(N_("Judged runout {size}, high at {at}°."), size=size, at=at)
    if found.expanded_uncertainty is not None:
        spread = in_unit(found.expanded_uncertainty, unit, typed)
        yield typed.say(N_("Uncertainty U = {spread} (k = 2)."), spread=spread)
    if found.decision is not None:
        yield typed.say(N_("Verdict: {verdict}."), verdict=typed.say(SAID[found.decision.verdict]))
        yield typed.say(N_("Rule: {rule}."), rule=typed.say(found.decision.edition))
    for each in found.targets or ():
        to = in_unit(each.bring_to, unit, typed)
        yield typed.say(N_("Screw {screw}: bring the dial to {to}."), screw=each.screw, to=to)
    yield from flags(found.flags or (), typed)


RUNOUT = Calculator(
    "runout",
    N_("Runout of one turn"),
    N_("Readings round a turn: high spot, judged runout, what to bring each screw to."),
    (
        Asked("readings", N_("Readings in order"), "numbers", N_("such as 0 12 20 8")),
        UNIT,
        Asked("angles", N_("Degrees from screw 1"), "numbers", N_("even unless given"),
              needed=False),
        TOLERANCE,
        GRADUATION,
        Asked("screws", N_("Adjusting screws"), "whole", needed=False, given="4"),
    ),
    work,
    (),
    caution=BY_HAND,
    assumed=N_(
        "Source: least squares over the first harmonic (identity), uncertainty after JCGM 100:2008."
        " It takes one dial zero for the whole turn."
    ),
)  # fmt: skip
"""The calculator as it is asked."""
