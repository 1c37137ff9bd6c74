"""A digital indicator that acts as a keyboard: its values land on the line and do nothing else."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from textual.events import Key

from guide.front.correction import Advice
from guide.front.turn import reading_trouble
from guide.screens.messages import Act
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.readings import Turn, TurnForm
from guide.screens.steps.readings_play import AlongForm, PairForm, PlayForm
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.choices import Choices

SMALL = str(Path(__file__).with_name("small.yaml"))
SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
NAMES = {" ": "space", ".": "full_stop", "/": "slash", ",": "comma", "-": "minus", "+": "plus",
         '"': "quotation_mark", "\r": "enter", "\t": "tab", "\n": "ctrl+j"}  # fmt: skip
"""What the terminal calls the keys that an indicator sends."""
APART = 0.5
"""Seconds after which a key has nothing to do with the one before."""
TURN = Turn("in", {0.0: "1", 90.0: "2", 180.0: "3", 270.0: "4"}, (8, 4), "anticlockwise")
ADVICE = Advice(screw=2, reads="0.0120", by="-0.0040", bring_to="0.0080", ease="screw 4",
                tighten="screw 2", why="It is the larger of the two.", angle=90.0, high=100.0,
                eases=(4,), tightens=(2,))  # fmt: skip


def types(at: Any, text: str) -> None:
    """Every key of a text at once, as an instrument sends them."""
    for sign in text:
        at.app.post_message(Key(NAMES.get(sign, sign), sign))


async def taken(at: Any, text: str, wait: float = 0.05) -> None:
    """The keys, and what they do."""
    types(at, text)
    await at.pilot.pause(wait)
    await at.pilot.pause()


async def seen(at: Any, *words: str) -> None:
    """Wait until all of these words stand on the screen together."""
    text = ""
    for _ in range(60):
        await at.pilot.pause(0.05)
        text = "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())
        if all(each in text for each in words):
            return
    raise AssertionError(([each for each in words if each not in text], text))


@pytest.fixture
def at_small(opened, quick) -> Callable[..., Any]:
    """The small procedure after so many pages, at a size."""

    @asynccontextmanager
    async def begin(pages: int, size: tuple[int, int] = (80, 24)) -> Any:
        async with opened(quick, size=size, procedure=SMALL, typed_at="terminal") as at:
            at.answers["tolerance"] = "0.001 in"
            await at.named()
            for _ in range(pages):
                await at.page()
            await at.pilot.pause(0.1)
            yield at

    return begin


@pytest.fixture
def instead(monkeypatch: pytest.MonkeyPatch) -> Callable[[Callable[[], Any]], None]:
    """Another form where the small procedure reads a turn."""

    def put(make: Callable[[], Any]) -> None:
        from guide.screens import growing_page

        real = growing_page.form_for

        def form_for(procedure: Any, state: Any) -> Any:
            form = real(procedure, state)
            return make() if isinstance(form, TurnForm) else form

        monkeypatch.setattr(growing_page, "form_for", form_for)

    return put


def acts(at: Any, monkeypatch: pytest.MonkeyPatch) -> list[Act]:
    """What the form asks the sheet to enter from now on, which is then not entered."""
    told: list[Act] = []
    monkeypatch.setattr(at.form, "act", lambda trigger, **data: told.append(Act(trigger, data, 0)))
    return told


@SIZES
async def test_a_value_lands_on_the_line_and_the_next_position_is_asked(at_small, size) -> None:
    """With a sign, with spaces, with the unit, with a decimal comma, by every usual end."""
    async with at_small(3, size) as at:
        for text in ("+0.0012\r", "  -0.0004  \t", "0.0009in\r\n", "0,0003\t\r", '.0001"\r\r'):
            await taken(at, text)
        assert at.form.values == ["+0.0012", "-0.0004", "0.0009", "0.0003", ".0001"]
        assert at.form._field("reading").question.startswith("Turn to 225°")
        assert at.complaint == ""


async def test_values_that_come_faster_than_they_are_painted_are_kept_apart(at_small) -> None:
    """A whole turn in one burst, and the first position again."""
    async with at_small(3) as at:
        await taken(at, "".join(f"{k / 1000:.3f}\r" for k in range(9)), 0.3)
        assert at.form.values == [f"{k / 1000:.3f}" for k in range(9)]
        assert isinstance(at.form, TurnForm)


def focus(at: Any, where: str) -> None:
    """The focus on a button, a row of answers or nothing."""
    if where == "nothing":
        at.sheet.set_focus(None)
    elif where == "count":
        next(each for each in at.form.query(Choices) if each.name == "count").focus()
    else:
        at.button(where).focus()


@SIZES
async def test_a_value_finds_its_line_wherever_the_focus_is(at_small, size) -> None:
    """On a row of answers, a button or nothing: taken, and nothing is pressed or chosen.

    Afterwards the focus is on the line.
    """
    async with at_small(3, size) as at:
        values: list[str] = []
        for where, end in (("count", "\t"), ("record", "\r"), ("back", "\t"), ("nothing", "\r"),
                           ("back", "\r\n"), ("record", "\t\r")):  # fmt: skip
            focus(at, where)
            await at.pilot.pause()
            values += ["-0.0021"]
            await taken(at, f"{' ' * (where != 'count')}-0.0021in{end}", APART)
            assert at.form.values == values, where
            assert at.app.focused is at.form._entry, where
            assert at.complaint == ""
        assert at.form.count == 8


async def test_two_values_at_once_find_their_line_from_a_button(at_small) -> None:
    """The second one does not depend on where the focus goes after the first."""
    async with at_small(3) as at:
        await taken(at, "0.0001\r")
        focus(at, "back")
        await at.pilot.pause()
        await taken(at, "0.0002\r0.0003\t", APART)
        for _ in range(100):
            if len(at.form.values) == 3:
                break
            await at.pilot.pause(0.02)
        assert at.form.values == ["0.0001", "0.0002", "0.0003"]


async def test_a_sign_typed_on_a_button_goes_to_the_line_and_the_focus_follows(at_small) -> None:
    """A hand that types slowly does not have to look where the focus is."""
    async with at_small(3) as at:
        at.button("record").focus()
        await at.pilot.pause()
        await taken(at, "-", APART)
        assert (at.form._entry.value, at.app.focused) == ("-", at.form._entry)
        await taken(at, ".", APART)
        await taken(at, "4\r")
        assert at.form.values == ["-.4"]


async def test_a_number_alone_still_chooses_and_a_space_alone_still_presses(at_small) -> None:
    """What a person presses keeps its meaning, a moment later."""
    async with at_small(3) as at:
        next(each for each in at.form.query(Choices) if each.name == "count").focus()
        await at.pilot.pause()
        await taken(at, "4", APART)
        assert at.form.count == 4
        at.form._entry.value = "0.001"
        at.button("record").focus()
        await at.pilot.pause()
        await taken(at, " ", APART)
        assert at.form.values == ["0.001"]


async def test_a_stroke_where_one_reads_takes_the_last_value_back(at_small) -> None:
    """It comes back marked, so that what is typed next stands in its place; and so on back."""
    async with at_small(3) as at:
        await taken(at, "0.0001\r0.0002\r")
        await taken(at, "/", APART)
        assert (at.form.values, at.form._entry.value) == (["0.0001"], "0.0002")
        await taken(at, "0.0003\r")
        assert at.form.values == ["0.0001", "0.0003"]
        await taken(at, "//", APART)
        assert (at.form.values, at.form._entry.value) == ([], "0.0001")
        assert at.sheet.state.place == "turn"


async def test_a_turn_that_is_gone_moves_no_page(at_small) -> None:
    """Its page was laid out once more after the next one came; the program goes on."""
    async with at_small(3) as at:
        form = at.form
        await taken(at, "0.0001\r")
        await form.remove()
        form._in_sight()
        assert not form.is_attached


async def test_what_was_watched_goes_with_the_turn_it_was_watched_over(at_small) -> None:
    """The closing read again leaves it standing; a reading of the turn read again takes it away."""
    async with at_small(3) as at:
        await taken(at, "0.0001\r" * 9, APART)
        for each in ("0.0002\r", "0..2\r", "0.0002\r", "/", "/", "/"):
            await taken(at, each, APART)
        assert len(at.form.values) == 8
        await taken(at, "0.0001\r", APART)
        assert at.form.complete
        assert [at.form._field(name).value for name in ("low", "high")] == ["0.0002"] * 2
        at.form.action_one_back()
        at.form.action_one_back()
        await taken(at, "0.0001\r" * 2, APART)
        assert at.form.complete
        assert [at.form._field(name).value for name in ("low", "high")] == ["", ""]


async def test_one_watched_value_alone_is_asked_for_the_other_or_taken_back(at_small) -> None:
    """The focus goes to the line that is blank; a point takes a watched value back."""
    async with at_small(3) as at:
        await taken(at, "0.0001\r" * 9, APART)
        await taken(at, "0.0002\r\r", APART)
        at.form.pressed("record")
        await at.pilot.pause()
        assert "give both, or neither" in at.text("#complaint")
        assert at.form._field("high").entry.has_focus
        await taken(at, "0.0003\r", APART)
        for each in ("/", "/", ".\r", ".\r"):
            await taken(at, each, APART)
        assert [at.form._field(name).value for name in ("low", "high")] == ["", ""]
        at.form.pressed("record")
        await at.pilot.pause()
        assert at.sheet.state.place != "turn"


@SIZES
async def test_what_cannot_be_taken_is_one_sentence_and_nothing_is_lost(at_small, size) -> None:
    """It stands on the line, marked, so that the next value takes its place; the others stay."""
    async with at_small(3, size) as at:
        values: list[str] = []
        for text in ("-0.012mm", "1.2E-3", "0.1 furlong", "0..1", "1,234"):
            await taken(at, f"{text}\r")
            assert at.complaint.startswith("✗ ")
            assert at.form.values == values
            assert at.form._entry.value == text
            values += ["0.0003"]
            await taken(at, "0.0003\r")
            assert at.form.values == values
            assert at.complaint == ""


async def test_a_refused_value_from_elsewhere_gets_the_focus(at_small) -> None:
    """So that a person can mend it."""
    async with at_small(3) as at:
        at.button("record").focus()
        await at.pilot.pause()
        await taken(at, "0.4mm\r", APART)
        assert at.form.values == []
        assert (at.app.focused, at.form._entry.value) == (at.form._entry, "0.4mm")


async def test_when_everything_is_read_a_value_records_nothing(
    at_small, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the focus on the button that records, it is one sentence; Enter alone then records."""
    async with at_small(3) as at:
        await taken(at, "0.0001\r" * 9, APART)
        told = acts(at, monkeypatch)
        for text in ("0.0002\r", " 0.0002\r\n", "0.0002in\t\r", "2\r"):
            at.button("record").focus()
            await at.pilot.pause()
            await taken(at, text, APART)
            assert "Everything is read here" in at.complaint
            assert at.form.values == ["0.0001"] * 9
        assert told == []
        at.button("record").focus()
        await at.pilot.pause(1)
        await taken(at, "\r")
        assert [each.data["values"] for each in told] == [["0.0001"] * 8]


