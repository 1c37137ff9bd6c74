"""The bench on the screen at 80 by 24, by keys alone and by the pointer alone."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Static

from guide.journal.wellformed import stamp
from guide.practice.debrief import debrief
from guide.practice.dial import FINE
from guide.practice.lessons import lesson
from guide.practice.session import Practised, opened
from guide.present.canvas import text_of
from guide.procedure.vocabulary import TRIGGER
from guide.screens.app import Spindleside
from guide.screens.modals.help import HelpScreen
from guide.screens.people import AskScreen
from guide.screens.practice.bench import BenchView
from guide.screens.practice.debrief import DebriefScreen
from guide.screens.practice.dial_face import dial_style, face, glass
from guide.screens.practice.intro import IntroScreen
from guide.screens.practice.lessons import LessonsScreen
from guide.screens.practice.sheet import PracticeSheet
from guide.screens.start import StartPage
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.verdict import VerdictForm
from guide.screens.widgets.press import Press
from guide.settings import Settings
from guide.walk.recording import checks_of
from guide.walk.setup import replayed

PERSON = "A. Sample"
AT = stamp(datetime(2030, 1, 31, 7, 5, tzinfo=UTC))
KEYS = {"-": "minus", ".": "full_stop", "*": "asterisk", "/": "slash", "+": "plus"}


class At:
    """A sheet on the screen, with what a hand does there."""

    def __init__(self, app: Spindleside, pilot: Pilot[Any], walk: Practised) -> None:
        self.app, self.pilot, self.walk = app, pilot, walk

    @property
    def sheet(self) -> PracticeSheet:
        """The sheet."""
        assert isinstance(self.app.screen, PracticeSheet)
        return self.app.screen

    @property
    def view(self) -> BenchView:
        """The bench beside it."""
        return self.sheet.query_one(BenchView)

    async def keys(self, signs: str) -> None:
        """Keys of the numeric keypad, one after the other."""
        await self.pilot.press(*(KEYS.get(sign, sign) for sign in signs))
        await self.pilot.pause()

    async def enter(self) -> None:
        """The Enter key."""
        await self.pilot.press("enter")
        await self.pilot.pause(0.05)

    async def still(self) -> None:
        """Wait until the needle has come to rest."""
        for _ in range(100):
            if not self.view.way:
                break
            await self.pilot.pause(0.02)
        await self.pilot.pause()

    async def type_shown(self) -> None:
        """Type what the dial shows, and Enter."""
        await self.keys(self.walk.bench.shown())
        await self.enter()

    async def click(self, name: str) -> None:
        """A click on one of the controls."""
        assert await self.pilot.click(BenchView, offset=self.view.spot(name))
        await self.pilot.pause()

    @property
    def seen(self) -> str:
        """Everything that is on the screen."""
        return "\n".join(s.text for s in self.app.screen._compositor.render_strips())


async def until(app: Spindleside, pilot: Pilot[Any], kind: type[Screen[Any]]) -> None:
    """Wait until a page of a kind is the one that is shown."""
    for _ in range(200):
        if isinstance(app.screen, kind):
            break
        await pilot.pause(0.03)
    assert isinstance(app.screen, kind)
    await pilot.pause()


@pytest.fixture
def at(tmp_path: Path) -> Callable[..., Any]:
    """Opens a lesson on the screen at its first step at the dial, or at a later one."""

    @asynccontextmanager
    async def open_at(
        name: str, place: str = "first-turn", size: tuple[int, int] = (80, 24)
    ) -> AsyncIterator[At]:
        app = Spindleside(Settings(home=tmp_path), guarded=False, quiet=0.0)
        async with app.run_test(size=size) as pilot:
            await pilot.pause(0.1)
            walk = opened(app.store, lesson(name), 1, setup=name, person=PERSON, at=AT)
            to(walk, place)
            app.push_screen(PracticeSheet(walk, (), 0.0))
            await until(app, pilot, PracticeSheet)
            await pilot.pause(0.3)
            yield At(app, pilot, walk)

    return open_at


def to(walk: Practised, place: str) -> None:
    """The way to a step, without the screen: gates by their numbers, readings by the bench."""
    for _ in range(60):
        if walk.state.place == place:
            return
        if not walk.fill(AT):
            step = walk.step
            assert step is not None
            walk.act(TRIGGER[step.kind], told(walk), person=PERSON, at=AT)
    raise AssertionError(walk.state.place)


def told(walk: Practised) -> dict[str, Any]:
    """What is entered on the way."""
    step, bench = walk.step, walk.bench
    assert step is not None
    if step.kind == "gate":
        return {"checks": [*range(1, len(checks_of(step, walk.state)) + 1)]}
    if step.tighten == "ease":
        bench.ease_bolts()
    if step.kind == "verdict":
        return {"decision": "another-round"}
    if step.take == "pair":
        from guide.walk.advised import next_screw

        while bench.under != next_screw(walk.state):
            bench.next_place(4)
        return {"screw": bench.under, "value": bench.shown()}
    if step.kind == "readings":
        values = [bench.shown()]
        for _ in range(4):
            bench.next_place(4)
            values.append(bench.shown())
        return {"angles": ["0", "90", "180", "270"], "values": values[:4], "closing": values[4]}
    return {}


async def test_the_bench_opens_beside_the_sheet_at_the_dial(at) -> None:
    """Dial, glass, how things stand and every key are in sight beside the line to type on."""
    async with at("one-offset") as hand:
        seen = hand.seen
        assert "PRACTICE, not a real lathe" in seen
        assert "lesson 1: One direction only" in seen or "lesson 1" in seen
        for words in ("key in/out", "to next", "ease bolts", "torque", "* to the bench",
                      "bolts tight", "0°, 1 under", "▲", "Turn to 0°"):  # fmt: skip
            assert words in seen, words


async def test_no_bench_is_open_at_a_gate(at) -> None:
    """Gates have the whole page."""
    async with at("one-offset", "ready-gate") as hand:
        assert not hand.view.display
        assert "to the bench" not in hand.seen


async def test_a_star_goes_to_the_bench_and_enter_back_to_the_line(at) -> None:
    """Wherever something is typed, and nothing of it is typed."""
    async with at("one-offset") as hand:
        await hand.keys("*")
        assert hand.app.focused is hand.view
        await hand.enter()
        assert hand.app.focused is not hand.view
        await hand.keys("*")
        assert hand.app.focused is hand.view
        await hand.keys("*")
        assert isinstance(hand.sheet.form, TurnForm)
        assert not hand.sheet.form.query("Field").first().value  # type: ignore[attr-defined]


async def test_no_key_is_lost_between_the_line_and_the_bench(at) -> None:
    """A quick hand: the key right behind the star turns the spindle and is typed nowhere."""
    async with at("one-offset") as hand:
        hand.app.simulate_key("asterisk")
        hand.app.simulate_key("5")
        await hand.pilot.pause(0.1)
        assert hand.walk.bench.angle == 360 / hand.view.count
        assert isinstance(hand.sheet.form, TurnForm)
        assert not hand.sheet.form.line().value  # type: ignore[union-attr]


async def test_no_key_is_lost_between_a_button_and_the_bench(at) -> None:
    """The same where a button has the focus: star and nought ease the bolts."""
    async with at("one-offset", "ease") as hand:
        hand.app.simulate_key("asterisk")
        hand.app.simulate_key("0")
        await hand.pilot.pause(0.1)
        assert hand.walk.bench.bolts == "snug"


async def test_the_needle_goes_through_all_places_between(at) -> None:
    """It moves as the spindle is turned, and comes to rest where the bench stands."""
    async with at("one-offset") as hand:
        await hand.keys("*")
        before = hand.view.needle
        hand.view.do("next")
        assert hand.walk.bench.angle == 360 / hand.view.count
        assert len(hand.view.way) > 3
        assert hand.view.needle == before
        await hand.still()
        assert hand.view.needle == pytest.approx(hand.walk.bench.needle())
        assert f"{hand.walk.bench.angle:g}°" in hand.seen


async def test_a_turn_is_read_by_keys_and_what_was_shown_is_written_beside_it(at) -> None:
    """Star, five, Enter, the value, Enter; nobody types it for the learner."""
    async with at("one-offset") as hand:
        form = hand.sheet.form
        assert isinstance(form, TurnForm)
        for place in range(form.count + 1):
            await hand.type_shown()
            if place < form.count:
                await hand.keys("*5")
                await hand.enter()
        assert form.complete
        for _ in range(4):
            await hand.enter()
        await hand.pilot.pause(0.2)
        assert hand.walk.state.place == "first-verdict"
        entry = hand.walk.state.entries[-1]
        shown = [each[1] for each in entry.data["practice"]["shown"]]
        assert shown == [*entry.data["values"], entry.data["closing"]]
        assert [each[0] for each in entry.data["practice"]["shown"]][:-1] == [*entry.data["angles"]]


async def test_a_value_taken_back_is_noted_where_it_is_read_again(at) -> None:
    """One back, turned on, typed again: what counts is what stood there then."""
    async with at("one-offset") as hand:
        await hand.type_shown()
        await hand.keys("*5")
        await hand.enter()
        await hand.type_shown()
        await hand.pilot.press("f11")
        await hand.keys("*6")
        await hand.enter()
        await hand.pilot.press(*["backspace"] * 8)
        await hand.type_shown()
        hand.sheet._note_readings()
        assert [angle for angle, *_ in hand.walk.bench.taken] == [0, hand.walk.bench.angle]


async def test_a_spindle_is_not_turned_with_the_key_in(at) -> None:
    """It stays where it is, says so, and the debrief will know."""
    async with at("one-offset") as hand:
        await hand.keys("*76")
        await hand.still()
        assert hand.walk.bench.angle == 0
        assert "Key in screw 1" in hand.seen
        assert hand.walk.bench.noted["key_in"] == 1
        await hand.keys("76")
        assert hand.walk.bench.angle == 15


async def test_a_screw_is_eased_and_the_other_tightened_by_keys(at) -> None:
    """Stiff at first; after the one across is eased the needle follows by hairs."""
    async with at("one-offset", "first-screws") as hand:
        bench = hand.walk.bench
        under, needle = bench.under, bench.needle()
        await hand.keys("*78")
        await hand.still()
        assert "Stiff" in hand.seen
        await hand.keys("12218")
        assert bench.key == under
        await hand.keys("8")
        await hand.still()
        assert bench.needle() > needle + 0.0003
        assert hand.view.needle == pytest.approx(bench.needle())


async def test_everything_at_the_bench_can_be_clicked(at) -> None:
    """Turned on, the key in, refused, out again, the page of keys, and back to the line."""
    async with at("one-offset") as hand:
        bench = hand.walk.bench
        await hand.click("go")
        assert hand.app.focused is hand.view
        place = 360 / hand.view.count
        for name, angle in (("next", place), ("on", place + 15), ("back", place)):
            await hand.click(name)
            assert bench.angle == angle
        await hand.click("key")
        assert bench.key is not None
        await hand.click("on")
        assert bench.angle == place
        await hand.click("key")
        await hand.click("more")
        await hand.click("push")
        assert bench.hand == 1
        await hand.click("zero")
        assert bench.shown() == "0.0000"
        await hand.click("more")
        await hand.click("bolts-ease")
        assert bench.bolts == "snug"
        await hand.click("bolts-torque")
        assert bench.bolts == "tight"
        await hand.click("type")
        assert hand.app.focused is not hand.view


async def test_every_control_in_sight_has_a_key_and_a_place_to_click(at) -> None:
    """On both pages, with all that may lie on the bench."""
    for name in ("tilt", "bar-or-chuck", "four-jaws"):
        async with at(name) as hand:
            for page in (0, 1):
                hand.view.page = page
                for each in hand.view._controls():
                    assert hand.view.control_of("", each.key) == each.name
                    assert hand.view.spot(each.name)
                    assert each.words[:6] in "".join(
                        piece.text for line in hand.view._keys() for piece in line
                    )


async def test_tools_lie_there_only_where_the_lesson_has_them(at) -> None:
    """The indicator is slid in the lesson of the tilt, the bar turned in that of the bar."""
    async with at("tilt") as hand:
        await hand.keys("*/1")
        assert hand.walk.bench.station == 5.0
        assert "dial at 5 in" in hand.seen
    async with at("one-offset") as hand:
        await hand.keys("*/12")
        assert hand.walk.bench.station == 1.0
        assert not hand.walk.bench.chuck.half_round


async def test_the_move_is_hidden_until_a_hint_is_asked_for(at) -> None:
    """The line to type on is there at once; what to do only by F7, and it is counted."""
    async with at("half-difference", "first-screws") as hand:
        assert isinstance(hand.sheet.form, CorrectionForm)
        move = hand.sheet.form.query_one(".move")
        assert not move.display
        assert hand.sheet.form.query("Field").first().display
        assert "F7" in hand.seen
        assert "Work out where the needle" in hand.seen
        await hand.pilot.press("f7")
        await hand.pilot.pause(0.1)
        assert hand.walk.hints == 1
        assert "Hint: Bring screw" in str(hand.sheet.query_one("#hint", Static).render())
        assert move.display


async def test_what_is_advised_at_a_verdict_is_hidden_until_it_is_asked_for(at) -> None:
    """The learner decides first; F7 tells, and F1 of words and the keys of the bench."""
    async with at("half-difference", "first-verdict") as hand:
        form = hand.sheet.form
        assert isinstance(form, VerdictForm)
        assert form.advised
        assert not form.query(".result").last().display
        assert form.query(".result").first().display
        await hand.pilot.press("f7")
        await hand.pilot.pause(0.1)
        assert form.query(".result").last().display
        await hand.pilot.press("f1")
        await hand.pilot.pause(0.1)
        assert isinstance(hand.app.screen, HelpScreen)
        assert "Words on this page" in hand.seen
        await hand.pilot.press(*["plus"] * 6)
        assert "a hint; it is counted" in hand.seen
        await hand.pilot.press("escape")


async def test_the_first_lessons_show_the_move(at) -> None:
    """Where advice is shown the sheet is as on a real lathe."""
    async with at("one-offset", "first-screws") as hand:
        assert hand.sheet.form is not None
        assert hand.sheet.form.query_one(".move").display


async def test_a_step_without_a_hint_says_so_and_counts_none(at) -> None:
    """A gate is met by looking."""
    async with at("one-offset", "ready-gate") as hand:
        await hand.pilot.press("f7")
        await hand.pilot.pause(0.1)
        assert hand.walk.hints == 0
        assert "no hint" in hand.seen


async def test_what_the_bench_contradicts_is_said_on_the_sheet(at) -> None:
    """Bolts recorded as eased while they are tight: refused in one sentence."""
    async with at("one-offset", "ease") as hand:
        await hand.enter()
        await hand.pilot.pause(0.1)
        assert "the bolts are still tight" in hand.seen
        await hand.keys("*0")
        await hand.enter()
        await hand.enter()
        await hand.pilot.pause(0.2)
        assert hand.walk.state.place == "first-named"


async def test_a_display_types_what_it_shows(at) -> None:
    """In the lesson with a display, Enter at the bench puts the value on the line."""
    async with at("metric") as hand:
        assert "+0.00 mm" in hand.seen
        await hand.keys("*")
        await hand.enter()
        await hand.keys("5")
        await hand.enter()
        form = hand.sheet.form
        assert isinstance(form, TurnForm)
        assert form.values == ["0.00", hand.walk.bench.shown()]
        assert hand.app.focused is hand.view


async def test_a_sheet_that_is_left_is_gone_on_with_at_the_same_bench(at, tmp_path) -> None:
    """Paused and read back, the bench stands as it stood."""
    async with at("two-pairs", "first-screws") as hand:
        stood = hand.walk.bench.as_text()
        hand.walk.act("pause", {"why": "dinner"}, person=PERSON, at=AT)
        from guide.practice.session import practised

        again = practised(replayed(hand.app.store, "two-pairs"))
        assert again.bench.as_text() == stood


async def test_the_bench_has_room_on_a_large_terminal(at) -> None:
    """A larger dial, and the sheet's own drawings beside it."""
    async with at("one-offset", size=(120, 40)) as hand:
        assert hand.view.has_class("wide")
        assert "lesson 1: One direction only" in hand.seen


