"""Every screen of the program in turn, on an invented setup, for tests that look at all of them."""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any

from guide.screens.steps.besides import EndForm
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.gate import GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import PairForm, PlayForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.task import TaskForm
from guide.screens.steps.tightening import TighteningForm
from guide.screens.steps.verdict import VerdictForm

PAGES = ("first", "calculators", "history", "equipment", "people", "settings", "practice")
"""Pages that the start page opens, each then with its first tile pressed."""
STEPS = {
    "facts": FactsForm, "look": LookForm, "task": TaskForm, "gate": GateForm, "play": PlayForm,
    "turn": TurnForm, "verdict": VerdictForm, "tightening": TighteningForm, "pair": PairForm,
    "correction": CorrectionForm,
}  # fmt: skip
"""Steps of every kind, in the order in which the walk comes to them."""
READ = ("0.0000", "0.0014", "0.0021", "0.0015", "0.0001")
"""A turn that is out."""
STILL = 0.15
"""Seconds after which all drawings are made."""


async def shown(at: Any) -> AsyncIterator[str]:
    """The name of each screen when it is to be seen; `at` are quick hands at the start page."""
    await at.row("begin:adjustable-chuck")
    await at.pilot.pause(STILL)
    yield "start"
    for page in PAGES:
        async for name in _page(at, page):
            yield name
    at.app.open_row("begin", "adjustable-chuck")
    await at.pilot.pause(STILL)
    yield "begin"
    await at.pilot.press("escape")
    await at.begin("adjustable-chuck")
    at.decisions = ["accept", "another-round"]
    async for name in _steps(at):
        yield name
    async for name in _end(at):
        yield name


async def _page(at: Any, page: str) -> AsyncIterator[str]:
    """A page and what its first tile opens."""
    at.app.open_row(page, "")
    await at.pilot.pause(STILL)
    yield page
    if page not in ("first", "settings", "history"):
        await at.pilot.press("1")
        await at.pilot.pause(STILL)
        yield f"{page}-1"
    while len(at.app.screen_stack) > 2:
        at.app.screen.dismiss(None)
        await at.pilot.pause(0.05)


async def _steps(at: Any) -> AsyncIterator[str]:
    """A step of each kind, the windows over the first, and a turn that has been read."""
    for name, kind in STEPS.items():
        await _to(at, kind)
        yield name
        if name == "facts":
            for window, key in (("menu", "asterisk"), ("help", "f1"), ("pause", "f5")):
                await at.pilot.press(key)
                await at.pilot.pause(STILL)
                yield window
                await at.pilot.press("escape")
                await at.pilot.pause(0.05)
            await at.press("record")
            await at.pilot.pause(STILL)
            at.form.first().scroll_visible(animate=False)
            await at.pilot.pause(STILL)
            yield "refused"
        if name == "turn":
            for value in READ:
                await at.type(at._line("reading"), value)
            await at.pilot.pause(STILL)
            at.form._in_sight()
            await at.pilot.pause(STILL)
            yield "turn-read"
        if name != "correction":
            await at.quick_page()


async def _to(at: Any, kind: type[Any]) -> None:
    """A step of a kind, with its top in sight as for a person, who comes to it page by page."""
    await at.to(kind)
    await at.pilot.pause(STILL)
    at.sheet._to_present()
    await at.pilot.pause(STILL)


async def _end(at: Any) -> AsyncIterator[str]:
    """The signature, the end, and the record."""
    await _to(at, SignOffForm)
    yield "sign-off"
    await _to(at, EndForm)
    yield "end"
    setup = at.sheet.state.setup
    await at.press("leave")
    await at.row(f"record:{setup}")
    await at.pilot.pause(STILL)
    yield "start-used"
    at.app.open_row("record", setup)
    await at.pilot.pause(STILL)
    yield "record"
