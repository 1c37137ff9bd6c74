"""Whether to stop: within, proven; or nothing more that would help, and why."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from guide.measure.flags import in_order
from guide.measure.truing import moves, plan
from guide.measure.truing.asked import Read, Stop, Why
from guide.measure.truing.helping import helps_most
from guide.measure.truing.judging import Judgement, flags_of, guard_of, provable, u_expanded
from guide.measure.truing.learning import chance, hand, shift_spread
from guide.measure.truing.lines import held
from guide.measure.truing.slips import too_much_form
from guide.measure.truing.story import Story
from guide.measure.truing.undone import held_back, undone
from guide.plain import N_

MOST_ROUNDS = 12
"""By the study more rounds let 1 chuck in 100 end within, and 5 in 100 at three divisions of a
fine dial (200 to 300 chucks each, snug; slack bolts at 0.001 in)."""
ENOUGH_ROUNDS = 6
"""Rounds after which the chance of one more is weighed."""
HOPELESS = 0.05
"""A chance of ending within, in one more round, that is not worth the work."""
MOST_READINGS = 60
"""Readings at one station since the last torque, after which more turns tell no more."""
MOST_DOUBTED = 3
"""Turns between two torques that may leave the form in doubt; after one more it is no slip."""
WORTH_A_ROUND = 2
"""More turns than this are more work than another round."""

SIMPLE = N_("Within tolerance by simple acceptance, without a guard band, at every station: "
            "stop, and touch nothing.")  # fmt: skip
WITHIN = N_("Within tolerance, with its guard band, at every station: stop, and touch nothing.")
FORM = N_(
    "Two turns show the same: the bar itself is out of round by more than is asked for. No screw "
    "cures that."
)
UNSTEADY = N_(
    "Turn after turn shows another form, so it is not the bar: find what gives way, stand, plunger "
    "or spindle, or why it is read wrong."
)
TILT = N_(
    "The bar leans by more than is asked for over these stations: no radial screw cures that."
)
BEYOND = N_("The screws are at their end and it is still out: find what holds the body off.")
STUCK = N_("A screw does not go, and it is still out: find what holds it before any force is used.")
LIMITED = N_(
    "After {rounds} rounds the bolts move it about {spread} {unit} each time: "
    "one more round ends within in about {percent} of a hundred."
)
BY_HAND = N_(
    "After {rounds} rounds the screws still end about {spread} {unit} off each time: "
    "one more round ends within in about {percent} of a hundred."
)
UNSEEN = N_("Nothing more is seen that this dial could show, and it cannot prove the tolerance.")
SETTLED = N_("What is left is smaller than this hand can set, and it is not proven.")


def stop(story: Story, seen: Sequence[Judgement]) -> Stop | Read | None:
    """A stop, one more turn before it can be told, or None where a correction is next.

    `seen` is the judgement of every station since the bolts were torqued.
    """
    worst = max(seen, key=lambda one: one.judged + one.guard)
    if all(one.decision.verdict == "within" for one in seen):
        return _within(story, seen, worst)
    return _no_use(story, seen, worst) or _undecided(story, seen, worst)


def _within(story: Story, seen: Sequence[Judgement], worst: Judgement) -> Stop | Read:
    """Within, once every station was read finely enough; else the positions left out."""
    for one in seen:
        if not one.shows_lobes:
            return plan.rest(story, one)
    if not provable(story, plan.fine(story.facts)):
        return _stop(story, worst, {"cannot-prove"}, Why((UNSEEN,)), "undecided")
    simple = any(one.decision.rule == "simple" for one in seen)
    return _stop(story, worst, set(), Why((SIMPLE if simple else WITHIN,)))


def _undecided(story: Story, seen: Sequence[Judgement], worst: Judgement) -> Stop | Read | None:
    """Another turn, where that is less work than another round and could decide."""
    tolerance = float(story.facts.tolerance)
    if worst.judged > tolerance:
        return None
    can = provable(story, plan.fine(story.facts))
    fine = plan.fine(story.facts)
    if not worst.shows_lobes:
        promising = worst.judged + guard_of(story, fine, worst.found) <= tolerance or not can
        return plan.rest(story, worst) if promising else None
    if not can and not _could_better(story, worst):
        return _stop(story, worst, {"cannot-prove"}, Why((UNSEEN,)), "undecided")
    count = len(worst.found.values)
    for more in range(1, WORTH_A_ROUND + 1):
        if worst.judged + guard_of(story, count + more * (fine + 1), worst.found) <= tolerance:
            return plan.again(story, worst) if count < MOST_READINGS else None
    return None


def _could_better(story: Story, worst: Judgement) -> bool:
    """Whether a correction could make it visibly better than it is."""
    return worst.found.eccentricity > max(float(story.facts.graduation), 2 * _spread(story))


def _no_use(story: Story, seen: Sequence[Judgement], worst: Judgement) -> Stop | Read | None:
    """A stop because no correction would help, with its reason; a turn where that is in doubt."""
    tolerance = float(story.facts.tolerance)
    if 2 * held(story) - worst.guard > tolerance:
        bottomed = story.blocked[-1].why != "stuck"
        flag = "beyond-travel" if bottomed else "process-limited"
        return _stop(story, worst, {flag}, Why((BEYOND if bottomed else STUCK,)))
    if held_back(story):
        return _stop(story, worst, {"beyond-travel"}, undone(story))
    if too_much_form(worst, story.facts.tolerance):
        return _out_of_round(story, worst)
    if _tilt(story) > tolerance and len(seen) > 1:
        doubt = 0.0 if provable(story, plan.fine(story.facts)) else 2 * story.facts.graduation
        shown = _tilt(story) - float(doubt) > tolerance
        return _stop(story, worst, {"tilt"}, Why((TILT,)), "outside" if shown else "undecided")
    if story.rounds >= ENOUGH_ROUNDS:
        room = (tolerance - worst.guard) / 2
        odds = chance(room, _spread(story))
        if odds < HOPELESS or story.rounds >= MOST_ROUNDS:
            return _limited(story, worst, odds)
    if moves.first(story, at_least=float(story.facts.graduation) / 2) is None:
        if worst.judged > tolerance and not worst.shows_lobes:
            return None
        if worst.judged > tolerance:
            why = Why((SETTLED,)).and_then(helps_most(story))
            return _stop(story, worst, {"process-limited"}, why)
    return None


def _out_of_round(story: Story, worst: Judgement) -> Stop | Read:
    """The bar, once two turns show the same; before that another turn, as often as is of use."""
    if worst.station in story.seen_twice:
        return _stop(story, worst, set(), Why((FORM,)))
    if story.doubted <= MOST_DOUBTED:
        return plan.form_again(story, worst)
    return _stop(story, worst, set(), Why((UNSTEADY,)), "undecided")


def _limited(story: Story, worst: Judgement, odds: float) -> Stop:
    """The process and not the arithmetic is the limit."""
    bolts, screws = shift_spread(story.known, story.facts), hand(story.known, story.facts)
    said = {
        "rounds": story.rounds,
        "spread": f"{max(bolts, screws):.2g}",
        "unit": story.facts.unit,
        "percent": f"{100 * odds:.0f}",
    }
    what = LIMITED if bolts >= screws else BY_HAND
    why = Why((what,), said).and_then(helps_most(story))
    return _stop(story, worst, {"process-limited"}, why)


def _spread(story: Story) -> float:
    """How differently a round ends, in each direction."""
    known, facts = story.known, story.facts
    return hypot(shift_spread(known, facts), hand(known, facts))


def _tilt(story: Story) -> float:
    """The runout that is left at the worst station when the screws have done what they can."""
    leans = [story.leans.get(each, 0j) for each in story.facts.stations]
    return max(abs(p - q) for p in leans for q in leans)


def _stop(
    story: Story, worst: Judgement, keys: set[str], why: Why, verdict: str | None = None
) -> Stop:
    """The stop with every flag that the story raised."""
    facts = story.facts
    for happened, flag in (
        (story.zero_moved, "zero-moved"),
        (story.drifting, "drifting"),
        (story.known.wrong_way, "wrong-way"),
        (facts.play is not None and facts.play > facts.tolerance, "spindle-limit"),
        (not provable(story, plan.fine(facts)), "cannot-prove"),
        (_leans(story), "tilt"),
        (_beyond(story, worst), "beyond-travel"),
    ):
        keys = keys | {flag} if happened else keys
    return Stop(
        verdict or worst.decision.verdict,
        worst.judged,
        u_expanded(worst),
        worst.decision,
        in_order(keys | flags_of(worst)),
        why,
    )


def _beyond(story: Story, worst: Judgement) -> bool:
    """Whether it is still further off than half the clearance, where no body is by itself."""
    if story.facts.clearance is None:
        return False
    return 2 * worst.found.eccentricity - worst.guard > float(story.facts.clearance)


def _leans(story: Story) -> bool:
    """Whether the bar leans by more than noise between two stations."""
    found = [story.found(each) for each in story.facts.stations]
    u = [story.u_at(each) * each.spread() for each in found if each is not None]
    return len(u) > 1 and _tilt(story) > 3 * max(u) * 2**0.5