async def test_practice_is_begun_from_the_start_page_by_pointer(tmp_path: Path) -> None:
    """The row, a lesson, the words before it, a name, and the sheet."""
    app = Spindleside(Settings(home=tmp_path), guarded=False, quiet=0.0)
    async with app.run_test(size=(80, 24)) as pilot:
        for _ in range(100):
            rows = [each for each in app.screen.query(Press) if each.name == "practice:"]
            if rows:
                break
            await pilot.pause(0.05)
        (row,) = rows
        row.scroll_visible(animate=False)
        await pilot.pause(0.1)
        await pilot.click(row)
        await until(app, pilot, LessonsScreen)
        await pilot.click(next(each for each in app.screen.query(Press) if "two" in str(each.name)))
        await until(app, pilot, IntroScreen)
        await pilot.click(app.screen.query("ActionBar Press").first())
        await until(app, pilot, AskScreen)
        await pilot.press(*"Ann", "enter")
        await pilot.pause(0.1)
        await pilot.click(app.screen.query("ActionBar Press").first())
        await until(app, pilot, PracticeSheet)
        assert isinstance(app.screen, PracticeSheet)
        assert app.screen.walk.kept["lesson"] == "two-pairs"
        await pilot.pause(0.2)
        assert app.screen.state.place == "cut"


