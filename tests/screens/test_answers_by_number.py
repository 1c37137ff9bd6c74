"""What a key of a numeric keypad does at a question, and what is said where it does nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App, ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from guide.front.questions import Question
from guide.front.questions import trouble as of_fact
from guide.procedure.model import Fact, Place
from guide.screens.glass import Glass
from guide.screens.messages import Act, Complaint
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.theme import QUIET
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.beside_line import USUAL
from guide.screens.widgets.field import ALONE

SCREWS = (("3", "three"), ("4", "four"), ("6", "six"))
KEYS = {"/": "slash", ".": "full_stop", "*": "asterisk", "-": "minus", "\r": "enter"}


def asks(name: str, **more: Any) -> Question:
    """An invented question."""
    given = {"ask": f"{name}?", "help": "", "options": (), "may_be_unknown": False, "given": ""}
    return Question(name, **{**given, **more})


def no_trouble(name: str, text: str) -> str:
    """Everything can be read but what is blank or refused."""
    return "It is refused." if text in ("", "2027") else ""


class Page(App[None]):
    """One form of questions, and what it says."""

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form, self.said, self.acts = form, "", []

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The colours of the program."""
        return {"quiet": QUIET}

    def get_default_screen(self) -> Screen[Any]:
        """As every page of the program stands on."""
        return Glass(id="_default")

    def compose(self) -> ComposeResult:
        """The form above its button."""
        yield self.form
        yield Static("")
        yield ActionBar(self.form.offers())

    def on_mount(self) -> None:
        """At the first question."""
        first = self.form.first() or self.query_one(ActionBar).first
        assert first is not None
        first.focus()

    def on_complaint(self, event: Complaint) -> None:
        """What is said."""
        self.said = event.sentence

    def on_act(self, event: Act) -> None:
        """What is entered."""
        self.acts.append(event.data)


class Hand:
    """Presses the keys of a keypad at one page."""

    def __init__(self, page: Page, pilot: Any) -> None:
        self.page, self.pilot = page, pilot

    async def press(self, signs: str) -> None:
        """Each key, long enough after the one before that it is by hand."""
        for sign in signs:
            await self.pilot.press(KEYS.get(sign, sign))
        await self.pilot.pause()

    def value(self, name: str) -> str:
        """What stands at a question."""
        return self.asked(name).value

    def asked(self, name: str) -> Any:
        """A question."""
        return next(each for each in self.page.form.asked() if each.name == name)

    @property
    def where(self) -> str:
        """The question that has the focus; blank where none has."""
        focused = self.page.focused
        line = [focused, *focused.ancestors] if focused else []
        asked = self.page.form.asked()
        return next((each.name or "" for each in line if each in asked), "")


@pytest.fixture
def questions() -> Callable[..., Any]:
    """Opens a page of questions with a hand at its keys."""
    from contextlib import asynccontextmanager

    @asynccontextmanager
    async def opened(*asked: Question, trouble: Any = no_trouble) -> Any:
        page = Page(FactsForm(asked, trouble))
        async with page.run_test() as pilot:
            await pilot.pause()
            yield Hand(page, pilot)

    return opened


async def test_where_the_answers_are_numbers_a_digit_is_that_number(questions) -> None:
    """Three screws are answered by 3, and its tile says so; never the third answer."""
    async with questions(asks("screws", options=SCREWS)) as hand:
        tiles = str(hand.asked("screws").render())
        assert "3 three" in tiles
        assert "6 six" in tiles
        await hand.press("3")
        assert hand.value("screws") == "3"


async def test_a_digit_that_is_no_answer_is_said_to_be_none(questions) -> None:
    """With the keys that are, and nothing is chosen."""
    async with questions(asks("screws", options=SCREWS)) as hand:
        await hand.press("5")
        assert hand.value("screws") == ""
        assert "none of the answers" in hand.page.said
        assert "3, 4, 6" in hand.page.said


async def test_beside_numbers_another_answer_is_nought_and_not_known_a_point(questions) -> None:
    """So no digit stands for another number there either."""
    options = (("3", "three"), ("6", "six"), ("other", "another number"), ("unknown", "not known"))
    async with questions(asks("holes", options=options)) as hand:
        await hand.press("3")
        assert hand.value("holes") == "3"
        hand.asked("holes").focus()
        await hand.press("0")
        assert hand.value("holes") == "other"
        hand.asked("holes").focus()
        await hand.press(".")
        assert hand.value("holes") == "unknown"


async def test_answers_in_words_are_counted(questions) -> None:
    """As they stand, from 1."""
    async with questions(asks("unit", options=(("in", "inch"), ("mm", "millimetre")))) as hand:
        await hand.press("2")
        assert hand.value("unit") == "mm"


THREADS = ("M8", "M10", "M12", "3/8-16", "1/2-13")


async def test_a_value_that_begins_with_a_tiles_digit_goes_to_the_line_whole(questions) -> None:
    """A thread of 3/8 is not the third thread with an 8 behind it."""
    async with questions(asks("bolt-thread", usual=THREADS), asks("class", usual=("8.8",))) as hand:
        await hand.press("3/8\r")
        assert hand.value("bolt-thread") == "3/8"
        await hand.press("3.5\r")
        assert hand.value("class") == "3.5"


