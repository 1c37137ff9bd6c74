"""The program on the screen: it holds the journal open and puts pages before each other."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

from textual import events
from textual.app import App

from guide.plain import Refusal
from guide.present.words import refused
from guide.screens.colourless import Colourless
from guide.screens.guard import Guard
from guide.screens.lull import EVERY, Lull
from guide.screens.start import StartPage
from guide.screens.theme import LOOKS, QUIET
from guide.screens.tongue import SPOKEN, Spoken, language
from guide.screens.widgets.inks import DRAWN, Drawn
from guide.settings import Settings

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from guide.front.desk import Desk
    from guide.journal.holding import Hold
    from guide.journal.store import Store
    from guide.people.hand import Hand
    from guide.screens.sheet import SetupSheet
    from guide.screens.wire import Wires
    from guide.walk.second import Signer
    from guide.walk.setup import Setup

A_PROGRAM = "program"
"""What is recorded as the input when no terminal is: marked for ever as not real."""
TOUCHES = (events.Key, events.MouseDown, events.Paste)
"""What says that somebody is there."""
LET_IN = 0.0005
"""Seconds after which what waits to be written to the terminal gets its turn."""
LETS_GO = (events.MouseUp, events.Click)
"""What follows a mouse button that went down."""


class Spindleside(App[int]):
    """Start page below, one sheet or record above it."""

    CSS_PATH = "frame.tcss"
    TITLE = "spindleside"
    ENABLE_COMMAND_PALETTE = False

    def __init__(
        self,
        settings: Settings,
        *,
        procedure: str | None = None,
        setup: str | None = None,
        practice: str | None = None,
        typed_at: str = A_PROGRAM,
        quiet: float = 0.4,
        guarded: bool = True,
    ) -> None:
        self._spoken, self._drawn = Spoken(), Drawn()
        SPOKEN.set(self._spoken)
        DRAWN.set(self._drawn)
        super().__init__()
        self.animation_level = "none"
        self.settings, self.typed_at, self.quiet = settings, typed_at, quiet
        self._colourless = Colourless(enabled=False)
        self._filters.append(self._colourless)
        for each in LOOKS.values():
            self.register_theme(each)
        self.show_as(settings)
        self.wanted = ("begin", procedure) if procedure else ("resume", setup) if setup else None
        if practice is not None:
            self.wanted = ("practice", practice)
        self._store: Store | None = None
        self._desk: Desk | None = None
        self._woken = False
        """Whether the last touch was the first after the idle time."""
        self._sheet: SetupSheet | None = None
        """The sheet of the real setup that is open."""
        self._guard = Guard(self, super().on_event) if guarded else None
        self._lull = Lull()

    async def on_event(self, event: events.Event) -> None:
        """Every key and click, wherever it goes, says that somebody is there.

        The first after the idle time does nothing else: whoever came back may be somebody else.
        """
        if isinstance(event, TOUCHES):
            self._lull.touched()
        if self._desk and isinstance(event, TOUCHES):
            self._woken = self._sheet is not None and self._sheet.left_alone()
            self._desk.touch()
        if not (self._woken and isinstance(event, (*TOUCHES, *LETS_GO))):
            await (self._guard.came if self._guard else super().on_event)(event)

    def _fatal_error(self) -> None:
        """What went wrong in the program itself, without the values around it: a PIN is one."""
        from traceback import format_exc

        from rich.text import Text

        self.panic(Text(format_exc()))

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Tokens of our own, there before the theme is."""
        return {"quiet": QUIET}

    def show_as(self, settings: Settings) -> None:
        """Look and speak like this from now on."""
        self.settings = settings
        self._spoken.language = settings.language
        self._drawn.colours = settings.shown != "no-colour"
        self._colourless.enabled = not self._drawn.colours
        self.theme = LOOKS[settings.shown].name

    def on_mount(self) -> None:
        """The start page, and over it what the command line asked for."""
        self._lull.begin()
        self.set_interval(EVERY, self._lull.look)
        self.push_screen(StartPage())
        if self.wanted:
            self.call_after_refresh(self.open_row, *self.wanted)

    def on_unmount(self) -> None:
        """The journal is closed with the program."""
        self._lull.end()
        if self._store is not None:
            self._store.close()

    @property
    def store(self) -> Store:
        """The journal, opened when it is first written to."""
        from guide.journal.store import Store

        if self._store is None:
            self._store = Store(self.settings.journal_file)
        return self._store

    def at_setup(self, setup: str) -> None:
        """Told which setup is open now, blank once none is; nothing here wants to know."""

    def open_row(self, what: str, name: str) -> None:
        """Open what a row of the start page stands for."""
        way = self._ways().get(what)
        if way is not None:
            self.run_worker(self._plainly(way, name), group="open", exclusive=True)

    def _ways(self) -> dict[str, Callable[[str], Any]]:
        """How each kind of row is opened; a row that only says something is opened by none."""
        return {"begin": self._begin, "resume": self._resume, "record": self._record,
                "people": self._people, "calculators": self._calculators,
                "practice": self._practise, "more": self._more,
                "history": self._history, "equipment": self._equipment,
                "settings": self._liked, "first": self._first}  # fmt: skip

    async def _plainly(self, way: Callable[[str], Any], name: str) -> None:
        """A refusal is one sentence on the start page."""
        try:
            await way(name)
        except Refusal as refusal:
            self.start_page.complain(refused(refusal, language()))

    @property
    def start_page(self) -> StartPage:
        """The page below all others."""
        return next(each for each in self.screen_stack if isinstance(each, StartPage))

    @property
    def desk(self) -> Desk:
        """Who may sign on here."""
        from guide.front.desk import Desk

        if self._desk is None:
            self._desk = Desk(self.store)
        return self._desk

    async def _settled(self) -> bool:
        """Whether it is settled how people sign on."""
        return self.desk.roster.begun or bool(await self._first_use())

    async def _first_use(self) -> str:
        """Settle how people sign on, once for each journal; who did, blank where nobody does."""
        from guide.screens.signing import FirstUse

        return await self.push_screen_wait(FirstUse(self.desk)) or ""

    async def _begin(self, procedure: str) -> None:
        """Ask who and which lathe, then open a new setup."""
        from guide.front.opening import begun
        from guide.front.shelf import STRAIGHT, people_and_lathes
        from guide.procedure.shelf import find
        from guide.screens.people import AskScreen
        from guide.screens.signing import signing

        first = ""
        if not self.desk.roster.begun and not (first := await self._first_use()):
            return
        found = find(procedure)
        people, lathes = people_and_lathes(self.settings)
        rules = self.desk.roster.rules
        opened: list[tuple[Setup, Hold]] = []

        def begin(told: Mapping[str, str], hand: Hand | None) -> None:
            asked = (procedure, told["person"], told["lathe"], self.typed_at)
            opened.append(begun(self.store, *asked, hand, rules.witness, found))

        known = self._known(people, rules.sign_on)
        attempt = signing(self.desk.signed_on if rules.sign_on else None, begin)
        straight = procedure == STRAIGHT
        asks = AskScreen.for_setup(known, lathes, attempt, straight, rules.sign_on, first)
        if await self.push_screen_wait(asks):
            await self._walk(*opened[0], people)

    async def _more(self, of: str) -> None:
        """Choose among what stands behind one tile of the start page, and open it."""
        from guide.front.shelf import behind
        from guide.screens.rows_page import RowsPage

        if chosen := await self.push_screen_wait(RowsPage(behind(of))):
            what, _, name = chosen.partition(":")
            if way := self._ways().get(what):
                await way(name)

    def _known(self, people: list[str], signs: bool) -> list[str]:
        """Names to offer, the latest used first; where people sign on, those who may."""
        if not signs:
            return people
        may = self.desk.names()
        return [*(each for each in people if each in may),
                *(each for each in may if each not in people)]  # fmt: skip

    async def _resume(self, setup: str) -> None:
        """Ask who, then go on; one that has ended is only read."""
        from guide.front.opening import gone_on, has_ended, is_signed_one
        from guide.front.shelf import people_and_lathes
        from guide.plain import N_
        from guide.screens.people import AskScreen
        from guide.screens.signing import signing

        if has_ended(self.store, setup):
            await self._record(setup)
            return
        people, _ = people_and_lathes(self.settings)
        signs = is_signed_one(self.store, setup)
        opened: list[tuple[Setup, Hold]] = []

        def go_on(told: Mapping[str, str], hand: Hand | None) -> None:
            opened.append(gone_on(self.store, setup, told["person"], hand))

        attempt = signing(self.desk.signed_on if signs else None, go_on)
        who = N_("Who goes on with it?")
        asks = AskScreen.for_person(who, self._known(people, signs), attempt, signs)
        if await self.push_screen_wait(asks):
            await self._walk(*opened[0], people)

    async def _people(self, _: str) -> None:
        """Show who may sign, and change it."""
        from guide.screens.people_page import PeoplePage

        if await self._settled():
            await self.push_screen_wait(PeoplePage(self.desk))

    async def _history(self, chuck: str) -> None:
        """Show how each chuck was found and left, or one of them at once."""
        from guide.screens.history import show_history

        await show_history(self, chuck)

    async def _equipment(self, name: str) -> None:
        """Show the shop's equipment, and change it."""
        from guide.screens.equipment import EquipmentPage

        if await self._settled():
            await self.push_screen_wait(EquipmentPage(self.desk, self.store))
            await self.start_page.fill()

    async def _practise(self, told: str) -> None:
        """A lesson, or a chuck from a seed, on the simulated bench."""
        from guide.screens.practice.running import practise

        await practise(self, told)

    async def _walk(self, setup: Setup, hold: Hold, people: list[str]) -> None:
        """Show the sheet until it is left; then let others have the setup."""
        from guide.front.own_language import speak_as_set, speak_for
        from guide.screens.sheet import SetupSheet

        if setup.state.opening.get("mode") == "practice":
            from guide.screens.practice.running import walk_on_the_bench

            await walk_on_the_bench(self, setup, hold, people)
            return
        self.at_setup(setup.state.setup)
        speak_for(setup.state.person, self.settings)
        self._sheet = SetupSheet(setup, people, self.quiet, self.desk, self._wires())
        try:
            with hold:
                onward = await self.push_screen_wait(self._sheet)
        finally:
            self._sheet = None
            self.at_setup("")
            speak_as_set(self.settings)
            hand = setup.hands.pop(setup.state.person, None)
            setup.hands.clear()
        if onward:
            await self._go_on(onward, setup, hand, people)
        await self.start_page.fill()

    def _wires(self) -> Wires | None:
        """The indicators that are read by wire; None where none is set."""
        from guide.screens.wire import Wires

        wires = Wires(self.settings.home)
        return wires if wires.listed or wires.trouble else None

    async def _go_on(
        self, procedure: str, ended: Setup, hand: Signer | None, people: list[str]
    ) -> None:
        """The next procedure on the same lathe, by the person who ended the last one."""
        from guide.front.opening import begun

        lathe, person = str(ended.state.facts["lathe"]), ended.state.person
        rules = self.desk.roster.rules
        if rules.sign_on and hand is None:
            await self._begin(procedure)
            return
        who = (person, lathe, self.typed_at, hand if rules.sign_on else None, rules.witness)
        await self._walk(*begun(self.store, procedure, *who), people)

    async def _first(self, _: str) -> None:
        """The walk for whoever is here for the first time; it writes nothing."""
        from guide.screens.first_walk import FirstWalk

        await self.push_screen_wait(FirstWalk())

    async def _liked(self, _: str) -> None:
        """Show how the screens look, and change it."""
        from guide.screens.liked import LikedPage

        await self.push_screen_wait(LikedPage())

    async def _calculators(self, _: str) -> None:
        """Show the shop calculators; they write nothing."""
        from guide.screens.calculators import CalculatorList

        await self.push_screen_wait(CalculatorList())

    async def _record(self, setup: str) -> None:
        """Show a record."""
        from guide.front.opening import read
        from guide.screens.record import RecordScreen

        await self.push_screen_wait(RecordScreen(read(self.store, setup)))


def run(
    settings: Settings,
    *,
    procedure: str | None = None,
    setup: str | None = None,
    practice: str | None = None,
) -> int:
    """Run the screens until they are left; gives the exit code."""
    typed_at = "terminal" if sys.stdin is not None and sys.stdin.isatty() else A_PROGRAM
    app = Spindleside(
        settings, procedure=procedure, setup=setup, practice=practice, typed_at=typed_at
    )
    as_a_program(app)
    app.run()
    return app.return_code or 0


def as_a_program(app: Spindleside) -> None:
    """Nothing is logged, and what is painted gets out at once.

    Textual can log every key to a file or to its console: a PIN is typed with keys. It writes to
    the terminal from a thread of its own, which Python lets in after so long.
    """
    from textual import constants

    sys.setswitchinterval(LET_IN)
    vars(constants)["LOG_FILE"] = None
    app.devtools = None