async def test_a_drawn_chuck_asks_its_seed_and_shows_it(tmp_path: Path) -> None:
    """The seed is recorded, and stands in the head of the sheet."""
    app = Spindleside(Settings(home=tmp_path), guarded=False, quiet=0.0, practice="drawn;;mm")
    async with app.run_test(size=(120, 40)) as pilot:
        await until(app, pilot, IntroScreen)
        await pilot.press("enter")
        await until(app, pilot, AskScreen)
        await pilot.press(*"Ann", "enter", *"4711", "enter")
        await pilot.pause(0.1)
        await pilot.press("enter")
        await until(app, pilot, PracticeSheet)
        assert isinstance(app.screen, PracticeSheet)
        kept = app.screen.walk.kept
        assert (kept["seed"], kept["dial"]["unit"]) == ("4711", "mm")
        await pilot.pause(0.2)
        assert "seed 4711" in str(app.screen.query_one("#head", Static).render())


async def test_going_back_before_a_lesson_opens_nothing(tmp_path: Path) -> None:
    """Escape at the words before it leads to the start page, and no setup was written."""
    app = Spindleside(Settings(home=tmp_path), guarded=False, quiet=0.0, practice="1;;")
    async with app.run_test(size=(80, 24)) as pilot:
        await until(app, pilot, IntroScreen)
        await pilot.press("escape")
        await until(app, pilot, StartPage)
        assert app.store.names() == ()


