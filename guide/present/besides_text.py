"""The words of the places that are not steps."""

from __future__ import annotations

from guide.plain import N_
from guide.present.questions import instruction
from guide.present.step_text import StepText
from guide.present.tongue import say
from guide.walk.going_on import goes_on_to, not_accepted
from guide.walk.making_safe import wanted_to_safe
from guide.walk.state import MAKING_SURE, State
from guide.walk.world import value

WORDS = {
    "making-sure": (
        N_("Make sure of the machine"),
        N_("Go to the lathe and look. Say what you see now, line by line; it becomes the record."),
        N_("What was so before may have changed: nothing confirmed earlier counts now."),
        N_("Touch nothing until every line is answered."),
    ),
    "making-sure-live": (
        N_("Make sure of the machine"),
        N_(
            "If it turns, press stop now, standing out of the plane of the chuck; hands off"
            " everything else. When it stands, switch off at the isolator and put your own lock on,"
            " or pull the plug and keep it; the stop button is no isolator. Wait the time that the"
            " drive needs to discharge. Only then answer: look, and say what you see, line by line;"
            " it becomes the record."
        ),
        N_("The power is not recorded as off: the chuck may turn, or start at a touch."),
        N_("Reach for nothing but the stop and the isolator until it stands, cut off."),
    ),
    "paused": (
        N_("Paused"),
        N_("Work stands still. Going on begins with looking at the whole machine again."),
        "",
        "",
    ),
    "made-safe": (
        N_("Made safe"),
        N_("The lathe may be left as it is. Going on begins with looking at it again."),
        N_("What is on the nose may not be ready to run."),
        N_("Leave your lock on, and say so to whoever comes next."),
    ),
    "finished": (
        N_("Finished"),
        N_("The setup is handed over. This sheet is its record."),
        "",
        "",
    ),
    "finished-out": (
        N_("Finished: not accepted"),
        N_(
            "The chuck stands on the nose as it was found, nothing taken off. Truing goes on from"
            " here; it begins with looking and isolating anew, and comes to the turn as found."
        ),
        N_("Somebody takes it for a chuck that was checked and runs it, or trusts it."),
        N_("Label it, and tell whoever comes next that it is not to be used as true."),
    ),
    "finished-unjudged": (
        N_("Finished: not accepted, not to be run"),
        N_(
            "Nobody competent has looked at the chuck since the crash or jam. That comes first;"
            " only then is it trued, in a setup of its own, with this chuck on the nose."
        ),
        N_("A cracked chuck, jaw or bolt bursts or lets go when it is run."),
        N_("Label it not to be run, and have it looked at before anybody trues or uses it."),
    ),
    "abandoned": (
        N_("Abandoned"),
        N_("The setup ended unfinished. The next one on this lathe begins from how it stands:"),
        N_("Something may hang or be loose."),
        N_("Tell whoever comes next, and leave your lock on until it is safe."),
    ),
}
"""Title, what to do, what can hurt, and what to do about it."""


def besides_text(state: State) -> StepText:
    """What the sheet says where the walk stands at no step."""
    from guide.procedure.model import Caution

    if state.place == "making-safe":
        return _making_safe(state)
    title, told, hazard, action = WORDS[_kind(state)]
    cautions = (Caution(say(hazard), say(action)),) if hazard else ()
    return StepText("", say(title), say(told), cautions, "", "", "")


def may_turn(state: State) -> bool:
    """Whether the spindle may turn by what was recorded last: turning, or nobody cut the power."""
    cut = value(state.world, "power") in ("off", "isolated")
    return not cut or value(state.world, "spindle") == "turning"


def _kind(state: State) -> str:
    """The place; making sure of a lathe that may turn; an end that did not accept."""
    if state.place == MAKING_SURE and may_turn(state):
        return "making-sure-live"
    if not not_accepted(state):
        return state.place
    return "finished-out" if goes_on_to(state) else "finished-unjudged"


def _making_safe(state: State) -> StepText:
    """One action at a time, its gate before it."""
    from guide.procedure.model import Caution

    wanted = wanted_to_safe(state.world, state.facts, tries=state.tries)
    told = N_("The work cannot go on as the machine stands. Bring it to rest, one thing at a time.")
    now = N_("Before this: {action}.") if wanted.trigger == "acknowledge" else N_("Now: {action}.")
    caution = Caution(
        say(N_("Do nothing else, in no other order.")),
        say(N_("If it cannot be done, press pause, stay by it and get help.")),
    )
    action = say(instruction(wanted.action))
    words = f"{say(told)}\n{say(now, action=action)}"
    return StepText("", say(N_("Make the lathe safe")), words, (caution,), "", "", "")
