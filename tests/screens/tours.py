"""Tours to every page, window and step in each of its states: lit, half done, under the pointer.

A tour is a way through the program; `show` takes what stands there. Whoever adds a page adds a
line to a tour: a test finds every page, window and form that no tour comes to. (`gallery.py` is
the shorter way, to what is kept as text.)
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from guide.equipment.equipment import Equipment
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.practice.debrief import debrief
from guide.practice.lessons import lesson
from guide.practice.session import opened as practised
from guide.procedure.shelf import find
from guide.procedure.vocabulary import TRIGGER
from guide.rehearse import read_answers, rehearse
from guide.screens.calculators import CalculatorList, CalculatorPage
from guide.screens.equipment import EquipmentPage, ThingPage
from guide.screens.first_walk import STOPS, FirstWalk
from guide.screens.history import HistoryList, HistoryPage
from guide.screens.liked import LikedPage
from guide.screens.modals.correct import CorrectScreen
from guide.screens.modals.help import HelpScreen
from guide.screens.modals.menu import Menu
from guide.screens.modals.reason import ReasonScreen
from guide.screens.modals.tongue import TongueScreen
from guide.screens.people import AskScreen
from guide.screens.people_page import ChangeScreen, PeoplePage
from guide.screens.practice.bench import BenchView
from guide.screens.practice.debrief import DebriefScreen
from guide.screens.practice.intro import IntroScreen
from guide.screens.practice.lessons import LessonsScreen
from guide.screens.practice.sheet import PracticeSheet
from guide.screens.record import RecordScreen
from guide.screens.rows_page import RowsPage
from guide.screens.sheet import SetupSheet
from guide.screens.signing import Beside, FirstUse, SignedOut
from guide.screens.start import StartPage
from guide.screens.steps.besides import EndForm, SafeActionForm, WaitingForm
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.steps.gate import GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import AlongForm, PairForm, PlayForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.task import TaskForm
from guide.screens.steps.tightening import TighteningForm
from guide.screens.steps.verdict import VerdictForm
from guide.walk.advised import next_screw
from guide.walk.flow import looks
from guide.walk.making_safe import wanted_to_safe
from guide.walk.recording import checks_of
from guide.walk.setup import Setup, replayed
from guide.walk.state import MAKING_SAFE, altered

AT = "2030-01-31T07:05:00.000Z"
A_SECOND = 1.05
READ = ("0.0000", "0.0014", "0.0021", "0.0015", "0.0001")
"""A turn that is out."""
ANSWERS = Path(__file__).parents[1] / "answers"


@dataclass(frozen=True)
class Shot:
    """What is painted at one moment."""

    stop: str
    """The page, window or step."""
    state: str
    """Which widget has the focus, or the pointer over it; blank as it stood there first."""
    strips: tuple[Strip, ...]
    """Its lines."""


@dataclass
class Taken:
    """Everything that was seen."""

    shots: list[Shot] = field(default_factory=list)
    kinds: set[type] = field(default_factory=set)
    """Classes of pages, windows and forms."""
    moved: list[str] = field(default_factory=list)
    """Stops where a second later something else stood, though nobody did anything."""
    disabled: list[str] = field(default_factory=list)
    """Stops with a widget that cannot be used: there is no look for that."""


@dataclass
class Way:
    """What a tour needs: a program in a journal, hands to work it, and where to take shots."""

    opened: Callable[..., Any]
    quick: type
    home: Path
    small: str
    pin: str
    shop: Callable[..., None]
    took: Taken

    async def show(self, at: Any, stop: str, every: bool = True) -> None:
        """Take what stands there: as it is, a second later, at each focus, under the pointer.

        Unless every focus is wanted, it is one of each class.
        """
        await at.pilot.pause()
        await at.pilot.pause()
        screen, took = at.app.screen, self.took
        took.kinds |= {type(screen), *(type(each) for each in screen.query(Form))}
        self._shot(at, stop, "")
        if any(each.disabled for each in screen.query(Widget)):
            took.disabled.append(stop)
        if await self._moves(at):
            took.moved.append(stop)
        held = screen.focused
        to_focus = in_sight(at) if every else one_of_each(in_sight(at))
        for place, widget in enumerate(to_focus):
            screen.set_focus(widget, scroll_visible=False)
            await at.pilot.pause()
            self._shot(at, stop, f"focus {place} {type(widget).__name__} {widget.name or ''}")
        screen.set_focus(held, scroll_visible=False)
        for widget in one_of_each(in_sight(at)):
            await at.pilot.hover(widget)
            self._shot(at, stop, f"pointer {type(widget).__name__}")
        await at.pilot.hover()

    def _shot(self, at: Any, stop: str, state: str) -> None:
        """One moment."""
        self.took.shots.append(Shot(stop, state, painted(at)))

    async def _moves(self, at: Any) -> bool:
        """Whether it is another picture a second later; without any clock of its own it cannot be.

        A clock is a timer of a widget, or an animation: nothing else changes a page by itself.
        """
        before = painted(at)
        if running(at.app) or at.app.animator._animations:
            await asyncio.sleep(A_SECOND)
            await at.pilot.pause()
        return painted(at) != before


def painted(at: Any) -> tuple[Strip, ...]:
    """Every line of the screen."""
    return tuple(at.app.screen._compositor.render_strips())


def running(app: Any) -> list[Any]:
    """Timers that are not held."""
    nodes = [app, app.screen, *app.screen.query(Widget)]
    return [timer for node in nodes for timer in node._timers if timer._active.is_set()]


def in_sight(at: Any) -> list[Widget]:
    """What can have the focus and lies wholly on the screen."""
    whole: Region = at.app.screen.region
    chain = at.app.screen.focus_chain
    shown = [each for each in chain if each.region.area and each.visible]
    inside = [each for each in shown if whole.contains_region(each.region)]
    return [each for each in inside if at.app.screen.can_view_entire(each)]


def one_of_each(widgets: list[Widget]) -> Iterator[Widget]:
    """The first of each class."""
    seen = set()
    for each in widgets:
        if type(each) not in seen:
            seen.add(type(each))
            yield each


async def first_use(way: Way) -> None:
    """Who works here, before anything else."""
    async with way.opened(way.quick, first_use=True, procedure=way.small) as at:
        window = await at.until(FirstUse)
        await way.show(at, "first use")
        row = window.asked()[0]
        await at.choose(row, "on")
        await at.press("yes")
        await way.show(at, "first use, with PINs and a complaint")


async def beside_the_lathe(way: Way) -> None:
    """The start page of a shop in use, and everything that opens from it."""
    shop_in_use(way.home)
    async with way.opened(way.quick) as at:
        await at.row("practice:")
        await way.show(at, "start page")
        for tile in ("more:procedures", "more:shop"):
            await at.pick(await at.row(tile))
            await at.until(RowsPage)
            await way.show(at, tile)
            await back(at)
        for name in ("history:", "people:", "practice:", "settings:"):
            await away(at, name)
            await way.show(at, name)
            await back(at)
        await calculators(way, at)
        await away(at, "history:")
        await at.pilot.press("1")
        await way.show(at, "one chuck's history")
        await back(at)
        await equipment(way, at)
        await away(at, "record:walk")
        assert type(at.app.screen) is RecordScreen
        await way.show(at, "record")
        await back(at)
        await newcomer(way, at)


async def calculators(way: Way, at: Any) -> None:
    """The list, one with an answer, one with a complaint."""
    await away(at, "calculators:")
    await way.show(at, "calculators")
    for number in ("1", "2"):
        await at.pilot.press(number)
        await way.show(at, f"calculator {number}")
        for each in at.app.screen.query("Field"):
            each.entry.value = each.entry.value or ("1" if number == "1" else "nonsense")
        await at.press(next(iter(at.app.screen.foot()))[0])
        await way.show(at, f"calculator {number}, worked out")
        at.app.screen.action_back()
        await at.pilot.pause()
    await back(at)


async def equipment(way: Way, at: Any) -> None:
    """The list, one thing, and the window that changes it."""
    await away(at, "equipment:")
    await at.until(EquipmentPage)
    await way.show(at, "equipment")
    await at.pilot.press("1")
    await at.until(ThingPage)
    await way.show(at, "one chuck of the equipment")
    await at.pilot.press("1")
    await way.show(at, "a change of equipment")
    await back(at)


async def newcomer(way: Way, at: Any) -> None:
    """Every stop of the first walk."""
    await away(at, "first:")
    await at.until(FirstWalk)
    for place in range(len(STOPS) + 1):
        await way.show(at, f"first walk {place + 1}")
        if place < len(STOPS):
            await at.press("on")
    await back(at)


@dataclass(frozen=True)
class UpTo:
    """A journal as it was after so many events of its one setup."""

    store: Store
    count: int

    def events(self, setup: str) -> tuple[Event, ...]:
        """The first of them."""
        return self.store.events(setup)[: self.count]

    def text(self, name: str) -> str:
        """Every text is there."""
        return self.store.text(name)


async def a_setup(way: Way) -> None:
    """Every kind of step where a rehearsed setup came to it first, and what is half done there."""
    told = read_answers(ANSWERS / "adjustable-chuck-inch.yaml")
    procedure = find(told.procedure)
    with Store(way.home / "whole.sqlite3") as store:
        rehearse(procedure, told, store, "walk")
        events = store.events("walk")
        kinds: dict[tuple[str, ...], int] = {}
        for count, event in enumerate(events[1:], 1):
            step = procedure.by_name.get(event.step)
            looked = "looking" if step and looks(step) else ""
            what = (step.kind, step.take or looked) if step else ("", event.kind)
            kinds.setdefault(what, count)
        kinds["ended", ""] = len(events)
        async with way.opened(way.quick) as at:
            for what, count in kinds.items():
                await a_step(way, at, replayed(UpTo(store, count), "walk"), " ".join(what))
            being = next(being_made_safe(store, len(events)))
            await a_step(way, at, being, "being made safe")


async def along_a_bar(way: Way) -> None:
    """The page of the tailstock's readings, where a rehearsed setup came to it first."""
    told = read_answers(ANSWERS / "tailstock-alignment-inch.yaml")
    with Store(way.home / "whole.sqlite3") as store:
        rehearse(find(told.procedure), told, store, "walk")
        events = store.events("walk")
        count = next(n for n, each in enumerate(events) if "near" in each.data)
        async with way.opened(way.quick) as at:
            await a_step(way, at, replayed(UpTo(store, count), "walk"), "readings along")


