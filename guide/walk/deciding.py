"""What may be decided at a verdict, and why another decision is not open there."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_, NotAllowed
from guide.procedure.model import Step
from guide.walk.answers import length
from guide.walk.branch_tests import MOST_ROUNDS
from guide.walk.figures import TURNS_ON_THE_BAR as TURNS_ON_THE_BAR
from guide.walk.figures import graduation_of, unit_of
from guide.walk.limit import TOLERANCE, limit_name, limit_of
from guide.walk.state import State, Taken

DIVISION = "graduation"
PLATE = ("accept", "stop")
"""The decisions of a verdict on the plate: it is judged by its face, and not by the latest turn."""

OPEN = N_("These are open: {offered}.")
NOT_ITS_OWN = N_("“{decision}” is none of the decisions at “{title}”.")
ENOUGH_ROUNDS = N_(
    "“{decision}” is not open at “{title}”: {most} rounds of correcting have been made."
)
FACE_OUT = N_(
    "“{decision}” is not open at “{title}”: the reading {reading} of the step {step} was judged"
    " outside its limit, and no screw cures that."
)
OUTSIDE = N_(
    "“{decision}” is not open at “{title}”: the reading {reading} of the step {step} was judged"
    " outside its limit."
)
UNDECIDED = N_(
    "“{decision}” is not open at “{title}”: the reading {reading} of the step {step} cannot be"
    " told from its limit."
)
NOTHING_READ = N_("“{decision}” is not open at “{title}”: nothing that is judged there was read.")
READ_FIRST = N_(
    "A readings step comes before it, with `take: along` or with one of these after `serves-as`:"
    " {names}. These are open: {offered}."
)
NO_VERDICT = N_(
    "“{decision}” is not open at “{title}”: the reading {reading} of the step {step} has no"
    " verdict, because this is not known: {missing}."
)
TELL_FIRST = N_(
    "Ask for it, and have it answered, before that step reads. These are open: {offered}."
)
NOT_JUDGED = N_(
    "“{decision}” is not open at “{title}”: the reading {reading} of the step {step} has no"
    " verdict."
)
READ_AGAIN = N_(
    "Read it again, at three positions or more, now that its limit and the dial's division are"
    " known. These are open: {offered}."
)


def offered(step: Step, state: State) -> tuple[str, ...]:
    """The decisions that are open: accept only what is within, another round only while counted."""
    closed = set()
    if state.face_out if step.decisions == PLATE else state.verdict != "within":
        closed.add("accept")
    if state.rounds >= MOST_ROUNDS:
        closed.add("another-round")
    return tuple(each for each in step.decisions if each not in closed)


def not_open(decision: str, step: Step, state: State) -> NotAllowed:
    """The refusal of a decision that is not offered: which reading stands against it, and why."""
    sentence, remedy, judged = _why(decision, step, state)
    return NotAllowed(
        sentence,
        remedy,
        decision=decision,
        title=step.title,
        reading=judged.serves_as if judged else "",
        step=judged.step if judged else "",
        missing=", ".join(not_known(judged, state)) if judged else "",
        names=", ".join(TURNS_ON_THE_BAR),
        most=MOST_ROUNDS,
        offered=", ".join(offered(step, state)),
    )


def _why(decision: str, step: Step, state: State) -> tuple[str, str, Taken | None]:
    """What is said, what can be done, and the reading that it is about."""
    if decision not in step.decisions:
        return NOT_ITS_OWN, OPEN, None
    if decision == "another-round":
        return ENOUGH_ROUNDS, OPEN, None
    if step.decisions == PLATE:
        return FACE_OUT, OPEN, state.taken["face-runout"]
    if state.turn is None:
        return NOTHING_READ, READ_FIRST, None
    if state.verdict:
        return (OUTSIDE if state.verdict == "outside" else UNDECIDED), OPEN, state.turn
    if not_known(state.turn, state):
        return NO_VERDICT, TELL_FIRST, state.turn
    return NOT_JUDGED, READ_AGAIN, state.turn


def not_known(judged: Taken, state: State) -> tuple[str, ...]:
    """The facts for want of which these readings are a figure and no verdict."""
    return tuple(_not_known(judged, state))


def _not_known(judged: Taken, state: State) -> Iterator[str]:
    """The limit that they would be judged by, and what one division of the dial is worth."""
    own, unit = limit_name(judged.serves_as), unit_of(state)
    along = judged.take == "along"
    limit = state.facts.get(own) if along else limit_of(judged.serves_as, state.facts)
    if length(limit, unit) is None:
        yield own if along or own in state.facts else TOLERANCE
    if graduation_of(judged.data, state) is None:
        yield DIVISION
