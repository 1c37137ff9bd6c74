"""Facts: one question after the other; what is known of equipment stands there to be confirmed."""

from __future__ import annotations

from functools import partial

from guide.front.again import ASKED, support
from guide.front.kept import answers_of, beside, chosen, named, offered, overdue, register_for
from guide.front.lent import Lent
from guide.front.questions import at_this_step, in_signs, trouble
from guide.linear.asking import line_of
from guide.linear.sheet import Sheet
from guide.linear.sitting import Sitting, now
from guide.linear.talk import Line
from guide.plain import N_
from guide.present.tongue import say
from guide.procedure.model import Step

NONE = "none"


class Facts(Sheet):
    """The questions of a step, and before those that name equipment a list of what is kept."""

    def __init__(self, at: Sitting, step: Step) -> None:
        facts = {name: at.setup.procedure.facts[name] for name in step.ask}
        asked = [at_this_step(each, at.state, at.setup.procedure) for each in facts.values()]
        super().__init__(
            at.talk, [line_of(each, partial(trouble, facts[each.name])) for each in asked]
        )
        self.at, self.asked_here, self.lent = at, asked, Lent()
        self.register = register_for(at.store, at.state)
        self.stands = {each.name: each.given for each in asked if each.given}
        self.lent.remember({name: each for name, each in self.stands.items()
                            if name not in at.state.facts})  # fmt: skip
        self._fill_in({**at.state.facts, **self.stands})

    def offer(self, line: Line) -> None:
        """Equipment that is kept, to be chosen; what the results support, where that is asked."""
        if line.name == ASKED and (sentence := support(self.at.store, self.at.state)):
            self.talk.lines.tell(sentence)
        things = offered(self.register, line.name)
        if not things or line.name in self.told:
            return
        options = (*things, (NONE, say(N_("none of these"))))
        found = self.talk.answer(
            Line("", say(N_("{ask} Kept in the equipment:"), ask=line.ask), options)
        )
        if thing := chosen(self.register, found):
            self.forget(self.lent.take_back(thing.kind, self._now()))
            self._lend(thing.kind, thing.name, answers_of(thing), over=True)

    def answered(self, name: str, value: str) -> None:
        """A name that is typed fills in what is known of it; what stood there of another goes."""
        for kind in [*self.lent.renamed(self._now())]:
            self.forget(self.lent.take_back(kind, self._now()))
        self._fill_in({name: value})
        if day := overdue(self.register, self._now(), now()[:10]):
            self.talk.say(OVERDUE, day=day)

    def _now(self) -> dict[str, str]:
        """What is told, and what stands there."""
        return {**self.stands, **self.told}

    def _fill_in(self, told: dict[str, str]) -> None:
        """What is known of what an answer names, where nothing stands there."""
        names = [each.name for each in self.given]
        for thing in named(self.register, told, names):
            self._lend(thing.kind, thing.name, answers_of(thing), over=False)

    def _lend(self, kind: str, name: str, known: dict[str, str], over: bool) -> None:
        """Let answers stand there."""
        known = in_signs(self.asked_here, known)
        asked = [each for each in self.given if known.get(each.name)]
        fit = [each for each in asked if not each.options or known[each.name] in dict(each.options)]
        lent = {each.name: known[each.name] for each in fit if over or each.name not in self._now()}
        self.forget(lent)
        self.stands |= lent
        self.lent.lend(kind, name, lent)


OVERDUE = N_(
    "The calibration of this indicator ended on {day}. Use another one, or go on: the record then"
    " says so."
)


def facts(at: Sitting, step: Step) -> None:
    """Ask them, and enter them."""
    page = Facts(at, step)

    def enter(told: dict[str, str]) -> bool:
        more = beside(page.register, told, now()[:10])
        return at.enter("record", {"facts": told, **more})

    page.fill(enter)