async def a_step(way: Way, at: Any, setup: Setup, stop: str) -> None:
    """The sheet of a setup at a step, as it opens and half done."""
    at.app.push_screen(SetupSheet(setup, (), 0.0))
    await at.until(SetupSheet)
    await at.settle()
    await way.show(at, stop)
    await states_of(way, at)
    at.app.pop_screen()


def being_made_safe(store: Store, most: int) -> Iterator[Setup]:
    """The setup where the next thing towards a safe state is a task."""
    for count in range(1, most):
        setup = replayed(UpTo(store, count), "walk")
        if wanted_to_safe(setup.state.world, setup.state.facts).trigger == "done":
            setup.state = altered(setup.state, place=MAKING_SAFE)
            yield setup


async def states_of(way: Way, at: Any) -> None:
    """A form half done: chosen, typed, confirmed, complained about."""
    name = type(at.form).__name__
    if isinstance(at.form, GateForm):
        await at.confirm(at.form.query("CheckRow").first())
    for row in list(at.form.query("Choices"))[:2]:
        await at.choose(row, row.options[0][0])
    if isinstance(at.form, TurnForm):
        for value in READ:
            await at.type(at._line("reading"), value)
    for line in list(at.form.query("Field"))[:2]:
        line.entry.value = "nonsense"
    if at.form.is_attached and at.form.offers():
        at.sheet.complain_with("An invented complaint.")
    await way.show(at, f"{name}, half done", every=False)
    at.sheet.complain_with("")
    for line in list(at.form.query("Field"))[:2]:
        line.entry.value = ""


