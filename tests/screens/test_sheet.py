"""What the setup sheet does with what is pressed, typed and refused."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

import pytest

from guide.screens.modals.menu import Menu
from guide.screens.modals.reason import ReasonScreen
from guide.screens.sheet import SetupSheet
from guide.screens.start import StartPage
from guide.screens.steps.besides import SafeActionForm
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.task import TaskForm
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press
from guide.walk.looking import ASKED

REMOVAL = {"on-nose": "this-chuck", "seat": "caught", "body": "on-plate", "bolts": "snug",
           "screws": "touching"}  # fmt: skip


async def command(at: Any, key: str) -> None:
    """A command's key, and what it opens."""
    await at.pilot.press(key)
    await at.pilot.pause()
    await at.pilot.pause()


async def at_form(opened: Any, hands: Any, kind: type, use: Callable[[Any], Any]) -> None:
    """Open a removal at the first page of a kind, and use it."""
    async with opened(hands, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.to(kind)
        await use(at)


async def test_enter_alone_never_opens_a_gate(opened, mouse) -> None:
    """However often it is pressed."""

    async def use(at: Any) -> None:
        sequence = at.form.sequence
        for _ in range(5):
            await at.pilot.press("enter")
            await asyncio.sleep(0.35)
        await at.settle()
        assert at.form.sequence == sequence
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}

    await at_form(opened, mouse, GateForm, use)


async def test_a_burst_of_digits_confirms_no_check(opened, mouse) -> None:
    """An instrument that types 1 2 3 does not acknowledge."""

    async def use(at: Any) -> None:
        await at.pilot.press("1", "2", "3", "enter")
        await asyncio.sleep(0.6)
        await at.settle()
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}

    await at_form(opened, mouse, GateForm, use)


async def test_zero_takes_back_what_was_confirmed(opened, mouse) -> None:
    """A number pressed by mistake can be undone until the last one."""

    async def use(at: Any) -> None:
        await at.confirm(next(iter(at.form.query(CheckRow))))
        await at.pilot.pause()
        assert next(row.state for row in at.form.query(CheckRow)) == "confirmed"
        await at.pilot.press("0")
        await at.pilot.pause()
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}

    await at_form(opened, mouse, GateForm, use)


async def test_a_gate_has_no_button_of_its_own(opened, mouse) -> None:
    """Nothing below the sheet can be pressed instead of the checks; the rest is there as ever."""

    async def use(at: Any) -> None:
        assert at.form.offers() == ()
        assert [each.name for each in at.sheet.query("ActionBar Press")] == ["menu"]

    await at_form(opened, mouse, GateForm, use)


async def test_making_sure_has_nothing_chosen_and_refuses_a_gap(opened, mouse) -> None:
    """Every line is answered by looking; pressing the button instead says which one is open."""

    async def use(at: Any) -> None:
        assert not any(row.value for row in at.form.query(Choices))
        await at.press("record")
        assert "has no answer yet" in at.complaint
        assert isinstance(at.form, LookForm)

    await at_form(opened, mouse, LookForm, use)


async def test_before_the_power_is_answered_no_wrench_answer_is_offered(opened, mouse) -> None:
    """Tight and locked come only once the power is seen to be off."""

    async def use(at: Any) -> None:
        rows = {row.name: row for row in at.form.query(Choices)}
        assert "locked" not in dict(rows["seat"].options)
        await at.choose(rows["power"], "isolated")
        await at.pilot.pause()
        assert "locked" in dict(rows["seat"].options)
        await at.choose(rows["seat"], "locked")
        await at.choose(rows["power"], "as-found")
        await at.pilot.pause()
        assert "locked" not in dict(rows["seat"].options)
        assert rows["seat"].value == ""

    await at_form(opened, mouse, LookForm, use)


