"""The language changes at any moment of a setup, and nothing that was answered is lost by it."""

from __future__ import annotations

from dataclasses import replace

from textual.app import App, ComposeResult

from guide.front.own_language import keep_language, language_of
from guide.front.turn import reading_trouble
from guide.screens.modals.menu import Menu
from guide.screens.modals.tongue import TongueScreen
from guide.screens.sheet import SetupSheet
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import PlayForm
from guide.screens.theme import QUIET
from guide.screens.tongue import language
from guide.screens.widgets.bar import ActionBar
from guide.settings import Settings, may_be


class Standing(App[None]):
    """One form and nothing else."""

    def __init__(self, form: Form) -> None:
        super().__init__()
        self.form = form

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The colours of the program."""
        return {"quiet": QUIET}

    def compose(self) -> ComposeResult:
        """The form above its buttons."""
        yield self.form
        yield ActionBar(self.form.offers())


async def german(at) -> None:
    """From the menu, by the keys of a numeric keypad."""
    await at.pilot.press("asterisk")
    await at.until(Menu)
    await at.pilot.press("full_stop")
    asks = await at.until(TongueScreen)
    await at.pilot.press(str([*may_be("language")].index("de") + 1))
    await at.until(SetupSheet)
    await at.pilot.pause(0.2)
    await at.settle()
    assert not asks.is_attached


async def test_readings_stay_when_the_language_changes(opened, quick, small) -> None:
    """The same turn goes on where it was, and is asked in the other language."""
    async with opened(quick, procedure=small, answers={"tolerance": "0.001 in"}) as at:
        await at.named()
        await at.to(TurnForm)
        for value in ("0.0001", "0.0002"):
            await at.type(at._line("reading"), value)
        asked = at.form._field("reading").question
        await german(at)
        assert isinstance(at.form, TurnForm)
        assert at.form.values == ["0.0001", "0.0002"]
        assert at.form._field("reading").question != asked
        assert at.form._field("reading").question.startswith("Auf 90°")
        assert at.sheet.query_one(ActionBar).first.label.startswith("Weiter")


async def test_answers_stay_when_the_language_changes(opened, quick, small) -> None:
    """What was typed and what was chosen; the record says nothing of it."""
    async with opened(quick, procedure=small) as at:
        await at.named()
        assert isinstance(at.form, FactsForm)
        await at.type(at._line("tolerance"), "0.001 in")
        row = next(each for each in at.form.asked() if each.name == "nose")
        await at.choose(row, "camlock")
        at.sheet.query_one(ActionBar).focus_first()
        before, sequence = at.form.told(), at.sheet.state.sequence
        await german(at)
        assert at.form.told() == before
        assert at.sheet.state.sequence == sequence


async def test_what_came_by_wire_is_still_known_to_when_the_language_changes() -> None:
    """The readings of a push and a pull, on a form of its own."""
    before, after = (PlayForm("in", reading_trouble) for _ in range(2))
    pages = [Standing(each) for each in (before, after)]
    async with pages[0].run_test():
        before.take_sent("0.0001", "Indicator 3")
        kept = before.kept()
    async with pages[1].run_test():
        after.put_back(kept)
        assert after.told() == {"pushed": "0.0001", "pulled": ""}
        assert after.sent == {"pushed": ("0.0001", "Indicator 3")}


async def test_the_language_follows_the_person(opened, quick, small) -> None:
    """One who chose German has it at every setup; who takes over has the one of all screens."""
    async with opened(quick, procedure=small) as at:
        await at.named("A. Sample")
        await german(at)
        assert at.button("menu").label.startswith("Menü")
        at.sheet.enter("take-over", {"from": "A. Sample"}, person="B. Sample")
        await at.settle()
        assert at.button("menu").label.startswith("Menu ")
        at.sheet.enter("take-over", {"from": "B. Sample"}, person="A. Sample")
        await at.settle()
        assert at.button("menu").label.startswith("Menü")
        at.sheet.close()
        await at.pilot.pause(0.2)
        assert language() == "en"


def test_a_choice_that_is_spoilt_or_held_counts_for_nothing(tmp_path) -> None:
    """What the environment says comes first; what is not offered here is the language of all."""
    settings = Settings(home=tmp_path)
    keep_language("A. Sample", "de", settings)
    assert language_of("A. Sample", settings) == "de"
    assert language_of("B. Sample", settings) == "en"
    held = replace(settings, language="es", held=frozenset({"language"}))
    assert language_of("A. Sample", held) == "es"
    for spoilt in ("{", "[]", '{"A. Sample": 3}', '{"A. Sample": "tlh"}'):
        (tmp_path / "languages.json").write_text(spoilt)
        assert language_of("A. Sample", settings) == "en"
