"""An instrument that types does nothing at any page but the one that reads a dial."""

from __future__ import annotations

import pytest
from textual.events import Key, Paste
from textual.screen import Screen
from textual.widgets import Input, Static

from guide.screens.calculators import CalculatorList, CalculatorPage
from guide.screens.guard import GAP
from guide.screens.modals.help import HelpScreen
from guide.screens.modals.reason import ReasonScreen
from guide.screens.people import AskScreen
from guide.screens.sheet import SetupSheet
from guide.screens.start import StartPage
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.task import TaskForm
from guide.screens.steps.verdict import VerdictForm
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

NAMES = {" ": "space", ".": "full_stop", ",": "comma", "-": "minus", "+": "plus",
         '"': "quotation_mark", "\r": "enter", "\t": "tab", "\n": "ctrl+j"}  # fmt: skip
BURSTS = ("1\r", "+0.0012\r\n", " 0,4mm\t", '.0021"\r')
"""What indicators type: digits, sign, decimal sign, perhaps a unit, then Enter or Tab."""
SAYS = "fast as an indicator types"


async def typed(at, text: str) -> None:
    """Every key at once, as an instrument sends them, and what comes of it."""
    for sign in text:
        at.app.post_message(Key(NAMES.get(sign, sign), sign))
    await at.pilot.pause(0.08)
    await at.pilot.pause()


async def by_hand(at, text: str) -> None:
    """The same keys, each long after the one before."""
    for sign in text:
        await typed(at, sign)


def standing(screen: Screen) -> tuple[object, ...]:
    """Everything on a page that a person may have answered, and where the focus is."""
    return (
        [each.value for each in screen.query(Input)],
        [each.value for each in screen.query(Choices)],
        [each.state for each in screen.query(CheckRow)],
        getattr(getattr(screen, "state", None), "sequence", None),
        screen.focused,
    )


async def nothing_happens(at, kind: type[Screen]) -> None:
    """Each burst leaves the page as it was, and one sentence says where values go in."""
    assert type(at.app.screen) is kind
    for burst in BURSTS:
        for each in at.app.screen.query("#complaint").results(Static):
            each.update("")
        at.app.clear_notifications()
        before, screens = standing(at.app.screen), list(at.app.screen_stack)
        await typed(at, burst)
        assert list(at.app.screen_stack) == screens, burst
        assert standing(at.app.screen) == before, burst
        assert SAYS in said(at), burst


def said(at) -> str:
    """What the page says, or what is said over it."""
    lines = [str(each.render()) for each in at.app.screen.query("#complaint").results(Static)]
    return "\n".join([*lines, *(each.message for each in at.app._notifications)])


async def test_the_start_page_opens_nothing(opened, quick) -> None:
    """Not even by the number of a row; a hand that presses the number opens it."""
    async with opened(quick, guarded=True) as at:
        await at.row("begin:quick-centring")
        await at.pilot.pause(0.1)
        await nothing_happens(at, StartPage)
        await by_hand(at, "1")
        await at.until(AskScreen)


async def test_the_question_who_and_which_lathe_takes_no_value(opened, quick, small) -> None:
    """Its lines are free text; what a hand types there is taken, digits and all."""
    async with opened(quick, procedure=small, guarded=True) as at:
        await at.until(AskScreen)
        await nothing_happens(at, AskScreen)
        at._line("lathe").entry.focus()
        await by_hand(at, "-2 0.5\r")
        assert at._line("lathe").value == "-2 0.5"


async def test_a_hand_sees_each_sign_at_once_and_an_instrument_s_go_off_again(
    opened, quick, small
) -> None:
    """A digit is not kept back where it is typed; what was written before a burst stays."""
    async with opened(quick, procedure=small, guarded=True) as at:
        await at.until(AskScreen)
        line = at._line("lathe").entry
        line.focus()
        await by_hand(at, "No ")
        at.app.post_message(Key("7", "7"))
        await at.pilot.pause()
        assert line.value == "No 7"
        await at.pilot.pause(0.08)
        await typed(at, "+0.0012\r")
        assert line.value == "No 7"
        assert SAYS in said(at)
        await by_hand(at, "b8")
        assert line.value == "No 7b8"
        at.app.screen.set_focus(None)
        await typed(at, "+0.0012\r")
        assert line.value == "No 7b8"


async def test_of_two_numbers_in_one_moment_neither_is_an_answer(opened, quick, small) -> None:
    """It is not known which question each is for; one after the other they are taken."""
    async with opened(quick, procedure=small, typed_at="terminal", guarded=True) as at:
        await at.named()
        await at.to(FactsForm)
        rows = [each for each in at.form.asked() if isinstance(each, Choices)]
        rows[0].chosen = ""
        rows[0].focus()
        before = [each.value for each in rows]
        await typed(at, "12")
        assert [each.value for each in rows] == before
        assert "in one moment" in said(at)
        await by_hand(at, rows[0].keys[0])
        assert rows[0].value == rows[0].options[0][0]