async def windows_over_a_sheet(way: Way) -> None:
    """Everything that a key opens over a sheet, then what stands where a setup waits or ends."""
    async with way.opened(way.quick) as at:
        await at.begin("chuck-removal")
        await at.quick_page()
        await at.quick_page()
        for name in ("menu", "help", "correct", "pause", "take_over", "abandon", "speak"):
            at.sheet.action_star() if name == "menu" else at.sheet.action_give(name)
            await at.pilot.pause(0.1)
            assert not isinstance(at.app.screen, SetupSheet), name
            await way.show(at, name)
            if name == "correct":
                await at.pilot.press("enter")
                await way.show(at, "correct, one answer")
            await back(at)
        at.sheet.enter("pause", {"why": ""})
        await at.settle()
        await way.show(at, "paused")
        at.sheet.enter("resume", {})
        await at.settle()
        await way.show(at, "making sure")
        await states_of(way, at)


async def where_people_sign(way: Way) -> None:
    """PINs, a witness, somebody signed out, the shop's rules."""
    way.shop(witness={"gate": "machinist"})
    async with way.opened(way.quick, procedure=way.small) as at:
        await at.pilot.pause(0.2)
        await way.show(at, "who begins, with a PIN")
        await at.begun()
        await at.to(GateForm)
        for row in list(at.form.query("CheckRow")):
            await at.confirm(row)
        await at.until(Beside)
        await way.show(at, "a witness")
        await at.press("no")
        await at.until(SetupSheet)
        await way.show(at, "not witnessed")
        at.sheet.action_give("sign_out")
        await at.until(SignedOut)
        await way.show(at, "signed out")
        await at.press("no")
        await at.until(StartPage)
        await away(at, "people:")
        await way.show(at, "people who sign")
        await at.pilot.press("1")
        await at.until(ChangeScreen)
        await way.show(at, "a change of people")


