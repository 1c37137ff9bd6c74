"""Nobody signed on any more: after idle time, by the command, and when a sheet is closed."""

from __future__ import annotations

from typing import Any

import pytest
from textual.events import MouseDown, MouseUp
from textual.geometry import Offset

from guide.screens.modals.reason import ReasonScreen
from guide.screens.people import AskScreen
from guide.screens.sheet import SetupSheet
from guide.screens.signing import SignedOut
from guide.screens.start import StartPage
from guide.screens.steps.besides import EndForm
from guide.screens.steps.task import TaskForm
from guide.screens.widgets.field import Field


def hours_pass(at: Any) -> None:
    """Time in which nobody touches anything; the clock then goes on from there."""
    desk = at.app.desk
    before = desk.clock
    desk.clock = lambda: before() + 3600


@pytest.mark.parametrize(("who", "kinds"), [("A. Sample", []), ("C. Sample", ["take-over"])])
async def test_after_idle_time_somebody_goes_on(
    opened, mouse, small, shop, sound, monkeypatch, pin, who: str, kinds: list[str]
) -> None:
    """The same person goes on where it was, with what was typed; another one takes over."""
    shop(idle_minutes=1)
    monkeypatch.setattr("guide.screens.sheet.LOOKED_AT", 0.05)
    async with opened(mouse, procedure=small, typed_at="terminal") as at:
        await at.begun()
        sheet, line = at.sheet, at.form.query(Field).first()
        line.entry.value = "Lathe 2, half typed"
        hours_pass(at)
        window = await at.until(SignedOut)
        assert "1 min. What was typed is kept for A. Sample." in window.told_text
        assert sheet.setup.hands == {}
        await at.fill(person=who, pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        assert set(sheet.setup.hands) == {who}
        assert sheet.state.person == who
        if not kinds:
            assert at.form.query(Field).first().entry.value == "Lathe 2, half typed"
    assert [each.kind for each in sound()[1:]] == kinds


async def test_zero_minutes_sign_nobody_out(opened, quick, small, shop, monkeypatch) -> None:
    """That is the shop's choice."""
    shop(idle_minutes=0)
    monkeypatch.setattr("guide.screens.sheet.LOOKED_AT", 0.05)
    async with opened(quick, procedure=small) as at:
        await at.begun()
        hours_pass(at)
        await at.pilot.pause(0.3)
        assert set(at.sheet.setup.hands) == {"A. Sample"}


async def clicked(at: Any) -> None:
    """The usual button, by a mouse button that goes down and comes up as a terminal tells it."""
    place = at.button("done").region.offset + Offset(3, 1)
    where = {"x": place.x, "y": place.y, "screen_x": place.x, "screen_y": place.y}
    for kind in (MouseDown, MouseUp):
        event = kind(None, delta_x=0, delta_y=0, button=1, shift=False, meta=False, ctrl=False,
                     **where)  # fmt: skip
        at.app.post_message(event)
    await at.pilot.pause()


async def test_whoever_comes_back_types_nothing_with_the_first_key(
    opened, quick, small, shop
) -> None:
    """It may be somebody else: between two looks at the clock too, the key only asks who it is."""
    shop()
    async with opened(quick, procedure=small) as at:
        await at.begun()
        line = at.form.query(Field).first().focus().entry
        await at.pilot.press("end", "x")
        assert line.value == "Lathe 2x"
        hours_pass(at)
        await at.pilot.press("y")
        await at.until(SignedOut)
        assert line.value == "Lathe 2x"


async def test_whoever_comes_back_does_nothing_with_the_first_click(opened, quick, shop) -> None:
    """What has just gone on from one task to the next only asks who it is, and not even the setup
    had to refuse it."""
    shop()
    async with opened(quick, procedure="chuck-removal") as at:
        await at.begun()
        await at.to(TaskForm)
        sheet, written = at.sheet, at.sheet.state.sequence
        await clicked(at)
        await at.settle()
        assert (sheet.state.sequence, type(at.form)) == (written + 1, TaskForm)
        hours_pass(at)
        await clicked(at)
        await at.until(SignedOut)
        assert (sheet.state.sequence, sheet.refusal) == (written + 1, "")


async def test_while_nobody_is_signed_on_nothing_is_entered(
    opened, quick, small, shop, sound
) -> None:
    """Whatever asks for it: the setup itself refuses."""
    shop()
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await at.to(TaskForm)
        sheet, written = at.sheet, at.sheet.state.sequence
        sheet.action_give("sign_out")
        await at.until(SignedOut)
        assert not sheet.enter("done", {})
        assert "has not signed on" in sheet.refusal
        assert sheet.state.sequence == written
    assert len(sound()) == written


async def test_a_window_of_the_last_person_is_not_for_the_next_one(
    opened, mouse, small, shop, sound, monkeypatch, pin
) -> None:
    """A pause half asked for is dropped when somebody else takes over, and kept for the same."""
    shop(idle_minutes=1)
    monkeypatch.setattr("guide.screens.sheet.LOOKED_AT", 0.05)
    async with opened(mouse, procedure=small, typed_at="terminal") as at:
        await at.begun()
        at.sheet.action_give("pause")
        await at.until(ReasonScreen)
        hours_pass(at)
        await at.until(SignedOut)
        await at.fill(person="A. Sample", pin=pin)
        await at.until(ReasonScreen)
        hours_pass(at)
        await at.until(SignedOut)
        await at.fill(person="C. Sample", pin=pin)
        await at.until(SetupSheet)
    assert [each.kind for each in sound()] == ["open", "take-over"]


async def test_signed_out_and_closed_the_setup_waits_for_somebody(
    opened, keyboard, small, shop, sound, pin
) -> None:
    """The button says that the sheet closes; nothing is written; it is resumed with a PIN."""
    shop()
    async with opened(keyboard, procedure=small, typed_at="terminal") as at:
        await at.begun()
        setup = at.sheet.setup
        at.sheet.action_give("sign_out")
        await at.until(SignedOut)
        assert at.button("no").label.startswith("Close the sheet")
        await at.press("no")
        await at.until(StartPage)
        assert setup.hands == {}
        await at.pick(await at.row(f"resume:{setup.state.setup}"))
        await at.until(AskScreen)
        await at.fill(person="C. Sample", pin=pin)
        await at.until(SetupSheet)
    assert [each.kind for each in sound()] == ["open", "take-over"]


async def test_leaving_pauses_and_signs_out(opened, quick, small, shop, sound) -> None:
    """The sheet closes while its next page is on its way; nobody stays signed on."""
    shop()
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await at.begun()
        setup = at.sheet.setup
        at.sheet.action_give("leave")
        await at.until(ReasonScreen)
        await at.press("yes")
        await at.until(StartPage)
        await at.pilot.pause(0.1)
        assert setup.hands == {}
    assert [each.kind for each in sound()] == ["open", "pause"]


async def test_at_an_end_nobody_stays_signed_on_for_long(
    opened, quick, small, shop, monkeypatch
) -> None:
    """After idle time what goes on from there asks for a PIN; closed, it is forgotten at once."""
    shop(idle_minutes=1)
    async with opened(quick, procedure=small) as at:
        await at.begun()
        at.sheet.enter("abandon", {"why": "an invented reason"})
        await at.settle()
        assert isinstance(at.form, EndForm)
        setup = at.sheet.setup
        assert setup.hands
        hours_pass(at)
        at.sheet.left_alone()
        assert setup.hands == {}
        assert isinstance(at.app.screen, SetupSheet)
        setup.hands["A. Sample"] = object()
        await at.press("leave")
        await at.until(StartPage)
        await at.pilot.pause()
        assert setup.hands == {}
