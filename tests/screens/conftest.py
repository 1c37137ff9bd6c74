"""A pair of hands that walks a setup by what the screen shows, and touches nothing else."""

from __future__ import annotations

import asyncio
import re
from abc import ABC, abstractmethod
from cmath import rect
from collections.abc import AsyncIterator, Callable, Iterable, Iterator, Sequence
from contextlib import asynccontextmanager
from importlib.util import module_from_spec, spec_from_file_location
from math import inf, radians
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from textual.events import Key, MouseScrollDown
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Static

from guide.front.questions import keys_of
from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.people.people import People
from guide.people.rules import Rules
from guide.present.questions import ANSWERS as SEEN
from guide.present.questions import ASKS
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.records.evidence import faults
from guide.rehearse import read_answers, rehearse
from guide.screens.app import Spindleside
from guide.screens.messages import Picked
from guide.screens.people import AskScreen
from guide.screens.sheet import SetupSheet
from guide.screens.steps.besides import EndForm
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.form import Form
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.readings import TurnForm
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press
from guide.settings import Settings
from guide.walk.setup import Setup, open_setup

BEHIND = {
    "begin": "more:procedures",
    **dict.fromkeys(("history", "equipment", "people", "settings"), "more:shop"),
}
"""The tile of the start page behind which rows of a kind stand."""
PIN = "four tin horses"
"""What everybody of the invented shop signs on with."""
AT = "2030-01-31T07:05:00.000Z"
ANSWERS = {
    "lathe": "Lathe 2 (invented)",
    "nose": "camlock",
    "guard-fitted": "yes",
    "turns-freely": "yes",
    "on-nose": "nothing",
    "plate": "loose",
    "take-off": "whole",
    "lift-way": "cradle",
    "support-turns": "yes",
    "help": "alone",
    "hoist": "no",
    "unit": "in",
    "tolerance": "0.001 in",
    "graduation": "0.0001 in",
    "clearance": "0.010 in",
    "screw-count": "4",
    "bolt-torque": "33 ft-lb",
    "direction": "forward",
    "kept-on": "yes",
    "rule": "guarded",
    "station": "1 in",
    "range-per-turn": "0.008 in",
    "torque-wrench": "yes",
    "bolt-count": "4",
    "mass": "50 lb",
    "lowest-speed": "30 rpm",
    "marked-speed": "2000 rpm",
    "recheck-date": "2031-01-31",
    "wrench": "yes",
    "torque": "33 ft-lb",
    "source": "the maker's sheet (invented)",
    "check_pass": "yes",
    "decision": "accept",
    "meaning": "did",
    "pushed": "0.0000",
    "pulled": "-0.0001",
    "value": "0.0001",
    "got": "0.0000",
}
"""What the hands answer where the question's name is known; else the first that can be read."""
TRIES = ("unknown", "1 in", "4", "30 rpm", "50 lb", "33 ft-lb", "2031-01-31", "as invented")
"""What is typed, one after the other, until the line below the sheet stays empty."""
SURE = 22
"""Signs of a tile's words that stand on its first line."""
MOST_SCREENS = 30
"""Screens that a page of questions may take up."""
AS_FOUND = {
    "power": "as-found", "controls": "other", "spindle": "free", "seat": "off", "body": "apart",
    "bolts": "out", "screws": "free", "carried": "nothing", "lifting-gear": "clear",
    "chuck-key": "out", "screw-key": "out", "spanner": "out", "small-things": "about",
    "jaws": "closed", "indicator": "off", "guard": "shut", "bystanders": "near",
    "dressed": "other",
}  # fmt: skip
"""An invented lathe before anyone touched it."""
NAMES = {" ": "space", ".": "full_stop", "-": "minus"}
"""What keys are called that are not called by their sign."""
STRONGER = {"caught": "locked", "snug": "tight", "touching": "nipped"}
SOON, LONGEST = 0.05, 0.2
"""Seconds within which a timer is waited for, and for how long timers are waited for at all."""


async def idle(min_sleep: float = 0, max_sleep: float = 1) -> None:
    """Until the program has nothing to do and no timer of it runs out soon.

    The pilot sleeps instead, twice for each key, until the processor was idle for that long.
    """
    loop: Any = asyncio.get_running_loop()
    begun = loop.time()
    await asyncio.sleep(0)
    while (now := loop.time()) < begun + max_sleep:
        due = min((each.when() for each in loop._scheduled if not each.cancelled()), default=inf)
        if not loop._ready and due > min(now + SOON, begun + LONGEST):
            return
        await asyncio.sleep(0 if loop._ready else max(due - now, 0))