async def practice(way: Way) -> None:
    """The bench beside the sheet at the dial, a hint, and what was hidden."""
    async with way.opened(way.quick) as at:
        await away(at, "practice:")
        await at.pilot.press("1")
        await at.pilot.pause(0.1)
        await way.show(at, "a lesson told")
        await back(at)
        walk = practised(
            at.app.store, lesson("one-offset"), 1, setup="p", person="A. Sample", at=AT
        )
        for place in ("first-turn", "first-named", "first-screws"):
            brought(walk, place)
            at.app.push_screen(PracticeSheet(walk, (), 0.0))
            await at.until(PracticeSheet)
            await at.pilot.pause(0.2)
            await way.show(at, f"bench at {place}")
            at.app.screen.query_one(BenchView).focus()
            await at.pilot.press("5", "8")
            at.app.screen.action_hint()
            await at.pilot.pause(0.5)
            await way.show(at, f"bench at {place}, worked at, with a hint")
            at.app.pop_screen()
        walk.act("abandon", {"why": "an invented reason"}, person="A. Sample", at=AT)
        at.app.push_screen(DebriefScreen(debrief(walk)))
        await at.until(DebriefScreen)
        await way.show(at, "debrief")


Tour = Callable[[Way], Awaitable[None]]
TOURS: Mapping[Tour, tuple[type, ...]] = {
    first_use: (FirstUse,),
    beside_the_lathe: (
        StartPage, RowsPage, CalculatorList, CalculatorPage, HistoryList, HistoryPage, PeoplePage,
        EquipmentPage, ThingPage, AskScreen, RecordScreen, LessonsScreen, LikedPage, FirstWalk,
    ),
    a_setup: (
        SetupSheet, FactsForm, GateForm, TaskForm, LookForm, PlayForm, TurnForm, PairForm,
        CorrectionForm, TighteningForm, VerdictForm, SignOffForm, EndForm, SafeActionForm,
    ),
    along_a_bar: (AlongForm,),
    windows_over_a_sheet: (
        Menu, HelpScreen, CorrectScreen, ReasonScreen, TongueScreen, WaitingForm,
    ),
    where_people_sign: (Beside, SignedOut, ChangeScreen),
    practice: (IntroScreen, PracticeSheet, DebriefScreen),
}  # fmt: skip
"""Every tour, with the pages, windows and forms that it comes to and no earlier one does."""