@pytest.mark.parametrize(
    "kind",
    [FactsForm, GateForm, TaskForm, VerdictForm, SignOffForm],
    ids=lambda kind: kind.__name__,
)
async def test_no_page_of_a_setup_but_a_dial_s_takes_a_value(opened, quick, small, kind) -> None:
    """Facts, gate, task, verdict, sign-off: nothing is confirmed, pressed, chosen or typed on."""
    name = "quick-centring" if kind is SignOffForm else small
    more = {"chuck-kind": "independent", "seat": "locked", "body": "on-plate", "bolts": "none",
            "screws": "none", "jaws": "closed"}  # fmt: skip
    more |= {} if kind is SignOffForm else {"tolerance": "0.001 in"}
    async with opened(quick, answers=more, guarded=True) as at:
        at.decisions = ["accept"] * 3
        if kind is SignOffForm:
            await at.begin_quickly(name)
        else:
            at.app.open_row("begin", name)
            await at.named()
        await at.to(kind)
        await nothing_happens(at, SetupSheet)
        assert isinstance(at.form, kind)


async def test_a_gate_still_counts_a_number_that_stands_alone(opened, quick, small) -> None:
    """And one that a burst came close to does not count, though nobody sees the burst."""
    async with opened(quick, procedure=small, guarded=True) as at:
        await at.named()
        await at.to(GateForm)
        await at.pilot.pause(0.35)
        at.app.post_message(Key("1", "1"))
        await at.pilot.pause(0.2)
        await typed(at, "-.2\r")
        await at.pilot.pause(0.6)
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}
        at.app.post_message(Key("1", "1"))
        await at.pilot.pause(0.6)
        assert next(row.state for row in at.form.query(CheckRow)) == "confirmed"


async def test_a_window_over_a_dial_s_page_takes_no_value(opened, quick, small) -> None:
    """The page below does not get it either."""
    async with opened(quick, procedure=small, guarded=True) as at:
        at.answers["tolerance"] = "0.001 in"
        await at.named()
        await at.to(TurnForm)
        form = at.form
        for key, kind in (("f1", HelpScreen), ("f5", ReasonScreen)):
            await at.pilot.press(key)
            await at.until(kind)
            await nothing_happens(at, kind)
            await at.pilot.press("escape")
            await at.until(SetupSheet)
        assert form.values == []
        await typed(at, "0.0012\r")
        assert form.values == ["0.0012"]


async def test_calculators_and_lists_take_no_value(opened, quick) -> None:
    """Where a page has no line for it, the sentence stands over the page."""
    async with opened(quick, guarded=True) as at:
        await at.row("begin:quick-centring")
        for what in ("calculators", "history", "equipment", "people"):
            at.app.open_row(what, "")
            for _ in range(100):
                await at.pilot.pause(0.02)
                if not isinstance(at.app.screen, StartPage):
                    break
            await at.pilot.pause(0.1)
            await nothing_happens(at, type(at.app.screen))
            if isinstance(at.app.screen, CalculatorList):
                await by_hand(at, "1")
                await at.until(CalculatorPage)
                await nothing_happens(at, CalculatorPage)
                await at.pilot.press("escape")
                await at.until(CalculatorList)
            await at.pilot.press("escape")
            await at.until(StartPage)


async def test_what_is_typed_unseen_is_not_shown(opened, quick, shop) -> None:
    """A PIN that came in a burst is not taken, and the sentence does not repeat it."""
    shop()
    async with opened(quick, guarded=True, first_use=True) as at:
        await at.pick(await at.row("begin:quick-centring"))
        await at.until(AskScreen)
        line = next(each for each in at.app.screen.query(Field) if each.hidden)
        line.focus()
        await typed(at, "4711\r")
        assert line.value == ""
        assert SAYS in said(at)
        assert "4711" not in said(at)


async def test_people_who_paste_or_type_quickly_are_not_hindered(opened, quick, small) -> None:
    """Pasted text stands on the line; so does a name with digits typed without a pause."""
    async with opened(quick, procedure=small, guarded=True) as at:
        await at.until(AskScreen)
        line = at._line("lathe")
        line.entry.focus()
        await at.pilot.pause()
        at.app.post_message(Paste("0.0012"))
        await at.pilot.pause(0.1)
        assert line.value == "0.0012"
        line.entry.value = ""
        await typed(at, "Lathe 2, bay 14\r")
        assert line.value == "Lathe 2, bay 14"
        line.entry.value = ""
        line.entry.focus()
        for sign in "20.5\r":
            at.app.post_message(Key(NAMES.get(sign, sign), sign))
            await at.pilot.pause(GAP * 1.7)
        await at.pilot.pause(0.1)
        assert line.value == "20.5"
