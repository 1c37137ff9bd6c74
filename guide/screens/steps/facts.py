"""Facts: one question a line of the form, answered as typed or chosen."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import TypeVar

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from guide.equipment.belongs import NAMED_BY
from guide.equipment.register import Register, Thing
from guide.front.again import ASKED, support
from guide.front.kept import (
    MARK,
    answers_of,
    beside,
    chosen,
    named,
    offered,
    overdue,
    register_for,
)
from guide.front.lent import Lent
from guide.front.opening import now
from guide.front.questions import Question, in_signs
from guide.journal.store import Store
from guide.plain import N_
from guide.screens.steps.form import Form
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.walk.state import State

Told = TypeVar("Told")
KEPT_IN_SIGHT = 2
"""Lines that stay when a page is turned on."""
Trouble = Callable[[str, str], str]
"""What is wrong with an answer to a question, as a sentence; blank when nothing is."""


class FactsForm(Form):
    """All questions of a step, and above those that name equipment a row of what is kept.

    Choosing there fills in what is known of it: shown, confirmed with the page, and changeable.
    """

    DEFAULT_CSS = """
    FactsForm .overdue { height: auto; color: $error; text-style: bold; }
    FactsForm .support { height: auto; padding: 0 2; }
    """

    def __init__(self, questions: Sequence[Question], trouble: Trouble) -> None:
        super().__init__()
        self.questions, self.trouble = tuple(questions), trouble
        self.register, self.lent = Register(), Lent()
        self.last_theirs = 0.0

    def compose(self) -> ComposeResult:
        """Rows to choose from, or a line to type on."""
        self.register = self._of_the_page(register_for, Register())
        for each in self.questions:
            if things := offered(self.register, each.name):
                yield Choices(MARK + each.name, say(N_("Kept in the equipment")), things,
                              classes="tight")  # fmt: skip
            if each.name == ASKED and (sentence := self._of_the_page(support, "")):
                yield Static(sentence, classes="support", markup=False)
            yield question_widget(each)
        yield Static("", classes="overdue", markup=False)

    def _of_the_page(self, ask: Callable[[Store, State], Told], none: Told) -> Told:
        """What the journal says for the setup of this page; `none` where there is neither."""
        state, store = getattr(self.screen, "state", None), getattr(self.app, "store", None)
        return none if state is None or store is None else ask(store, state)

    def _before(self) -> Mapping[str, str]:
        """What earlier pages of the setup were told."""
        state: State | None = getattr(self.screen, "state", None)
        return state.facts if state is not None else {}

    def on_mount(self) -> None:
        """What is known of what an earlier page named stands there where nothing else does."""
        before = self._before()
        self.lent.remember({each.name: each.given for each in self.questions
                            if each.name not in before})  # fmt: skip
        told = {**before, **self.told()}
        for thing in named(self.register, told, self.told()):
            self._fill(thing, over=False)
        self._warn()

    def first(self) -> Widget | None:
        """The first open question, or the row above it."""
        told, asked = self.told(), self.asked()
        return next((each for each in asked if not each.value
                     and not told.get((each.name or "").removeprefix(MARK))), None)  # fmt: skip

    def on_key(self, event: events.Key) -> None:
        """A key that came to one of the lines was for that line."""
        self.last_theirs = event.time

    def key_came(self, key: str, at: float) -> None:
        """A number chooses on a page of one question whose answer stood there from before.

        With several it is not known which of them is meant, and that is said.
        """
        if not key.isdecimal() or at == self.last_theirs or self.first() is not None:
            return
        asked = self.asked()
        if len(asked) == 1 and isinstance(asked[0], Choices):
            asked[0].press(key)
        else:
            self.complain(say(N_("Every line has an answer. ↑ goes back to one to change it.")))

    def answered(self, name: str, value: str) -> None:
        """What is chosen fills in its answers; a name that is typed, those that are blank.

        What stood there because of another thing is taken back before.
        """
        if name.startswith(MARK):
            if thing := chosen(self.register, value):
                self._blank(self.lent.take_back(thing.kind, self.told()))
                self._fill(thing, over=True)
        else:
            self._take_back()
            for thing in named(self.register, {name: value}, self.told()):
                self._fill(thing, over=False)
        self._warn()

    def _fill(self, thing: Thing, over: bool) -> None:
        """Write down what is known, over what stands there or not."""
        known, lent = in_signs(self.questions, answers_of(thing)), {}
        for each in self.asked():
            name = each.name or ""
            if known.get(name) and (over or not each.value) and _put(each, known[name]):
                lent[name] = known[name]
        self.lent.lend(thing.kind, thing.name, lent)

    def _take_back(self) -> None:
        """Where another thing is named than before, what stood there because of that one."""
        told = self.told()
        for kind in self.lent.renamed(told):
            self._blank([MARK + NAMED_BY[kind], *self.lent.take_back(kind, told)])

    def _blank(self, names: Collection[str]) -> None:
        """Nothing stands at these questions and rows any more."""
        for each in self.asked():
            if each.name in names:
                _put(each, "")

    def _warn(self) -> None:
        """Say in words that a calibration has ended."""
        day, sentence = overdue(self.register, self.told(), now()[:10]), ""
        if day:
            sentence = "⚠ " + say(N_(
                "The calibration of this indicator ended on {day}. Use another one, or go on: the"
                " record then says so."
            ), day=day)  # fmt: skip
        for line in self.query(".overdue").results(Static):
            line.display = bool(sentence)
            line.update(sentence)

    def pressed(self, name: str) -> None:
        """Everything answered is entered; the first that cannot be is said and shown.

        What stands there already is confirmed with the page: so nothing is entered while a line of
        it lies below what is in sight.
        """
        self._take_back()
        self._warn()
        if self.all_right() and not self._turned_over():
            told = self.told()
            self.act("record", facts=told, **beside(self.register, told, now()[:10]))

    def _turned_over(self) -> bool:
        """Whether lines lay below what is in sight: then the page is turned on, and it is said."""
        page = next((each for each in self.ancestors if isinstance(each, VerticalScroll)), None)
        if page is None or _bottom(self) <= page.region.bottom:
            return False
        page.scroll_relative(y=page.size.height - KEPT_IN_SIGHT, animate=False)
        self.complain(say(N_("More answers stand below. Look at each, then record.")))
        return True

    def wrong(self, name: str, value: str) -> str:
        """Every question has to be answered, and so that it can be read."""
        return "" if name.startswith(MARK) else self.trouble(name, value)

    def told(self) -> dict[str, str]:
        """Every answer by its name; a row of equipment is none."""
        return {name: each for name, each in super().told().items() if not name.startswith(MARK)}


def _bottom(form: FactsForm) -> int:
    """The line of the screen below the last answer, or below the warning where there is one."""
    places = [each.entry if isinstance(each, Field) else each for each in form.asked()]
    warning = form.query_one(".overdue")
    lines = [*places, warning] if warning.display else places
    return max((each.region.bottom for each in lines), default=0)


def _put(place: Choices | Field, answer: str) -> bool:
    """Write an answer down, or wipe it out; whether it can be given there."""
    if isinstance(place, Field):
        place.put(answer)
    elif answer and answer not in dict(place.options):
        return False
    else:
        place.chosen = answer
    return True


def question_widget(each: Question) -> Choices | Field:
    """The widget that asks a question."""
    if each.options:
        return Choices(each.name, each.ask, each.options, chosen=each.given, help=each.help)
    return Field(
        each.name,
        each.ask,
        value=each.given,
        help=each.help,
        may_be_unknown=each.may_be_unknown,
        usual=each.usual,
        units=each.units,
        signed=each.kind == "number",
    )