async def test_a_refused_answer_gets_a_sentence_and_loses_nothing(opened, mouse) -> None:
    """What was typed before and beside it stays."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        while not any(each.name == "mass" for each in at.form.query(Field)):
            await at.quick_page()
        chuck, mass = at._line("chuck"), at._line("mass")
        await at.type(chuck, "8 in three-jaw (invented)")
        await at.type(mass, "heavy")
        assert at.complaint.startswith("✗ ")
        assert (chuck.value, mass.value) == ("8 in three-jaw (invented)", "heavy")


async def test_a_task_pressed_twice_is_done_once(opened, mouse) -> None:
    """A press that was meant for the page before does not pass the next one."""

    async def use(at: Any) -> None:
        form, sequence = at.form, at.form.sequence
        form.pressed("done")
        form.pressed("done")
        await at.settle()
        assert at.form.sequence == sequence + 1

    await at_form(opened, mouse, TaskForm, use)


async def test_a_press_before_the_page_can_be_read_does_not_count(opened, mouse) -> None:
    """Enter held down passes no page unread."""

    async def use(at: Any) -> None:
        at.sheet.quiet = 60
        sequence = at.form.sequence
        await at.press("done")
        await at.settle()
        assert at.form.sequence == sequence

    await at_form(opened, mouse, TaskForm, use)


async def test_pause_and_going_on_ask_for_the_whole_machine(opened, keyboard) -> None:
    """F5, a reason, go on: everything is looked at again, with what was recorded beside it."""

    async def use(at: Any) -> None:
        await command(at, "f5")
        await at.type(at._line("why"), "tea (invented)")
        await at.press("yes")
        await at.settle()
        assert "Paused" in at.text("#words")
        await at.press("resume")
        await at.settle()
        assert isinstance(at.form, LookForm)
        assert any(row.note for row in at.form.query(Choices))
        assert not any(row.value for row in at.form.query(Choices))

    await at_form(opened, keyboard, TaskForm, use)


async def test_another_person_takes_over_and_makes_sure(opened, keyboard) -> None:
    """F6 asks who; the head names them from then on."""

    async def use(at: Any) -> None:
        await command(at, "f6")
        await at.type(at._line("person"), "B. Sample")
        await at.press("yes")
        await at.settle()
        assert "B. Sample" in at.text("#head")
        assert isinstance(at.form, LookForm)

    await at_form(opened, keyboard, TaskForm, use)


async def test_abandoning_wants_a_reason_and_says_what_hangs_where(opened, keyboard) -> None:
    """F8 without a reason does nothing; with one the sheet ends and shows the machine."""

    async def use(at: Any) -> None:
        await command(at, "f8")
        await at.press("yes")
        assert "reason" in at.complaint
        await at.type(at._line("why"), "no support that stays (invented)")
        await at.press("yes")
        await at.settle()
        assert "Abandoned" in at.text("#words")
        assert "What is on the nose" in at.text("EndForm Static")

    await at_form(opened, keyboard, TaskForm, use)


async def test_an_answer_is_corrected_with_a_reason(opened, mouse) -> None:
    """F3 asks which, the new answer and why; the sheet keeps both."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.quick_page()
        await command(at, "f3")
        await at.pick(await at.row("fact:nose-size"))
        await at.pilot.pause()
        await at.type(at._line("nose-size"), "D1-6")
        await at.type(at._line("why"), "read the stamp (invented)")
        await at.press("yes")
        await at.settle()
        assert "→ D1-6" in at.text("#done")