async def test_the_debrief_is_read_and_closed(at) -> None:
    """Its parts by their headings; F10 goes back."""
    async with at("one-offset", "first-verdict") as hand:
        hand.app.push_screen(DebriefScreen(debrief(hand.walk)))
        await hand.pilot.pause(0.2)
        assert "PRACTICE" in hand.seen
        assert "How it went" in hand.seen
        await hand.pilot.press("pagedown", "pagedown")
        await hand.pilot.pause(0.1)
        assert "screw 1 is at the top" in hand.seen
        await hand.pilot.press("f10")
        await hand.pilot.pause(0.1)
        assert isinstance(hand.app.screen, PracticeSheet)


def test_a_plain_terminal_gets_a_dial_in_plain_signs() -> None:
    """No braille and no blocks where they cannot be shown."""
    dial = FINE["in"]
    signs = "".join(
        (*text_of(face(dial, 90, 19, "plain")), *text_of(glass(dial, 0.0004, 36, "plain")))
    )
    assert not {sign for sign in signs if sign not in "−+" and not sign.isascii()}
    assert "*" in signs
    assert "^" in signs
    assert dial_style("plain") == "plain"


def test_the_glass_stands_where_the_needle_does() -> None:
    """The mark below the scale is at its division, and no number is cut off."""
    numbers, ticks, below = text_of(glass(FINE["in"], -0.0012, 36, "braille"))
    at_ten = numbers.index("−10") + 1
    assert ticks[at_ten] == "│"
    assert below.index("▲") == at_ten - 4
    assert not numbers.startswith("5")


async def test_where_nothing_may_move_the_needle_jumps_to_where_it_stops(at) -> None:
    """No picture in between: what it shows is what the dial reads."""
    async with at("one-offset") as hand:
        hand.app.settings = replace(hand.app.settings, motion="still")
        bench = hand.app.screen.query_one(BenchView)
        before = bench.needle
        bench.do("on")
        assert (bench.way, bench.needle) == ([], bench.bench.needle())
        assert bench.needle != before