@pytest.mark.parametrize("keys", ["3", "3\r"])
async def test_a_digit_that_stays_alone_is_the_tile(questions, keys: str) -> None:
    """Followed by nothing, or by Enter; the next question then has the focus."""
    async with questions(asks("bolt-thread", usual=THREADS), asks("other")) as hand:
        await hand.press(keys)
        await hand.pilot.pause(ALONE + 0.1 if keys == "3" else 0)
        assert hand.value("bolt-thread") == "M12"
        assert hand.where == "other"


async def test_a_digit_over_an_answer_is_the_tile_too(questions) -> None:
    """Whatever stood there, and whether the tiles or the line had the focus."""
    async with questions(asks("chuck", usual=("the only one", "another"), given="Chuck 7")) as hand:
        hand.asked("chuck").focus()
        await hand.press("1\r")
        assert hand.value("chuck") == "the only one"
        hand.asked("chuck").beside(USUAL).focus()
        await hand.press("2")
        await hand.pilot.pause(0.1)
        assert hand.value("chuck") == "another"


async def test_where_no_usual_answer_begins_with_a_digit_nothing_is_waited_for(questions) -> None:
    """A name picked by its number is there before a second one could be typed."""
    async with questions(asks("person", usual=("A. Sample", "B. Sample")), asks("other")) as hand:
        await hand.press("2")
        await hand.pilot.pause(ALONE / 4)
        assert hand.value("person") == "B. Sample"
        assert hand.where == "other"


async def test_a_digit_that_is_known_already_stays_what_it_is(questions) -> None:
    """A chuck that was named 1 before is still that chuck."""
    async with questions(asks("chuck", usual=("the only one", "another"), given="1")) as hand:
        assert hand.value("chuck") == "1"


async def test_a_refused_answer_is_typed_over(questions) -> None:
    """With sixteen keys nothing could be wiped out."""
    async with questions(asks("date")) as hand:
        await hand.press("2027\r")
        assert hand.page.said == "It is refused."
        await hand.press("2028-01-31\r")
        assert hand.value("date") == "2028-01-31"


async def test_a_stroke_goes_back_a_question_from_wherever_an_answer_would_begin(questions) -> None:
    """From a blank line, from one that stands there marked, from tiles above it, from the foot."""
    asked = (asks("first"), asks("second", usual=("a", "b")), asks("third", given="stands"))
    async with questions(*asked) as hand:
        await hand.press("11\r")
        assert hand.where == "second"
        await hand.press("/")
        assert (hand.where, hand.value("first")) == ("first", "11")
        hand.asked("third").focus()
        await hand.press("/")
        assert (hand.where, hand.value("third")) == ("second", "stands")
        hand.page.query_one(ActionBar).focus_first()
        await hand.press("/")
        assert hand.where == "third"


async def test_a_stroke_below_a_line_goes_to_the_line(questions) -> None:
    """A figure whose unit is asked can be typed anew."""
    async with questions(asks("first"), asks("length", units=("in", "mm"))) as hand:
        await hand.press("11\r3\r/4\r1")
        assert hand.value("length") == "4 in"


async def test_enter_takes_the_one_unit_that_there_is(questions) -> None:
    """And does not go round between line and unit."""
    async with questions(asks("speed", units=("rpm",)), asks("next")) as hand:
        await hand.press("30\r\r")
        assert hand.value("speed") == "30 rpm"
        assert hand.where == "next"


async def test_enter_on_two_units_says_what_to_press(questions) -> None:
    """Neither is taken."""
    async with questions(asks("length", units=("in", "mm"))) as hand:
        await hand.press("30\r\r")
        assert hand.value("length") == "30"
        assert "number of the unit" in hand.page.said


@pytest.mark.parametrize("anew", ["0.5", ".5", "3"])
async def test_a_figure_typed_beside_the_units_is_typed_anew(questions, anew) -> None:
    """No digit that is no unit's number is lost; it stands in the place of the figure before."""
    async with questions(asks("length", units=("in", "mm"))) as hand:
        await hand.press(f"11\r{anew}\r2")
        assert hand.value("length") == f"{anew} mm"


async def test_a_point_where_it_has_to_be_known_says_what_to_do(questions) -> None:
    """Look, ask, else pause; at a line as at answers to choose from."""
    fact = Fact("bore", "Which bore?", "length", {}, "", False, Place("", 0))

    def trouble(name: str, text: str) -> str:
        return of_fact(fact, text)

    asked = asks("bore", units=("in", "mm")), asks("screws", options=SCREWS)
    async with questions(*asked, trouble=trouble) as hand:
        await hand.press(".\r")
        assert "has to be known" in hand.page.said
        hand.page.said = ""
        hand.asked("screws").focus()
        await hand.press(".")
        assert "has to be known" in hand.page.said


@pytest.mark.parametrize(("kind", "stands"), [("text", ""), ("length", ""), ("number", "+")])
async def test_a_plus_is_typed_only_where_an_answer_may_have_one(questions, kind, stands) -> None:
    """Elsewhere it turns the page, as the line below the page says."""
    async with questions(asks("nose-size", kind=kind)) as hand:
        await hand.press("+")
        assert hand.asked("nose-size").entry.value == stands