async def test_the_answer_to_be_corrected_is_picked_by_number_and_has_a_sign(
    opened, keyboard
) -> None:
    """No colour alone says which of the rows has the focus."""
    async with opened(keyboard, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.quick_page()
        await command(at, "f3")
        rows = list(at.app.screen.query("#rest Press"))
        assert [str(each.render())[0] for each in rows[:3]] == ["▸", " ", " "]
        assert str(rows[2].render()).startswith("  3  ")
        await at.pilot.press("3")
        await at.pilot.pause()
        assert f"fact:{at.app.screen.fact}" == rows[2].name


async def test_the_step_just_done_can_be_done_again(opened, mouse) -> None:
    """F4 goes back to the questions just answered, with the answers still there."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        before = at.text("#words")
        await at.quick_page()
        await command(at, "f4")
        await at.settle()
        assert at.text("#words") == before
        assert at._line("lathe").value


async def test_brief_keeps_what_was_typed_and_every_caution(opened, keyboard) -> None:
    """F2 changes only the words of the step."""

    async def use(at: Any) -> None:
        cautions = [line for line in at.text("#words").splitlines() if line.startswith("!")]
        await command(at, "f2")
        assert [line for line in at.text("#words").splitlines() if line.startswith("!")] == cautions
        assert not at.sheet.query_one("#after").display

    await at_form(opened, keyboard, TaskForm, use)


async def test_leaving_a_running_setup_pauses_it(opened, mouse) -> None:
    """Leaving asks, pauses and goes to the start page, where the setup stands to go on with."""

    async def use(at: Any) -> None:
        await at.press("menu")
        await at.until(Menu)
        await at.pick(next(each for each in at.app.screen.query(Press) if each.name == "leave"))
        await at.until(ReasonScreen)
        await at.press("yes")
        for _ in range(50):
            await at.pilot.pause(0.02)
            if isinstance(at.app.screen, StartPage) and _rows(at):
                break
        assert any(name.startswith("resume:") for name in _rows(at))

    await at_form(opened, mouse, TaskForm, use)


def _rows(at: Any) -> list[str]:
    """The names of the rows of the start page."""
    return [row.name for row in at.app.screen.query("#rows Press")]


async def test_a_setup_that_is_open_elsewhere_is_refused_in_a_sentence(opened, mouse) -> None:
    """A second program on the same setup says where it is open, and writes nothing."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        setup = at.sheet.state.setup
        async with opened(mouse) as other:
            await other.pick(await other.row(f"resume:{setup}"))
            await other.pilot.pause()
            await other.type(other._line("person"), "B. Sample")
            await other.press("yes")
            assert "is open elsewhere" in other.complaint
            assert not isinstance(other.app.screen, SetupSheet)


async def test_a_lathe_with_an_open_setup_takes_no_second_one(opened, mouse) -> None:
    """The names typed stay, and the sentence says which setup is open."""
    async with opened(mouse, answers=REMOVAL, typed_at="terminal") as at:
        await at.begin_quickly("chuck-removal")
        async with opened(mouse) as other:
            await other.pick(await other.row("begin:adjustable-chuck"))
            await other.pilot.pause()
            await other.type(other._line("person"), "B. Sample")
            await other.type(other._line("lathe"), at.answers["lathe"])
            await other.press("yes")
            assert "has a setup open" in other.complaint
            assert other._line("person").value == "B. Sample"


async def test_what_no_person_typed_at_a_terminal_is_marked_on_every_page(opened, mouse) -> None:
    """These very tests are such a case."""

    async def use(at: Any) -> None:
        assert "NOT TYPED AT A TERMINAL" in at.text("#head")

    await at_form(opened, mouse, TaskForm, use)


async def test_at_a_terminal_there_is_no_such_mark(opened, mouse) -> None:
    """The mark means something."""
    async with opened(mouse, answers=REMOVAL, typed_at="terminal") as at:
        await at.begin_quickly("chuck-removal")
        assert "NOT TYPED" not in at.text("#head")


async def test_without_colour_nothing_on_the_screen_has_a_hue(
    opened, mouse, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR leaves grey alone, and the sign of a caution is still there."""
    monkeypatch.setenv("NO_COLOR", "1")

    async def use(at: Any) -> None:
        await at.pilot.pause()
        strips = at.sheet._compositor.render_strips()
        for strip in (strip.apply_filter(f, at.sheet.background_colors[1])
                      for strip in strips for f in at.app._filters):  # fmt: skip
            for segment in strip:
                for colour in (segment.style.color, segment.style.bgcolor) if segment.style else ():
                    if colour is not None and colour.triplet is not None:
                        red, green, blue = colour.triplet
                        assert red == green == blue
        assert "!" in at.text("#words")

    await at_form(opened, mouse, TaskForm, use)


async def test_being_made_safe_is_one_thing_at_a_time_with_its_gate(opened, quick) -> None:
    """A chuck found hanging with its bolts loose is brought to rest, then it may be left."""
    async with opened(quick, answers=REMOVAL) as at:
        await at.begin("chuck-removal")
        while "take up chuck" not in at.text("#done"):
            await at.page()
        while not isinstance(at.form, TaskForm):
            await at.page()
        await command(at, "f5")
        await at.press("yes")
        await at.settle()
        await at.press("resume")
        await at.settle()
        rows = {row.name: row for row in at.form.query(Choices)}
        found = {"power": "isolated", "seat": "on-nose", "bolts": "caught", "body": "on-plate"}
        for name in ASKED:
            first = rows[name].options[0][0]
            await at.choose(rows[name], found.get(name) or at.recorded(rows[name]) or first)
        await at.press("record")
        await at.settle()
        met = []
        while "Make the lathe safe" in at.text("#words"):
            met.append(type(at.form))
            await at.page()
        assert met.count(SafeActionForm) > 2
        assert GateForm in met
        assert "Made safe" in at.text("#words")
