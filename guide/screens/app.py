"""The program on the screen: it holds the journal open and puts pages before each other."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

from textual.app import App

from guide.plain import Refusal
from guide.present.words import refused
from guide.screens.start import StartPage
from guide.screens.theme import DARK, QUIET
from guide.screens.tongue import LANGUAGE, language
from guide.settings import Settings

if TYPE_CHECKING:
    from collections.abc import Callable

    from guide.journal.holding import Hold
    from guide.journal.store import Store
    from guide.walk.setup import Setup

A_PROGRAM = "program"
"""What is recorded as the input when no terminal is: marked for ever as not real."""


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
    ) -> None:
        LANGUAGE.set(settings.language)
        super().__init__()
        self.animation_level = "none"
        self.register_theme(DARK)
        self.theme = DARK.name
        self.theme = DARK.name
        self.settings, self.typed_at, self.quiet = settings, typed_at, quiet
        self.wanted = ("begin", procedure) if procedure else ("resume", setup) if setup else None
        if practice is not None:
            self.wanted = ("practice", practice)
        self._store: Store | None = None

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Tokens of our own, there before the theme is."""
        return {"quiet": QUIET}

    def on_mount(self) -> None:
        """The start page, and over it what the command line asked for."""
        self.push_screen(StartPage())
        if self.wanted:
            self.call_after_refresh(self.open_row, *self.wanted)

    def on_unmount(self) -> None:
        """The journal is closed with the program."""
        if self._store is not None:
            self._store.close()

    @property
    def store(self) -> Store:
        """The journal, opened when it is first written to."""
        from guide.journal.store import Store

        if self._store is None:
            self._store = Store(self.settings.journal_file)
        return self._store

    def open_row(self, what: str, name: str) -> None:
        """Open what a row of the start page stands for."""
        ways = {"begin": self._begin, "resume": self._resume, "record": self._record,
                "calculators": self._calculators, "practice": self._practise}  # fmt: skip
        if what in ways:
            self.run_worker(self._plainly(ways[what], name), group="open", exclusive=True)

    async def _plainly(self, way: Callable[[str], Any], name: str) -> None:
        """A refusal is one sentence on the start page."""
        try:
            await way(name)
        except Refusal as refusal:
            self.start_page.complain_with(refused(refusal, language()))

    @property
    def start_page(self) -> StartPage:
        """The page below all others."""
        return next(each for each in self.screen_stack if isinstance(each, StartPage))

    async def _begin(self, procedure: str) -> None:
        """Ask who and which lathe, then open a new setup."""
        from guide.screens.opening import begun
        from guide.screens.people import AskScreen
        from guide.screens.shelf import STRAIGHT, people_and_lathes

        people, lathes = people_and_lathes(self.settings)
        opened: list[tuple[Setup, Hold]] = []

        def attempt(told: Any) -> str:
            return _sentence(
                lambda: opened.append(
                    begun(self.store, procedure, told["person"], told["lathe"], self.typed_at)
                )
            )

        last = procedure == STRAIGHT
        if await self.push_screen_wait(AskScreen.for_setup(people, lathes, attempt, last)):
            await self._walk(*opened[0], people)

    async def _resume(self, setup: str) -> None:
        """Ask who, then go on; one that has ended is only read."""
        from guide.plain import N_
        from guide.screens.opening import gone_on, has_ended
        from guide.screens.people import AskScreen
        from guide.screens.shelf import people_and_lathes

        if has_ended(self.store, setup):
            await self._record(setup)
            return
        people, _ = people_and_lathes(self.settings)
        opened: list[tuple[Setup, Hold]] = []

        def attempt(told: Any) -> str:
            return _sentence(lambda: opened.append(gone_on(self.store, setup, told["person"])))

        asks = AskScreen.for_person(N_("Who goes on with it?"), people, attempt)
        if await self.push_screen_wait(asks):
            await self._walk(*opened[0], people)

    async def _practise(self, told: str) -> None:
        """A lesson, or a chuck from a seed, on the simulated bench."""
        from guide.screens.practice.running import practise

        await practise(self, told)

    async def _walk(self, setup: Setup, hold: Hold, people: list[str]) -> None:
        """Show the sheet until it is left; then let others have the setup."""
        from guide.screens.sheet import SetupSheet

        if setup.state.opening.get("mode") == "practice":
            from guide.screens.practice.running import walk_on_the_bench

            await walk_on_the_bench(self, setup, hold, people)
            return
        with hold:
            await self.push_screen_wait(SetupSheet(setup, people, self.quiet))
        await self.start_page.fill()

    async def _calculators(self, _: str) -> None:
        """Show the shop calculators; they write nothing."""
        from guide.screens.calculators import CalculatorList

        await self.push_screen_wait(CalculatorList())

    async def _record(self, setup: str) -> None:
        """Show a record."""
        from guide.screens.opening import read
        from guide.screens.record import RecordScreen

        await self.push_screen_wait(RecordScreen(read(self.store, setup)))


def _sentence(attempt: Callable[[], object]) -> str:
    """Why an attempt was refused, as a sentence; blank when it was not."""
    try:
        attempt()
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


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
    app.run()
    return app.return_code or 0
