"""The walk in lines: each place read out and asked, until it ends, is left, or the input ends."""

from __future__ import annotations

from guide.front.doable import runs
from guide.front.looks import how_it_stands
from guide.linear.besides import besides
from guide.linear.ends import Back, Elsewhere, Ended, Left
from guide.linear.gate import pass_gate
from guide.linear.page import read_out
from guide.linear.sitting import Sitting
from guide.linear.steps.dial import correction, readings
from guide.linear.steps.facts import facts
from guide.linear.steps.hands import done, sign_off, tighten, verdict
from guide.linear.steps.looking import looking
from guide.plain import N_
from guide.present.gate_text import of_check, of_confirming
from guide.present.questions import before_safe, instruction
from guide.present.tongue import say
from guide.procedure.model import Step
from guide.walk.flow import looks
from guide.walk.going_on import goes_on_to
from guide.walk.making_safe import wanted_to_safe
from guide.walk.recording import checks_of
from guide.walk.state import MADE_SAFE, MAKING_SAFE, MAKING_SURE, PAUSED
from guide.walk.world import value

AHEAD = N_("What was typed before this was read out is thrown away.")


def walk(at: Sitting) -> None:
    """Until the setup is left; whatever ends the input pauses it, and nothing is lost."""
    talk = at.talk
    talk.more, talk.besides = at.say_all, lambda: besides(at)
    if at.signed:
        talk.tick, talk.left_alone = at.look_whether_left_alone, at.left_alone
    talk.heard = at.desk.touch
    try:
        _until_left(at)
    except Ended:
        _pause(at)
        raise
    finally:
        talk.forget()
        at.setup.hands.clear()


def _until_left(at: Sitting) -> None:
    """Place by place."""
    try:
        while True:
            try:
                _place(at)
            except (Elsewhere, Back):
                continue
    except Left:
        return


def _pause(at: Sitting) -> None:
    """The input has ended. With the power on nobody has said that it was stopped and isolated."""
    if not runs(at.state):
        return
    if value(at.state.world, "power") == "restored":
        at.talk.say(N_("Stop the spindle and isolate the lathe now. The setup stays open; going on"
                       " begins with looking at the whole machine."))  # fmt: skip
    else:
        at.act("pause", {"why": ""})


def _place(at: Sitting) -> None:
    """Read the present place out, and ask what it asks."""
    if at.talk.keys.terminal and at.talk.keys.drain():
        at.talk.say(AHEAD)
    at.told.clear()
    read_out(at.talk.lines, at.setup, at.detail)
    step = at.setup.step
    if step is None:
        _besides(at)
    elif looks(step):
        looking(at, "done")
    elif step.kind == "gate":
        _gate(at, step)
    else:
        _by_kind(at, step)


def _by_kind(at: Sitting, step: Step) -> None:
    """What a step of this kind asks."""
    if step.kind == "task":
        done(at)
    elif step.kind == "facts":
        facts(at, step)
    elif step.kind == "readings":
        readings(at, step)
    elif step.kind == "correction":
        correction(at)
    elif step.kind == "tightening":
        tighten(at, step)
    elif step.kind == "verdict":
        verdict(at, step)
    else:
        sign_off(at)


def _gate(at: Sitting, step: Step) -> None:
    """Every check, for each person where it is asked so."""
    checks = [of_check(check, person) for check, person in checks_of(step, at.state)]
    pass_gate(at.talk, checks, lambda numbers, seconds: at.enter(
        "acknowledge", {"checks": numbers, "seconds": seconds}))  # fmt: skip


def _besides(at: Sitting) -> None:
    """Making sure, being made safe, paused, made safe, or an end."""
    place = at.state.place
    if place == MAKING_SURE:
        looking(at, "record")
    elif place == MAKING_SAFE:
        _making_safe(at)
    else:
        for name, told in how_it_stands(at.state):
            at.tell(f"{name}: {told}")
        _waiting(at) if place in (PAUSED, MADE_SAFE) else _ended(at)


def _making_safe(at: Sitting) -> None:
    """The next action, or the gate before it."""
    wanted = wanted_to_safe(at.state.world, at.state.facts, tries=at.state.tries)
    if wanted.trigger == "done":
        done(at, say(instruction(wanted.action)) + ":", action=wanted.action)
        return
    checks = [of_confirming(each) for each in before_safe(wanted)]
    pass_gate(at.talk, checks, lambda numbers, seconds: at.enter(
        "acknowledge",
        {"checks": numbers, "seconds": seconds, "action": wanted.action}))  # fmt: skip


def _waiting(at: Sitting) -> None:
    """Go on, by way of making sure; or leave it so."""
    options = [("resume", say(N_("Go on"))), ("leave", say(N_("Leave it so")))]
    if at.talk.choose(say(N_("What is to be done?")), options) == "leave":
        raise Left
    at.enter("resume", {})


def _ended(at: Sitting) -> None:
    """Finished or abandoned: nothing more to enter; perhaps what it leads into."""
    real = at.state.opening.get("mode") == "real"
    onward = goes_on_to(at.state) if real else ""
    options = [("close", say(N_("Close it")))]
    if onward:
        options.append(("onward", say(N_("Go on: true it now"))))
    if at.talk.choose(say(N_("What is to be done?")), options) == "onward":
        at.onward = onward
    raise Left