@SIZES
async def test_at_a_gate_a_value_confirms_nothing_and_leaves_nothing(at_small, size) -> None:
    """Not even one whose only digits are numbers of checks."""
    async with at_small(1, size) as at:
        assert isinstance(at.form, GateForm)
        sequence = at.form.sequence
        for text in ("1\r", "12\t", "+0.0012\r\n", "1.2in\r", "2\t"):
            await taken(at, text, APART)
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}
        assert at.form.sequence == sequence
        assert at.sheet.is_current


@pytest.mark.parametrize("form", [PlayForm, AlongForm], ids=["play", "along"])
async def test_two_values_are_typed_by_the_dial_from_the_button_too(
    at_small, instead, monkeypatch: pytest.MonkeyPatch, form: type[PlayForm | AlongForm]
) -> None:
    """Pushed and pulled, or near and far: a third value is not taken, and none records."""
    instead(lambda: form("in", reading_trouble))
    async with at_small(3) as at:
        told = acts(at, monkeypatch)
        for text in ("0.0000\r", "0.0002 in\t", "0.0009\r"):
            at.sheet.query_one(ActionBar).focus_first()
            await at.pilot.pause()
            await taken(at, text, APART)
        assert [each.value for each in at.form.asked()] == ["0.0000", "0.0002"]
        assert "was not taken" in at.complaint
        assert told == []