@pytest.fixture(autouse=True)
def no_sleep(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pilot waits for the program, not for the clock."""
    monkeypatch.setattr("textual.pilot.wait_for_idle", idle)
    monkeypatch.setattr("textual.app.wait_for_idle", idle)


class Chuck:
    """An invented chuck that is out by a few thousandths of an inch, and the dial on it."""

    def __init__(self) -> None:
        self.off = complex(0.0034, -0.0021)
        """Where the bar's middle stands from the spindle's: along screw 1, along screw 2."""
        self.zero = -0.0006
        """What the dial shows on the bar when it is not out at all."""
        self.on_bar = False
        self.screw, self.bring = 1, 0.0
        self.brought: list[str] = []
        """What the dial came to, correction by correction."""

    def look(self, text: str) -> None:
        """What the screen says of the screw under the plunger and of where the dial has to go."""
        if under := re.search(r"Screw (\d) is under the plunger", text):
            self.screw = int(under[1])
        if bring := re.search(r"Bring the dial to (-?[\d.]+) in", text):
            self.bring = float(bring[1])

    def reads(self, ask: str) -> str:
        """What the dial shows for a question on the screen; blank where it asks nothing of it."""
        if ask.startswith("The dial came to"):
            return self._corrected()
        if ask.startswith(("Pushed", "Pulled")):
            return f"{0.0001 * ask.startswith('Pulled'):.4f}"
        if pair := re.match(r"Screw (\d) under the plunger, hands off", ask):
            return self._dial(90.0 * (int(pair[1]) - 1))
        if turn := re.match(r"(?:Turn to|Back at) ([\d.]+)°(, screw 1)?", ask):
            if ask.startswith("Turn to 0°"):
                self.on_bar = bool(turn[2])
            return self._dial(float(turn[1]))
        return ""

    def _dial(self, angle: float) -> str:
        """On the bar by how far it is out; nose and plate run true but for one division."""
        along = (self.off * rect(1, -radians(angle))).real
        value = along + self.zero if self.on_bar else 0.0001 * (45 <= angle <= 180)
        return f"{round(value, 4) + 0.0:.4f}"

    def _corrected(self) -> str:
        """The body goes along the screw until the dial shows what it had to."""
        way = rect(1, radians(90.0 * (self.screw - 1)))
        self.off += (self.bring - self.zero - (self.off * way.conjugate()).real) * way
        self.brought.append(f"{self.bring:.4f}")
        return self.brought[-1]


class Reader:
    """Someone who knows the shop and reads the screen: what to answer where the focus is."""

    def __init__(self, procedure: str, told: dict[str, str], chuck: Chuck) -> None:
        self.procedure, self.told, self.chuck = procedure, told, chuck
        self.asks = {fact.ask: fact for fact in find(procedure).facts.values()}

    @staticmethod
    def row(lines: list[str]) -> int | None:
        """The line with the sign of the focus."""
        signed = (n for n, line in enumerate(lines) if re.match(r"[\s▐▌█│┃▊▎]*▸ ", line))
        return next(signed, None)

    def focused(self, lines: list[str]) -> list[str]:
        """The lines from the sign of the focus on, without the page's edges; none without it."""
        bare = [re.sub(r"^[\s▐▌█│┃▊▎]+", "", line).rstrip(" ▁▂▃▄▅▆▇█│▎▍▋▉") for line in lines]
        place = self.row(lines)
        return [] if place is None else [bare[place][2:], *bare[place + 1 :]]

    def answer(self, here: list[str]) -> tuple[str, str]:
        """`choose` with a number, `type` with a text (blank to leave it), or `scroll`."""
        ask = here[0]
        if reads := self.chuck.reads(ask):
            return "type", reads
        if variable := next((name for name, words in ASKS.items() if ask.startswith(words)), ""):
            return "choose", self._seen(variable, here)
        if ask.startswith("What is decided?"):
            return self._decided(here)
        if ask.startswith(("What does your name", "Is there a torque wrench for it", "Gone round")):
            return "choose", "1"
        if ask.startswith("Your name"):
            return "type", "A. Sample"
        if ask.startswith(("Watched over", "The maker's torque, with", "Where that figure")):
            return "type", ""
        if ask.startswith("Which lathe is it?"):
            return "type", self.told["lathe"]
        return self._fact(ask)

    def _fact(self, ask: str) -> tuple[str, str]:
        """What the shop knows."""
        fact = next(fact for words, fact in self.asks.items() if ask[:40] == words[: len(ask)][:40])
        if fact.closed:
            keys = keys_of(fact.closed, digits=1)
            return "choose", keys[fact.closed.index(self.told.get(fact.name, fact.closed[0]))]
        other = "unknown" if fact.may_be_unknown else "invented"
        return "type", "" if fact.name == "lathe" else self.told.get(fact.name, other)

    def _decided(self, here: list[str]) -> tuple[str, str]:
        """Accepted where that is offered, else another round."""
        for words in ("accept it", "correct it"):
            found = re.search(rf"○ (\d) {words}", "\n".join(here))
            if found:
                return "choose", found[1]
        return "scroll", ""

    def _seen(self, variable: str, here: list[str]) -> str:
        """The number of what is recorded last, or was found, or a wrench then proves."""
        recorded = re.search(r"recorded last: (.*?)(?=\s+○|$)", " ".join(here[:3]))
        values = SEEN[variable]
        wanted = self.told.get(variable, AS_FOUND[variable])
        if recorded:
            wanted = max(values, key=lambda each: same_beginning(values[each], recorded[1]))
        numbers = dict(offered(variable, here))
        return numbers.get(STRONGER.get(wanted, "")) or numbers.get(wanted) or "1"


def same_beginning(one: str, other: str) -> int:
    """How many signs two texts begin with alike."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def offered(variable: str, here: list[str]) -> Iterator[tuple[str, str]]:
    """Each value in sight and its number."""
    last = 0
    for line in here[1:]:
        for number, words in re.findall(r"[○●] (\d) (.*?)(?=\s+[○●]|$)", line):
            if int(number) <= last:
                return
            last = int(number)
            for value, said in SEEN[variable].items():
                if said.startswith(words) and len(words) > 1:
                    yield value, number


TOLD_FOR = {
    "chuck-removal": {
        "lathe": "Lathe 2 (invented)", "nose": "camlock", "nose-size": "D1-6",
        "guard-fitted": "yes", "on-nose": "this-chuck", "take-off": "whole", "mass": "50 lb",
        "help": "alone", "hoist": "no", "lift-way": "cradle", "support-turns": "yes",
        "turns-freely": "yes", "seat": "caught", "body": "on-plate", "bolts": "snug",
        "screws": "touching",
    },
    "adjustable-chuck": {
        "lathe": "Lathe 2 (invented)", "nose": "camlock", "nose-size": "D1-6",
        "guard-fitted": "yes", "turns-freely": "yes", "lowest-speed": "30 rpm",
        "swing-over-bed": "16 in", "on-nose": "nothing", "plate": "loose",
        "chuck": "Chuck 7 (invented)", "body-diameter": "8 in", "body-length": "3 3/8 in",
        "bore": "2 in", "mass": "50 lb", "marked-speed": "1500 rpm", "screw-count": "4",
        "sense": "toward", "clearance": "0.010 in", "bolt-thread": "3/8-16",
        "bolt-class": "grade 8", "bolt-count": "6", "bolt-reach": "from the front (invented)",
        "bolt-torque": "33 ft-lb", "bolt-torque-source": "plate, stamped (invented)",
        "torque-wrench": "yes", "indicator-name": "Indicator 3 (invented)",
        "indicator-kind": "plunger", "unit": "in", "graduation": "0.0001 in",
        "numbering": "balanced", "range-per-turn": "0.010 in", "calibration-due": "2031-01-31",
        "bar-ground": "yes", "bar-diameter": "1 in", "bar-length": "8 in",
        "tolerance": "0.001 in", "rule": "guarded", "station": "3 in", "direction": "forward",
        "help": "alone", "hoist": "no", "lift-way": "cradle", "body-runout": "0.003 in",
        "marks": "one dot each (invented)", "recheck-date": "2031-03-02", "bolts": "out",
    },
}  # fmt: skip
"""What the one who reads the screen knows of an invented shop, for each procedure."""


@pytest.fixture
def reader() -> Callable[[str], Reader]:
    """Someone who reads the screen, for a procedure."""
    return lambda procedure: Reader(procedure, TOLD_FOR[procedure], Chuck())


class Hands(ABC):
    """Works the program by keyboard or by mouse, by what is on the screen."""

    def __init__(self, app: Spindleside, pilot: Pilot[int], answers: dict[str, str]) -> None:
        self.app, self.pilot, self.answers = app, pilot, {**ANSWERS, **answers}
        self.seen: list[str] = []
        self.decisions: list[str] = []

    @property
    def sheet(self) -> SetupSheet:
        """The sheet that is on the screen."""
        assert isinstance(self.app.screen, SetupSheet), self.app.screen
        return self.app.screen

    @property
    def form(self) -> Form:
        """The form of the present place."""
        return self.sheet.query_one(Form)

    def text(self, where: str) -> str:
        """What a part of the screen says."""
        return str(self.app.screen.query_one(where, Static).render())

    @property
    def complaint(self) -> str:
        """The line for what was not accepted."""
        return self.text("#complaint")

    async def settle(self) -> None:
        """Until nothing more is on its way."""
        opening = [each for each in self.app.workers if each.group == "open-place"]
        if opening:
            await self.app.workers.wait_for_complete(opening)
        await self.pilot.pause()

    async def until(self, kind: type[Screen[Any]]) -> Any:
        """The screen, once it is one of that kind."""
        for _ in range(300):
            if type(self.app.screen) is kind:
                await self.pilot.pause()
                return self.app.screen
            await self.pilot.pause(0.02)
        raise AssertionError(self.app.screen)

    async def tried(self) -> None:
        """Until an answer of a window was tried."""
        await self.pilot.pause()
        for _ in range(300):
            if not getattr(self.app.screen, "trying", False):
                break
            await self.pilot.pause(0.02)
        await self.pilot.pause()

    async def fill(self, **told: str) -> None:
        """The answers of a window by their names, then its button."""
        for name, text in told.items():
            row = next(e for e in self.app.screen.query("Choices, Field") if e.name == name)
            if isinstance(row, Choices):
                await self.choose(row, text)
            else:
                assert isinstance(row, Field)
                await self.type(row, text)
            await self.pilot.pause()
        await self.press("yes")
        await self.tried()

    async def begun(self, procedure: str = "", person: str = "A. Sample", pin: str = PIN) -> None:
        """A new setup where people sign on, to its first page; from the start page where named."""
        if procedure:
            await self.pick(await self.row(f"begin:{procedure}"))
        await self.until(AskScreen)
        await self.fill(person=person, pin=pin, lathe="Lathe 2")
        await self.until(SetupSheet)
        await self.settle()

    @abstractmethod
    async def press(self, name: str) -> None:
        """A button below the sheet."""

    @abstractmethod
    async def choose(self, row: Choices, value: str) -> None:
        """An answer of a row."""

    @abstractmethod
    async def type(self, line: Field, text: str) -> None:
        """Text on a line, and Enter."""

    @abstractmethod
    async def confirm(self, row: CheckRow) -> None:
        """One check of a gate."""

    async def begin_quickly(self, procedure: str) -> None:
        """The same by the quick way."""
        async with self.not_drawn():
            await Quick(self.app, self.pilot, self.answers).begin(procedure)

    @asynccontextmanager
    async def not_drawn(self) -> AsyncIterator[None]:
        """The screen is laid out and drawn once, afterwards: nobody looks at it on the way.

        So nothing lies out of sight on it either.
        """
        with self.app.batch_update(), patch.object(FactsForm, "_turned_over", lambda _: False):
            yield
        await self.settle()

    async def begin(self, procedure: str, person: str = "A. Sample") -> None:
        """From the start page to the first step."""
        await self.pilot.pause()
        row = await self.row(f"begin:{procedure}")
        await self.pick(row)
        await self.named(person)

    async def named(self, person: str = "A. Sample") -> None:
        """From the question who and which lathe to the first step."""
        for _ in range(100):
            await self.pilot.pause(0.02)
            if self.app.screen.query("Field Input, ActionBar Press"):
                break
        await self.pilot.pause()
        for name, text in (("person", person), ("lathe", self.answers["lathe"])):
            await self.type(self._line(name), text)
        await self.press("yes")
        await self.settle()

    async def row(self, name: str) -> Press:
        """A row of the start page, once it is there, or of the page behind it."""
        for _ in range(100):
            there = {each.name: each for each in self.app.screen.query(Press)}
            if name in there:
                return there[name]
            if tile := there.get(BEHIND.get(name.partition(":")[0], "")):
                await self.pick(tile)
            await self.pilot.pause(0.02)
        raise AssertionError(name)

    @abstractmethod
    async def pick(self, row: Press) -> None:
        """A row of a list."""

    def _line(self, name: str) -> Field:
        """A line to type on, by its name."""
        return next(each for each in self.app.screen.query(Field) if each.name == name)

    def button(self, name: str) -> Press:
        """A button below, by its name."""
        return next(
            each for each in self.app.screen.query_one(ActionBar).query(Press) if each.name == name
        )

    async def walk(self, most: int = 200) -> None:
        """To the end, or until so many pages were done."""
        for _ in range(most):
            if isinstance(self.form, EndForm):
                return
            await self.page()
        if most == 200:
            raise AssertionError(self.seen[-10:])

    async def to(self, *kinds: type[Form]) -> None:
        """By the quick way, until a page of one of these kinds is open."""
        quick = Quick(self.app, self.pilot, self.answers)
        quick.decisions = self.decisions
        async with self.not_drawn():
            for _ in range(150):
                if isinstance(self.form, kinds):
                    return
                await quick.page()
        raise AssertionError(kinds)

    async def quick_page(self) -> None:
        """The page that is open, by the quick way."""
        async with self.not_drawn():
            await Quick(self.app, self.pilot, self.answers).page()

    async def page(self) -> None:
        """Whatever is on the page now."""
        form, sequence = self.form, self.form.sequence
        self.seen.append(type(form).__name__)
        if isinstance(form, GateForm):
            for row in list(form.query(CheckRow)):
                await self.confirm(row)
        elif isinstance(form, LookForm):
            await self.look(form)
        elif isinstance(form, TurnForm):
            await self.turn(form)
        else:
            await self.answer(form)
        await self.settle()
        if self.form.sequence == sequence:
            raise AssertionError((type(form).__name__, self.text("#words"), self.complaint))

    async def look(self, form: LookForm) -> None:
        """What is recorded last, or what a wrench then proves, or the lathe as found."""
        for row in list(form.query(Choices)):
            wanted = self.recorded(row) or self.answers.get(row.name, AS_FOUND[row.name])
            offered = [value for value, _ in row.options]
            stronger = STRONGER.get(wanted, wanted)
            wanted = stronger if stronger in offered and row.name != "carried" else wanted
            await self.choose(row, wanted if wanted in offered else offered[0])
        await self.press("record")

    def recorded(self, row: Choices) -> str:
        """What the row says was recorded last, blank where nothing was."""
        told = [(len(words), value) for value, words in row.options if f": {words}" in row.note]
        return max(told, default=(0, ""))[1]

    async def turn(self, form: TurnForm) -> None:
        """The same dial at every position, but for a little at the first three."""
        reads = ["0.0000", "0.0001", "0.0000", "0.0001"]
        for place in range(form.count + 1):
            value = "0.0000" if place == form.count else reads[place % 4]
            await self.type(self._line("reading"), value)
        await self.press("record")

    async def answer(self, form: Form) -> None:
        """Every question in sight, then the usual button."""
        done: set[str] = set()
        while True:
            open_ones = [q for q in form.asked() if q.name not in done]
            if not open_ones:
                break
            asked = open_ones[0]
            done.add(asked.name or "")
            if isinstance(asked, Choices):
                await self.choose(asked, self._choice(asked))
            elif not asked.value:
                await self._typed(asked)
        leave = isinstance(form, CorrectionForm) and form.advice is None
        await self.press_through("alone" if leave else form.offers()[0][0])

    async def press_through(self, name: str) -> None:
        """A button, and again while the page says that more answers stand below."""
        form = self.form
        for _ in range(MOST_SCREENS):
            await self.press(name)
            await self.settle()
            if not form.is_attached or "stand below" not in self.complaint:
                break

    def _choice(self, row: Choices) -> str:
        """The known answer if it is offered, else the first."""
        offered = [value for value, _ in row.options]
        if row.name == "decision" and self.decisions:
            return self.decisions.pop(0)
        wanted = self.answers.get(row.name or "", "")
        return wanted if wanted in offered else offered[0]

    async def _typed(self, line: Field) -> None:
        """The known answer, or the first that is accepted."""
        if line.name == "name":
            await self.type(line, self.sheet.state.person)
            return
        for text in filter(None, (self.answers.get(line.name or ""), *TRIES)):
            await self.type(line, text)
            if not self.complaint:
                return
        raise AssertionError((line.name, self.complaint))


class ByKeyboard(Hands):
    """Keys alone."""

    async def press(self, name: str) -> None:
        """The focus walks to the button, then Enter."""
        await self._focus(self.button(name))
        await self.pilot.press("enter")
        await self.pilot.pause()

    async def pick(self, row: Press) -> None:
        """The focus walks to the row, then Enter."""
        await self._focus(row)
        await self.pilot.press("enter")

    async def choose(self, row: Choices, value: str) -> None:
        """The answer's own number."""
        await self._focus(row)
        await self.pilot.press(row.keys[[each for each, _ in row.options].index(value)])

    async def type(self, line: Field, text: str) -> None:
        """Over whatever was there."""
        await self._focus(line.entry)
        if line.entry.value:
            await self.pilot.press("home", "shift+end", "delete")
        await self.signs(text)
        await self.pilot.press("enter")

    async def confirm(self, row: CheckRow) -> None:
        """The check's number, alone."""
        form = self.form
        while row.state != "confirmed" and form.is_attached and form is self.form:
            await self.pilot.pause(0.31)
            await self.pilot.press(str(row.number))
            await self.pilot.pause(0.45)

    async def signs(self, text: str) -> None:
        """Text as fast as it goes, until the line has taken it."""
        for each in text:
            self.app.post_message(Key(NAMES.get(each, each), each))
        for pump in filter(None, (self.app, self.app.focused)):
            taken = asyncio.Event()
            pump.call_later(taken.set)
            await asyncio.wait_for(taken.wait(), 10)

    async def _focus(self, wanted: object) -> None:
        """Down, until it is there."""
        for _ in range(80):
            if self.app.focused is wanted:
                return
            await self._moved("down" if self.app.focused else "tab")
        raise AssertionError((wanted, self.app.focused))

    async def _moved(self, key: str) -> None:
        """A key, and the focus on its way to somewhere else."""
        before = self.app.focused
        self.app.post_message(Key(key, None))
        for _ in range(100):
            await asyncio.sleep(0.001)
            if self.app.focused is not before:
                return
        await self.pilot.pause()


class ByMouse(Hands):
    """The pointer alone, but for typing text."""

    async def _click(self, widget: object, offset: tuple[int, int] | None = None) -> None:
        """Scrolled into sight, then clicked."""
        widget.scroll_visible(animate=False)  # type: ignore[attr-defined]
        await self.pilot.pause()
        for _ in range(20):
            if await self.pilot.click(widget, offset=offset or (2, 0)):  # type: ignore[arg-type]
                return
            await self.pilot.pause(0.05)
        raise AssertionError(widget)

    async def press(self, name: str) -> None:
        """A click on the button."""
        await self._click(self.button(name), (3, 1))
        await self.pilot.pause()

    async def pick(self, row: Press) -> None:
        """A click on the row."""
        await self._click(row)

    async def choose(self, row: Choices, value: str) -> None:
        """A click on the answer."""
        spot = row.spot(value)
        await self._click(row, (spot.x, spot.y))

    async def type(self, line: Field, text: str) -> None:
        """A click on the line, then the text; the next click goes on."""
        await self._click(line.entry)
        line.entry.value = text
        await self.pilot.press("enter")

    async def confirm(self, row: CheckRow) -> None:
        """A click on the check."""
        await self._click(row)


class Quick(Hands):
    """Sets the widgets themselves: for the way to what a test is about."""

    async def press(self, name: str) -> None:
        """As if the button had been pressed."""
        self.button(name).action_press()
        await self.pilot.pause()

    async def pick(self, row: Press) -> None:
        """As if the row had been pressed."""
        row.action_press()

    async def choose(self, row: Choices, value: str) -> None:
        """As if the answer had been chosen."""
        row.choose([each for each, _ in row.options].index(value), onward=False)
        if row.name in ("power", "count", "wrench", "decision"):
            await self.pilot.pause()

    async def type(self, line: Field, text: str) -> None:
        """As if it had been typed."""
        line.entry.value = text
        await line.entry.action_submit()
        await self.pilot.pause()

    async def confirm(self, row: CheckRow) -> None:
        """As if the check had been clicked."""
        row.post_message(Picked(row.name or ""))
        await self.pilot.pause()


class Pointer:
    """Works the program by what is drawn on the screen: clicks and the wheel at places of it.

    Text is typed where a line asks for text; no key is pressed for anything else.
    """

    def __init__(self, app: Spindleside, pilot: Pilot[int], answers: dict[str, str]) -> None:
        self.app, self.pilot = app, pilot
        self.clicks = 0

    @property
    def lines(self) -> list[str]:
        """What stands on the screen."""
        return [strip.text for strip in self.app.screen._compositor.render_strips()]

    @property
    def text(self) -> str:
        """The same as one text."""
        return "\n".join(self.lines)

    async def settle(self) -> None:
        """Until nothing more is on its way."""
        opening = [each for each in self.app.workers if each.group == "open-place"]
        if opening:
            await self.app.workers.wait_for_complete(opening)
        await self.pilot.pause()

    async def until(self, words: str) -> None:
        """Wait for words."""
        for _ in range(200):
            if words in self.text:
                return
            await self.pilot.pause(0.02)
        raise AssertionError(self.text)

    async def click(self, pattern: str, below: int = 0) -> bool:
        """A click on the first place that reads so, from a line on; whether there is one."""
        for y, line in enumerate(self.lines):
            found = re.search(pattern, line) if y >= below else None
            if found:
                self.clicks += 1
                await self.pilot.click(offset=(found.start(), y))
                await self.settle()
                return True
        return False

    async def go_on(self) -> None:
        """A click on the usual button, which ends in ⏎; where there is none, on the only one."""
        rows = [y for y, line in enumerate(self.lines) if "⏎" in line]
        if rows:
            await self.click("⏎", below=rows[-1])
        else:
            assert await self.click("Leave this one alone"), self.text

    async def wheel(self, times: int = 4) -> None:
        """The wheel turned over the page, to read on."""
        for _ in range(times):
            await self.pilot._post_mouse_events([MouseScrollDown], None, (20, 8), 0)
        await self.pilot.pause()

    async def begin(self, procedure: str) -> None:
        """From the start page to the question who and which lathe."""
        title = find(procedure).title[:SURE]
        await self.until(title)
        await self.settle()
        await self.click(re.escape(title))
        await self.until("Your name")
        await self.settle()

    async def walk(self, reader: Reader, most: int = 1500) -> None:
        """To the end, by what stands on the screen."""
        for _ in range(most):
            if "Close this sheet" in self.text:
                return
            await self.page(reader)
        raise AssertionError(self.text)

    async def page(self, reader: Reader) -> None:
        """One thing that the screen asks for."""
        reader.chuck.look(self.text)
        here = reader.focused(self.lines)
        if "⏎" not in self.text and "Leave this one alone" not in self.text:
            await self.click(r"○ \d  ") or await self.wheel()
        elif here:
            await self.answer(*reader.answer(here), reader.row(self.lines) or 0)
        elif "more below" in self.text and "Done   ⏎" not in self.text:
            await self.wheel()
        else:
            await self.go_on()

    async def answer(self, kind: str, text: str, row: int) -> None:
        """A click on an answer, or text and a click on the button, which shows what is missing."""
        if kind == "choose":
            await self.click(rf"[○●] {text} ", below=row) or await self.wheel()
        elif text == "unknown":
            await self.click("○ 1 not known here", below=row) or await self.wheel()
        elif kind == "type":
            for each in text:
                self.app.post_message(Key(NAMES.get(each, each), each))
            await self.pilot.pause()
            await self.go_on()
        else:
            await self.wheel()


def alone(file: Path) -> None:
    """Settle in a journal, where nothing is settled yet, that nobody signs on."""
    with Store(file) as store:
        if not People(store).roster().begun:
            People(store).set_rules("A. Sample", Rules(sign_on=False), AT)


@pytest.fixture(autouse=True)
def quick_pins(monkeypatch: pytest.MonkeyPatch) -> None:
    """A PIN is stretched a little only, so that tests are quick."""
    monkeypatch.setattr("guide.journal.keys.COST", 2**10)


@pytest.fixture
def pin() -> str:
    """The PIN of everybody in the invented shop."""
    return PIN


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """Where the journal is."""
    return tmp_path / "journal.sqlite3"


@pytest.fixture
def shop(journal: Path) -> Callable[..., None]:
    """Three people who sign on, each with the same PIN, and the shop's rules."""

    def settle(**rules: Any) -> None:
        with Store(journal) as store:
            people = People(store)
            first = people.first("A. Sample", PIN, AT)
            people.add(first, "B. Sample", "apprentice", PIN, AT)
            people.add(first, "C. Sample", "machinist", PIN, AT)
            people.set_rules(first, Rules(**rules), AT)

    return settle


@pytest.fixture
def small() -> str:
    """An invented procedure: facts, a gate, a task, readings, a verdict."""
    return str(Path(__file__).with_name("small.yaml"))


@pytest.fixture
def sound(journal: Path) -> Callable[[], tuple[Event, ...]]:
    """Gives the events of the one setup of the journal, in which nothing is wrong."""

    def events() -> tuple[Event, ...]:
        with Store.read(journal) as store:
            assert [each.says for each in faults(store)] == []
            (name,) = store.names()
            return store.events(name)

    return events


class Opened:
    """Opens the program in a folder of its own."""

    def __init__(self, home: Path) -> None:
        self.settings = Settings(home=home)

    @asynccontextmanager
    async def __call__(
        self,
        hands: type[Hands] = ByKeyboard,
        size: tuple[int, int] = (80, 24),
        answers: dict[str, str] | None = None,
        **more: object,
    ) -> AsyncIterator[Hands]:
        """The program, and hands to work it, by default where nobody signs on."""
        if not more.pop("first_use", False):
            alone(self.settings.journal_file)
        more = {"guarded": False, **more}
        app = Spindleside(self.settings, quiet=0, **more)  # type: ignore[arg-type]
        async with app.run_test(size=size) as pilot:
            yield hands(app, pilot, answers or {})


FIRST_ACTS = 40
"""Acts of a chuck that is trued, with pages of every kind."""


class Acts:
    """The first acts of a rehearsal of `adjustable-chuck`, to be done again on a sheet."""

    def __init__(self, procedure: Procedure, events: Sequence[Event]) -> None:
        self.procedure, self.events = procedure, tuple(events)

    async def opened_at(self, at: Hands) -> Setup:
        """A new setup, open on its sheet."""
        first = self.events[0]
        setup = open_setup(
            at.app.store, self.procedure, setup="again", person=first.person, at=first.at,
            lathe="Lathe 2 (invented)",
        )  # fmt: skip
        at.app.push_screen(SetupSheet(setup, (), 0.0))
        await at.until(SetupSheet)
        return setup


def entered(sheet: SetupSheet, event: Event) -> None:
    """One act; what is doubted once is said once more."""
    assert any(sheet.enter(event.kind, dict(event.data), person=event.person) for _ in range(4))


@pytest.fixture
def acts(tmp_path: Path) -> Acts:
    """What was done first in a rehearsal."""
    told = read_answers(Path(__file__).parents[1] / "answers" / "adjustable-chuck-inch.yaml")
    procedure = find(told.procedure)
    with Store(tmp_path / "rehearsed.sqlite3") as store:
        rehearse(procedure, told, store, "walk")
        return Acts(procedure, store.events("walk")[1 : FIRST_ACTS + 1])


@pytest.fixture
def enter() -> Callable[[SetupSheet, Event], None]:
    """Does one act on a sheet."""
    return entered


@pytest.fixture
def works_alone() -> Callable[[Path], None]:
    """Settles in a journal that nobody signs on."""
    return alone


@pytest.fixture
def opened(tmp_path: Path) -> Opened:
    """The program in a temporary home."""
    return Opened(tmp_path)


@pytest.fixture
def quick() -> type[Hands]:
    """Hands that set the widgets themselves."""
    return Quick


@pytest.fixture
def keyboard() -> type[Hands]:
    """Hands that use keys alone."""
    return ByKeyboard


@pytest.fixture
def mouse() -> type[Hands]:
    """Hands that use the pointer."""
    return ByMouse


@pytest.fixture(params=["keyboard", "mouse"])
def each_way(request: pytest.FixtureRequest) -> Any:
    """The same by keys alone and by the pointer."""
    return request.getfixturevalue(request.param)


def whole_setup(
    home: Path, as_kept: Callable[[Iterable[Event]], None], name: str = "A. Sample"
) -> None:
    """The journal verifies, and has the readings of the kept setup, and the name."""
    with Store.read(home / "journal.sqlite3") as store:
        assert not [*findings(store)]
        (setup,) = store.setups()
        events = store.events(setup.setup)
    assert setup.closing["ends"] == "finished"
    as_kept(events)
    assert told(events, "name") == [name]


def told(events: Iterable[Event], name: str) -> list[Any]:
    """What events have under a name, in order."""
    return [each.data[name] for each in events if name in each.data]


@pytest.fixture
def trued(as_kept: Callable[[Iterable[Event]], None]) -> Callable[..., None]:
    """Looks whether the kept setup was walked whole in a home."""
    return lambda home, name="A. Sample": whole_setup(home, as_kept, name)


@pytest.fixture
def pointer() -> type[Pointer]:
    """A pointer that knows the screen alone."""
    return Pointer


@pytest.fixture(scope="session")
def gallery() -> Any:
    """Walks through every screen and names each (the tests are no package)."""
    spec = spec_from_file_location("gallery_of_screens", Path(__file__).with_name("gallery.py"))
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.shown
