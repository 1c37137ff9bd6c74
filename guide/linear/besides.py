"""What else can be done at a setup, by number: correct, again, pause, take over, deviate, leave."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from guide.front.doable import correctable, may_deviate_here, may_do_again, runs, who_allow
from guide.front.questions import question, trouble
from guide.front.signing_words import DEVIATED, NOBODY_ELSE
from guide.linear.asking import line_of
from guide.linear.ends import Back, Elsewhere, Left
from guide.linear.signing import who, who_allows
from guide.linear.talk import Line
from guide.plain import N_
from guide.present.sheet import lines
from guide.present.tongue import language, say, written
from guide.present.usual import ABANDONED, CORRECTED, PAUSED_FOR
from guide.present.visible import visible
from guide.walk.world import value

if TYPE_CHECKING:
    from guide.linear.sitting import Sitting

STOP_FIRST = N_("Stop the spindle and isolate the lathe now. Go on when that is done.")
LAST = 5
"""Lines of what was done that are read out."""


@dataclass(frozen=True, slots=True)
class Besides:
    """One thing that can be done: when, and how."""

    words: str
    is_open: Callable[[Sitting], bool]
    do: Callable[[Sitting], None]


def besides(at: Sitting) -> None:
    """Ask which, and do it; raises `Elsewhere` where the setup stands elsewhere then."""
    before = at.state.sequence
    listed = [each for each in LIST if each.is_open(at)]
    options = [(each.words, say(each.words)) for each in listed]
    with at.talk.inside():
        try:
            words = at.talk.choose(say(N_("What else is to be done? / goes back.")), options)
            next(each for each in listed if each.words == words).do(at)
        except Back:
            return
    if at.state.sequence != before:
        raise Elsewhere


def reason(at: Sitting, ask: str, usual: tuple[str, ...], blank: bool = False) -> str:
    """A reason, in a few words or by number."""
    words = tuple(say(each) for each in usual)
    return at.talk.answer(Line("why", say(ask), usual=words, may_be_blank=blank))


def stop_first(at: Sitting) -> None:
    """With the power on, the lathe is stopped and isolated before it is paused."""
    if value(at.state.world, "power") == "restored":
        at.talk.choose(say(STOP_FIRST), [("done", say(N_("It is stopped and isolated")))])


def _pause(at: Sitting) -> None:
    stop_first(at)
    at.act("pause", {"why": reason(at, N_("Why is it paused? (may stay blank)"), PAUSED_FOR, True)})


def _leave(at: Sitting) -> None:
    if runs(at.state):
        stop_first(at)
        ask = N_("It is paused when you leave. Why? (may stay blank)")
        if not at.act("pause", {"why": reason(at, ask, PAUSED_FOR, True)}):
            return
    raise Left


def _correct(at: Sitting) -> None:
    facts, given = at.setup.procedure.facts, correctable(at.setup)
    if not given:
        at.talk.say(N_("Nothing was answered yet that could be corrected."))
        return
    options = []
    for name, each in given.items():
        asked = question(facts[name], each)
        options.append((name, f"{asked.ask} {visible(dict(asked.options).get(each, each))}"))
    name = at.talk.answer(Line("", say(N_("Which answer is to be corrected?")), tuple(options)))
    asked = question(facts[name], given[name])
    new = at.talk.answer(line_of(asked, lambda text: trouble(facts[name], text)))
    why = reason(at, N_("Why is it corrected?"), CORRECTED)
    at.act("correct", {"fact": name, "new": new, "why": why, "old": given[name]})


def _again(at: Sitting) -> None:
    at.act("again", {"step": at.state.entries[-1].place})


def _take_over(at: Sitting) -> None:
    people = at.people()
    if at.signed and not people:
        at.talk.say(NOBODY_ELSE)
        return
    ask = say(N_("Who takes over?"))
    at.go_on_with(*who(at.talk, at.desk, ask, people, at.signed))


def _deviate(at: Sitting) -> None:
    step = at.setup.step
    if step is None:
        return
    allow = who_allow(at.state, at.known, at.desk)
    if at.signed and not allow:
        at.talk.say(NOBODY_ELSE)
        return
    why, name, hand = who_allows(at, written(step.title), allow)
    allowed = {"allowed": {"person": name}} if hand is None else {}
    if at.act("deviate", {"why": why, **allowed}, beside=hand) and at.state.place == step.name:
        at.talk.say(DEVIATED)


def _abandon(at: Sitting) -> None:
    at.talk.say(N_("The record keeps what is on the lathe now, and the next setup begins there."))
    at.act("abandon", {"why": reason(at, N_("Why is it abandoned?"), ABANDONED)})


def _detail(at: Sitting) -> None:
    at.detail = "brief" if at.detail == "full" else "full"
    brief = N_("From now on only the short list is said; ? says everything.")
    at.talk.say(brief if at.detail == "brief" else N_("From now on everything to do is said."))


def _done_so_far(at: Sitting) -> None:
    for each in lines(at.state, at.setup.procedure, language())[-LAST:]:
        at.talk.lines.tell(f"{each.sequence}: {each.title}{': ' if each.value else ''}{each.value}")


def _sign_out(at: Sitting) -> None:
    at.talk.say(N_("{person} is signed out."), person=visible(at.state.person))
    at.sign_on_again()


def _running(at: Sitting) -> bool:
    return not at.state.ended


LIST = (
    Besides(N_("Correct an answer given before; the old one stays on record."), _running, _correct),
    Besides(N_("Do the step just done again."), lambda at: may_do_again(at.setup), _again),
    Besides(N_("Hear what was done last."), lambda at: True, _done_so_far),
    Besides(N_("Pause; everything is looked at again before work goes on."),
            lambda at: runs(at.state), _pause),
    Besides(N_("Another person goes on from here."), _running, _take_over),
    Besides(N_("Record that this task was not done as written."),
            lambda at: may_deviate_here(at.setup), _deviate),
    Besides(N_("Say everything of a step, or only the short list."), _running, _detail),
    Besides(N_("Sign out; whoever goes on gives a PIN."),
            lambda at: at.signed and _running(at), _sign_out),
    Besides(N_("End this setup unfinished, with a reason."), _running, _abandon),
    Besides(N_("Leave; a running setup is paused."), lambda at: True, _leave),
)  # fmt: skip
"""In the order in which they are read out."""
