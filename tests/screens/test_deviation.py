"""A task that is not done as written: why, who allows it, and what it does not change."""

from __future__ import annotations

from typing import Any

from guide.screens.commands import BY_NAME
from guide.screens.sheet import SetupSheet
from guide.screens.sheet_text import done_lines
from guide.screens.signing import Beside
from guide.screens.steps.gate import GateForm
from guide.screens.steps.task import TaskForm

WHY = "no bench here"


async def asked(at: Any, *, signed: bool = True) -> Beside:
    """The window that asks why, at a task."""
    await (at.begun() if signed else at.named())
    await at.to(TaskForm)
    at.sheet.action_give("deviate")
    window = await at.until(Beside)
    assert isinstance(window, Beside)
    return window


async def test_a_deviation_says_why_and_who_and_changes_nothing_of_the_machine(
    opened, each_way, small, shop, sound, pin
) -> None:
    """Offered are those who may allow it: one's own as a supervisor, another's as a machinist."""
    shop()
    async with opened(each_way, procedure=small, typed_at="terminal") as at:
        window = await asked(at)
        sheet = next(each for each in at.app.screen_stack if isinstance(each, SetupSheet))
        before = sheet.state
        assert "A gate is never passed this way" in " ".join(window.told_text.split())
        offered = [name for name, _ in window.line("person").options]
        assert offered == ["A. Sample", "C. Sample"]
        await at.fill(why=WHY, person="C. Sample", pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        assert at.sheet.state.world == before.world
        line = at.sheet.lines[-1]
        assert "\n  ✗ " in done_lines([line]).plain
        assert line.title == at.sheet.setup.procedure.by_name[before.place].title
        assert line.note == f"NOT DONE AS WRITTEN: {WHY}; allowed by C. Sample (machinist)"
    last = sound()[-1]
    assert (last.kind, last.data["allowed"]["person"]) == ("deviate", "C. Sample")


async def test_where_what_follows_needs_it_the_walk_stays_and_the_sheet_says_so(
    opened, quick, shop, sound, pin
) -> None:
    """Nothing counts as done: what needs it stays shut."""
    shop()
    async with opened(quick, procedure="chuck-removal", typed_at="terminal") as at:
        await at.begun()
        await at.to(TaskForm)
        await at.quick_page()
        assert at.sheet.state.place == "isolate"
        at.sheet.action_give("deviate")
        await at.until(Beside)
        await at.fill(why=WHY, person="C. Sample", pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        assert at.sheet.state.place == "isolate"
        assert "the walk stays here" in at.complaint
        assert "NOT DONE AS WRITTEN" in at.sheet.lines[-1].note
    assert sound()[-1].kind == "deviate"


async def test_nobody_below_a_supervisor_allows_their_own(opened, quick, small, shop) -> None:
    """A machinist at the lathe is not among those who are offered."""
    shop()
    async with opened(quick, procedure=small) as at:
        await at.begun(person="C. Sample")
        assert at.sheet.who_allow() == ("A. Sample",)


async def test_where_nobody_signs_on_a_name_is_typed(opened, quick, small, sound) -> None:
    """Who allowed it is data, and no PIN is asked."""
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await asked(at, signed=False)
        await at.fill(why=WHY, person="B. Sample")
        await at.until(SetupSheet)
        assert at.sheet.lines[-1].note == f"NOT DONE AS WRITTEN: {WHY}; allowed by B. Sample"
    assert dict(sound()[-1].data["allowed"]) == {"person": "B. Sample"}


async def test_without_a_reason_nothing_is_recorded(opened, quick, small, shop, sound, pin) -> None:
    """The window says what has no answer yet."""
    shop()
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await asked(at)
        written = len(sound())
        await at.fill(person="C. Sample", pin=pin)
        assert "“Why is it not done as written?” has no answer yet" in at.complaint
    assert len(sound()) == written


async def test_at_a_gate_there_is_no_deviation(opened, keyboard, small, shop, sound) -> None:
    """The key does nothing there, and the sheet itself refuses."""
    shop()
    async with opened(keyboard, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await at.to(GateForm)
        place, written = at.sheet.state.place, at.sheet.state.sequence
        assert not BY_NAME["deviate"].open_at(at.sheet)
        await at.pilot.press("f7")
        assert isinstance(at.app.screen, SetupSheet)
        hand = at.sheet.setup.hands["A. Sample"]
        assert not at.sheet.enter("deviate", {"why": WHY}, beside=hand)
        assert at.sheet.state.place == place
    assert len(sound()) == written