async def away(at: Any, name: str) -> None:
    """From the start page to what a tile of it opens."""
    await at.pick(await at.row(name))
    for _ in range(100):
        await at.pilot.pause(0.02)
        if not isinstance(at.app.screen, StartPage | RowsPage):
            break
    await at.pilot.pause()


async def back(at: Any) -> None:
    """Back to what lies below: the start page, or the sheet."""
    while not isinstance(at.app.screen, StartPage | SetupSheet):
        at.app.screen.dismiss(None)
        await at.pilot.pause(0.05)


def shop_in_use(home: Path) -> None:
    """A chuck with a history, kept equipment, and a rehearsed record."""
    told = read_answers(ANSWERS / "chuck-removal-inch.yaml")
    with Store(home / "journal.sqlite3") as store:
        rehearse(find(told.procedure), told, store, "walk")
        for number, judged in enumerate(("0.0002", "0.0015", "0.0004")):
            _found(store, f"2020-0{number + 1}-01", judged)
        kept = Equipment(store)
        kept.add("A. Sample", "chuck", "Chuck 7 (invented)", {}, AT)


def _found(store: Store, day: str, judged: str) -> None:
    """A chuck that was read on a day."""
    opening = {"mode": "real", "input": "terminal", "procedure": "chuck-recheck",
               "facts": {"lathe": "Lathe 2 (invented)"}}  # fmt: skip
    verdict = "within" if judged < "0.001" else "outside"
    left = {"at": day, "judged": judged, "expanded_uncertainty": "0.0001", "unit": "in",
            "verdict": verdict, "tolerance": "0.001 in", "station": "3 in"}  # fmt: skip
    outcome = {"chuck": "Chuck 7 (invented)", "as_left": left, "recheck": "2020-06-01"}
    data = {"ends": "finished", "world": {"seat": "locked", "body": "on-plate"}, "outcome": outcome}
    first = Event(day, 1, f"{day}T08:00:00.000Z", "A. Sample", "", "open", opening, GENESIS)
    store.append(first)
    store.append(Event(day, 2, f"{day}T09:00:00.000Z", "A. Sample", "end", "sign", data,
                       first.digest))  # fmt: skip


def brought(walk: Any, place: str) -> None:
    """A practice setup at a step, without the screen: each reading as the bench shows it."""
    for _ in range(60):
        if walk.state.place == place:
            return
        if not walk.fill(AT):
            walk.act(TRIGGER[walk.step.kind], _told(walk), person="A. Sample", at=AT)
    raise AssertionError(walk.state.place)


def _told(walk: Any) -> dict[str, Any]:
    """What is entered on the way."""
    step, bench = walk.step, walk.bench
    if step.kind == "gate":
        return {"checks": [*range(1, len(checks_of(step, walk.state)) + 1)]}
    if step.kind == "verdict":
        return {"decision": "another-round"}
    if step.tighten == "ease":
        bench.ease_bolts()
    if step.take == "pair":
        while bench.under != next_screw(walk.state):
            bench.next_place(4)
        return {"screw": bench.under, "value": bench.shown()}
    if step.kind != "readings":
        return {}
    values = [bench.shown()]
    for _ in range(4):
        bench.next_place(4)
        values.append(bench.shown())
    return {"angles": ["0", "90", "180", "270"], "values": values[:4], "closing": values[4]}
