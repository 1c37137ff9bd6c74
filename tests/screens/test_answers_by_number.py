"""What a key of a numeric keypad does at a question, and what is said where it does nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App, ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from guide.front.questions import Question
from guide.screens.glass import Glass
from guide.screens.messages import Act, Complaint
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.widgets.bar import ActionBar

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