async def test_play_typed_on_its_lines_goes_on_by_tab_as_by_enter(at_small, instead) -> None:
    """Each value is checked when it is ended."""
    instead(lambda: PlayForm("in", reading_trouble))
    async with at_small(3) as at:
        await taken(at, "0.01mm\t", 0.1)
        assert "in mm" in at.complaint
        await taken(at, "0.0001in\t", 0.1)
        await taken(at, "0.0003\r", 0.1)
        assert [each.value for each in at.form.asked()] == ["0.0001", "0.0003"]
        assert isinstance(at.app.focused, type(at.button("record")))


async def test_one_screw_is_read_again_by_another_value(
    at_small, instead, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The later value stands, whichever way the focus was, and nothing is recorded by it."""
    instead(lambda: PairForm(2, TURN, reading_trouble))
    async with at_small(3) as at:
        told = acts(at, monkeypatch)
        await taken(at, "0.0001\r", APART)
        await taken(at, "0.0002\r", APART)
        assert [each.value for each in at.form.asked()] == ["0.0002"]
        assert told == []


async def test_a_correction_takes_what_the_dial_came_to(
    at_small, instead, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From the answers and from both buttons; neither is pressed, and no answer is chosen."""
    asked = replace(ADVICE, tighten="", tightens=(), ease="", eases=())
    instead(lambda: CorrectionForm(asked, "", TURN, (2, 4), reading_trouble))
    async with at_small(3) as at:
        told = acts(at, monkeypatch)
        row = at.form.query_one(Choices)
        for where in (row, at.button("record"), at.button("alone")):
            where.focus()
            await at.pilot.pause()
            await taken(at, " 0.0081in\r", APART)
            assert at.form.line().value == "0.0081"
            at.form.line().entry.value = ""
        assert (row.value, told) == ("", [])
        row.focus()
        await at.pilot.pause()
        await taken(at, "4", APART)
        assert row.value == "4"


@SIZES
async def test_a_correction_says_how_far_and_marks_what_to_ease_and_to_tighten(
    at_small, instead, size
) -> None:
    """In words with the signs that the picture has, all of it in sight."""
    instead(lambda: CorrectionForm(ADVICE, "", TURN, (2, 4), reading_trouble))
    async with at_small(3, size) as at:
        await seen(at, "Bring the dial to 0.0080 in", "from 0.0120: -0.0040 in", "▲2", "△4",
                   "△ Ease first: screw 4.", "▲ Then tighten: screw 2.",
                   "The dial came to (in):")  # fmt: skip


@SIZES
async def test_the_reading_line_the_face_the_sweep_and_the_list_are_in_sight_together(
    at_small, size
) -> None:
    """All twelve readings of a turn, at both sizes."""
    async with at_small(3, size) as at:
        at.form._recount(12)
        types(at, "".join(f"{k % 5 / 1000:.3f}\r" for k in range(12)))
        await seen(at, "Back at 0°", "12 of 12 read", "fitted TIR", "what is left:", "high spot at",
                   "plunger at 0°: screw 1", "seen from the tailstock", "330°")  # fmt: skip
        types(at, "0.000\r")
        await seen(at, "lowest (or blank)", "highest (or blank)", "again", "what is left:")


async def test_no_picture_is_drawn_between_a_key_and_what_it_changes(
    at_small, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Dots are drawn from timers alone, never while a key or a value is dealt with."""
    from guide.present.canvas import Canvas

    drawn: list[bool] = []
    made = Canvas.__init__

    def counted(self: Canvas, *args: Any, **more: Any) -> None:
        drawn.append(busy[0])
        made(self, *args, **more)

    busy = [False]
    monkeypatch.setattr(Canvas, "__init__", counted)
    async with at_small(3) as at:
        await at.pilot.pause(0.3)
        for value in ("0.001", "0.002", "0.003"):
            at.form._entry.value = value
            busy[0] = True
            at.form.take(value)
            busy[0] = False
            await at.pilot.pause(0.1)
    assert drawn
    assert not any(drawn)


async def test_what_the_advisor_says_stands_above_the_positions(at_small, instead) -> None:
    """Why so many, and what this dial cannot do, once and before anything is read."""
    said = replace(TURN, why="Eight, because (invented).", told=("This dial cannot (invented).",))
    real: list[TurnForm] = []

    def make() -> TurnForm:
        form = TurnForm(said, reading_trouble, lambda a, v: None, lambda v, t: "", lambda v: False)
        real.append(form)
        return form

    instead(make)
    async with at_small(3) as at:
        text = "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())
        places = [text.index(each) for each in ("! This dial cannot", "Eight, because", "How many")]
        assert places == sorted(places)
