"""The shop calculators on the screen: by keyboard, by mouse, and with what cannot be read."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

import pytest
from textual.widgets import Static

from guide.present.calculators import CALCULATORS
from guide.screens.calculators import CalculatorList, CalculatorPage
from guide.screens.start import StartPage
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.press import Press

BOTH = pytest.mark.parametrize("hands", ["keyboard", "mouse"])


@asynccontextmanager
async def page(request: pytest.FixtureRequest, hands: str, name: str) -> AsyncIterator[Any]:
    """The page of one calculator, reached from the start page at 80x24."""
    opened = request.getfixturevalue("opened")
    async with opened(request.getfixturevalue(hands)) as at:
        await at.pick(await at.row("calculators:"))
        await at.pick(await at.row(name))
        await there(at, CalculatorPage)
        yield at


async def there(at: Any, kind: type) -> None:
    """Until such a screen is in front."""
    for _ in range(100):
        await at.pilot.pause(0.02)
        if isinstance(at.app.screen, kind):
            return
    raise AssertionError(at.app.screen)


def row(at: Any, name: str) -> Choices:
    """A row of answers by its name."""
    return next(each for each in at.app.screen.query(Choices) if each.name == name)


def answer(at: Any) -> str:
    """What stands under the button; blank while nothing does."""
    shown = at.app.screen.query_one("#answer", Static)
    return str(shown.render()) if shown.has_class("there") else ""


@BOTH
async def test_a_sling_is_worked_out(request, hands: str) -> None:
    """From the start page to the pull in a leg, its caution and its source."""
    async with page(request, hands, "sling") as at:
        assert at.app.size == (80, 24)
        await at.choose(row(at, "units"), "inch")
        await at.type(at._line("load"), "10000")
        await at.type(at._line("legs"), "2")
        assert "5000 lb" not in answer(at)
        await at.type(at._line("angle"), "45")
        await at.pilot.pause(0.2)
        said = answer(at)
        assert said.startswith("Each leg pulls 7071.1 lb, 1.414 times")
        assert "does not say that the lift is safe" in said
        assert "Source: " in said
        assert at.complaint == ""


@BOTH
async def test_bad_input_is_one_sentence_and_loses_nothing(request, hands: str) -> None:
    """The sentence stands below, the focus on its line, every answer as it was typed."""
    async with page(request, hands, "sling") as at:
        await at.type(at._line("load"), "12 stone")
        assert at.complaint.startswith("✗ The mass 12 stone has no unit.")
        assert "Traceback" not in at.complaint
        assert at._line("load").value == "12 stone"
        assert at._line("load").entry.has_focus
        await at.type(at._line("load"), "120 kg")
        assert at.complaint == ""
        await at.type(at._line("legs"), "2")
        assert "How far the legs lean is missing." in at.complaint
        assert answer(at) == ""
        assert (at._line("load").value, at._line("legs").value) == ("120 kg", "2")


@BOTH
async def test_the_button_asks_for_what_is_missing(request, hands: str) -> None:
    """And the focus goes where it is missing."""
    async with page(request, hands, "cradle") as at:
        await at.type(at._line("centre"), "170 mm")
        await at.pick(next(each for each in at.app.screen.query(Press) if each.name == "work"))
        await at.pilot.pause()
        assert "has no answer yet" in at.complaint
        assert at._line("diameter").entry.has_focus


async def test_enter_goes_to_what_is_needed_and_then_works_it_out(opened, keyboard) -> None:
    """Blank questions that may stay blank are passed by."""
    async with opened(keyboard) as at:
        await at.pick(await at.row("calculators:"))
        await at.row("bar")
        await at.pilot.press("4")
        await there(at, CalculatorPage)
        await at.pilot.press("1")
        assert row(at, "units").value == "metric"
        assert at._line("load").entry.has_focus
        await at.pilot.press(*"25", "enter")
        assert at._line("diameter").entry.has_focus
        await at.pilot.press(*"40", "enter")
        assert row(at, "way").has_focus
        await at.pilot.press("1")
        await at.pilot.press(*"600", "enter")
        await at.pilot.pause(0.2)
        assert answer(at).startswith("Largest bending stress: 6.6 MPa")


@BOTH
async def test_escape_goes_back_and_what_was_typed_is_still_there(request, hands: str) -> None:
    """To the list, to the start page; another visit finds the answers."""
    async with page(request, hands, "lever") as at:
        await at.type(at._line("readings"), "0.200")
        await at.pilot.press("escape")
        await there(at, CalculatorList)
        await at.pick(await at.row("lever"))
        await there(at, CalculatorPage)
        assert at._line("readings").value == "0.200"
        assert row(at, "correction").value == "cosine"
        await at.pilot.press("escape")
        await there(at, CalculatorList)
        await at.pilot.press("escape")
        await there(at, StartPage)


@BOTH
async def test_a_choice_that_is_not_needed_can_be_taken_back(request, hands: str) -> None:
    """Its first answer is that nothing is said."""
    async with page(request, hands, "fit") as at:
        of = row(at, "plate-material")
        assert of.value == ""
        await at.choose(of, "cast-iron")
        assert of.value == "cast-iron"
        await at.choose(of, "")
        assert of.value == ""


async def test_the_foot_can_be_clicked(opened, mouse) -> None:
    """Working it out and going back without a key."""
    async with opened(mouse) as at:
        await at.pick(await at.row("calculators:"))
        await at.pick(await at.row("cradle"))
        await there(at, CalculatorPage)
        await at.type(at._line("centre"), "170 mm")
        at._line("diameter").entry.value = "200 mm"
        await at.press("work")
        await at.pilot.pause(0.2)
        assert answer(at).startswith("Root of the vee: 28.6 mm")
        await at.press("back")
        await there(at, CalculatorList)


async def test_an_answer_is_in_sight_and_is_taken_away_by_bad_input(opened, keyboard) -> None:
    """Its first line stands on the screen; an old answer never stands beside a new complaint."""
    async with opened(keyboard) as at:
        await at.pick(await at.row("calculators:"))
        await at.pick(await at.row("balance"))
        await there(at, CalculatorPage)
        await at.type(at._line("grade"), "6.3")
        await at.type(at._line("rpm"), "1000")
        shown = at.app.screen.query_one("#answer")
        for _ in range(100):
            await at.pilot.pause(0.05)
            if 0 < shown.region.y < 10:
                break
        assert 0 < shown.region.y < 10
        await at.type(at._line("rpm"), "0")
        await at.pilot.pause(0.1)
        assert answer(at) == ""
        assert "above zero" in at.complaint


async def test_every_calculator_opens_with_its_questions_within_the_screen(opened, quick) -> None:
    """Each page at 80 columns, no question wider than the page."""
    async with opened(quick) as at:
        at.app.open_row("calculators", "")
        await there(at, CalculatorList)
        for name, calculator in CALCULATORS.items():
            at.app.push_screen(CalculatorPage(calculator, {}))
            await there(at, CalculatorPage)
            await at.pilot.pause()
            asked = at.app.screen.asked()
            names = [each.name for each in asked if each.name != "units"]
            assert names == [each.name for each in calculator.asks], name
            assert all(each.region.right <= 80 for each in asked)
            at.app.pop_screen()
            await at.pilot.pause()


async def test_the_calculators_write_nothing(opened, keyboard) -> None:
    """No journal is made by working something out."""
    async with opened(keyboard, first_use=True) as at:
        await at.pick(await at.row("calculators:"))
        await at.row("sling")
    assert list(opened.settings.home.iterdir()) == []
