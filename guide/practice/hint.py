"""The hint: what the one advisor says now, in words; the only place that asks it."""

from __future__ import annotations

from guide.measure.truing.asked import Move, Read, Stop, Torque
from guide.plain import N_
from guide.present.labels import VERDICT
from guide.present.words import say
from guide.procedure.model import Step
from guide.walk.advised import asked, next_move, next_screw
from guide.walk.figures import unit_of
from guide.walk.state import State


def hint(step: Step | None, state: State, language: str = "en") -> str:
    """What to do at the present step, with its reason; blank where there is nothing to advise."""
    if step is None or step.kind not in ("readings", "correction", "verdict", "tightening"):
        return ""
    if step.kind == "tightening":
        return say(TIGHTENING.get(step.tighten, TOUCH), language)
    if step.kind == "correction":
        return _move(next_move(state), state, language)
    if step.take == "pair":
        return say(BRING, language, screw=next_screw(state))
    return _asked(step, state, language)


def _asked(step: Step, state: State, language: str) -> str:
    """What the advisor would do next, told for the step that is open."""
    found = asked(state)
    why = " ".join(say(each, language, **found.why.values) for each in found.why.sentences)
    if isinstance(found, Read):
        what = say(READ, language, count=len({round(each % 360, 3) for each in found.angles}))
        what = say(ANOTHER, language) if step.kind == "verdict" else what
    elif isinstance(found, Stop):
        what = say(STOP, language, verdict=say(VERDICT.get(found.verdict, ""), language))
    elif isinstance(found, Torque):
        what = say(TIGHTENING["torque"], language)
    else:
        what = say(CORRECT, language, screw=found.screw)
    return f"{what} {why}"


def _move(move: Move | None, state: State, language: str) -> str:
    """The move at the screw under the plunger."""
    if move is None:
        return say(ALONE, language)
    told = say(TO, language, screw=move.screw, to=f"{move.bring_to:f}", by=f"{move.by:+f}",
               unit=unit_of(state))  # fmt: skip
    if move.tighten and move.ease:
        screws = {"ease": _list(move.ease), "tighten": _list(move.tighten)}
        return f"{told} {say(WHICH, language, **screws)}"
    return f"{told} {say(WATCH, language)}"


def _list(screws: tuple[int, ...]) -> str:
    """Screws by number."""
    return ", ".join(map(str, screws))


READ = N_("Read {count} positions round the turn, and the first one again.")
ANOTHER = N_("Read another turn before anything is moved.")
CORRECT = N_("Another round: screw {screw} first.")
STOP = N_("Nothing more to do: {verdict}.")
BRING = N_("Bring screw {screw} under the plunger, hands off, and read it.")
TO = N_("Bring screw {screw} to {to} {unit}: a change of {by}.")
WHICH = N_("Ease {ease} a hair, then tighten {tighten}, key out, and read.")
WATCH = N_("The way is not known: a hair only, watch the needle, and say which you tightened.")
ALONE = N_("Leave this one alone: what is left is less than the hand can set.")
TOUCH = N_("Bring each until it just bears, and go on.")
TIGHTENING = {
    "ease": N_("Ease the bolts one stage on the bench, never slack, and record it."),
    "torque": N_("Bring the bolts to their torque on the bench, and record it."),
    "nip": N_("Nip them evenly; the needle may not move by more than half a division."),
}
"""What the bench has to be brought to."""
