"""What hands do and say: a task, a tightening, a verdict, the sign-off."""

from __future__ import annotations

from guide.front.results import MEANINGS, Result, advised, decisions, results, summary
from guide.front.tightening import passes, tightening, torque_trouble
from guide.linear.ends import Back
from guide.linear.sheet import Sheet
from guide.linear.sitting import Sitting
from guide.linear.talk import Line
from guide.plain import N_
from guide.present.tongue import say
from guide.present.usual import SOURCES, STOPPED, units
from guide.procedure.model import Step

FIRST = N_("This is the first question here. Type * for what else can be done.")


def done(at: Sitting, question: str = "", **data: object) -> None:
    """One number says that it was done."""
    while True:
        try:
            at.talk.choose(question or say(N_("When it is done:")), [("done", say(N_("done")))])
        except Back:
            at.talk.say(FIRST)
            continue
        if at.enter("done", data):
            return


class Tightening(Sheet):
    """The order and the stages; for a torque the wrench, the figure, its source, the check pass."""

    def __init__(self, at: Sitting, step: Step) -> None:
        super().__init__(at.talk)
        self.at, self.step, self.known = at, step, tightening(step, at.state)
        known = {"torque": self.known.torque, "source": self.known.source}
        self.stands = {name: each for name, each in known.items() if each}

    def lines(self) -> tuple[Line, ...]:
        """Without a wrench no torque is known."""
        yes_no = (("yes", say(N_("yes"))), ("no", say(N_("no, by feel"))))
        wrench = Line("wrench", say(N_("Is there a torque wrench for it?")), yes_no)
        checked = N_("Gone round once more at full torque until none moved?")
        check = Line("check_pass", say(checked), (("yes", say(N_("yes, none moved"))),))
        figure = (
            Line("torque", say(N_("The maker's torque, with its unit:")), units=units("torque"),
                 help=self.known.comparison, trouble=torque_trouble),
            Line("source", say(N_("Where that figure comes from:")),
                 usual=tuple(say(each) for each in SOURCES)),
        )  # fmt: skip
        return (wrench, *(figure if self.told.get("wrench") == "yes" else ()), check)

    def answered(self, name: str, value: str) -> None:
        """The stages follow the torque."""
        if name == "torque":
            self.talk.lines.tell(passes(self.step, self.at.state, value))


def tighten(at: Sitting, step: Step) -> None:
    """Easing, snugging, touching and nipping are done; a torque is entered with its source."""
    page = Tightening(at, step)
    at.tell(page.known.what)
    if order := passes(step, at.state, page.known.torque):
        at.tell(order)
    if page.known.with_torque:
        page.fill(lambda told: at.enter("record", told))
        return
    while True:
        try:
            at.talk.choose(say(N_("When it is done:")), [("done", say(N_("done")))])
        except Back:
            at.talk.say(FIRST)
            continue
        if at.enter("record", {}):
            return


class Verdict(Sheet):
    """What is decided; stopping asks for a reason."""

    def __init__(self, at: Sitting, step: Step) -> None:
        super().__init__(at.talk)
        self.options = decisions(step, at.state)

    def lines(self) -> tuple[Line, ...]:
        """The decision, and where it is to stop why."""
        usual = tuple(say(each) for each in STOPPED)
        why = Line("why", say(N_("Why is it stopped? (for the record)")), usual=usual)
        decided = Line("decision", say(N_("What is decided?")), self.options)
        return (decided, *([why] if self.told.get("decision") == "stop" else ()))


def verdict(at: Sitting, step: Step) -> None:
    """What was found, then what is decided."""
    for each in results(step, at.state):
        _tell(at, each)
    if said := advised(step, at.state):
        at.tell(said.removeprefix("→ "))
    Verdict(at, step).fill(lambda told: at.enter("record", told))


def _tell(at: Sitting, result: Result) -> None:
    """The verdict in words first, then its figures, flags and causes."""
    for each in (f"{result.name}: {result.verdict}.", *result.lines):
        at.tell(each)
    for sentence, causes in result.flags:
        at.tell(sentence)
        for place, cause in enumerate(causes, start=1):
            at.tell(say(N_("Likely cause {place}: {cause}"), place=place, cause=cause))


def sign_off(at: Sitting) -> None:
    """What is handed over, what the name means, the name by the one who signs."""
    for title, told in summary(at.state):
        at.tell(f"{title}: {told}")
    meanings = tuple((each, say(words)) for each, words in MEANINGS.items())
    lines = (
        Line("meaning", say(N_("What does your name here mean?")), meanings),
        Line("name", say(N_("Your name, given by you:")), usual=at.state.people[-1:]),
    )

    def enter(told: dict[str, str]) -> bool:
        return at.enter("record", {"name": told["name"], "meaning": MEANINGS[told["meaning"]]})

    Sheet(at.talk, lines).fill(enter)
