"""Acts that come faster than pages can open: a busy machine, an indicator's wire beside a key."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any

import pytest
from textual.app import App

from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse
from guide.screens.pages import form_for
from guide.screens.sheet import SetupSheet
from guide.screens.steps.form import Form
from guide.screens.steps.task import TaskForm
from guide.walk.setup import open_setup

ANSWERS = Path(__file__).parents[1] / "answers"
REMOVAL = {"on-nose": "this-chuck", "seat": "caught", "body": "on-plate", "bolts": "snug",
           "screws": "touching"}  # fmt: skip
FAR = 40
"""Acts of it: pages of every kind."""
TURNS = (0, 1, 2, 5)
"""Turns of the loop between two acts, so that a page is met at each stage of its opening."""


@pytest.mark.parametrize("turns", TURNS)
async def test_the_last_page_stands_alone_whatever_was_skipped(
    opened, quick, tmp_path, turns: int
) -> None:
    """Nothing falls; every act is in the journal and has its line; one form is there, the right."""
    told = read_answers(ANSWERS / "adjustable-chuck-inch.yaml")
    procedure = find(told.procedure)
    with Store(tmp_path / "rehearsed.sqlite3") as store:
        rehearse(procedure, told, store, "walk")
        events = store.events("walk")[1 : FAR + 1]
    async with opened(quick) as at:
        setup = open_setup(
            at.app.store, procedure, setup="fast", person=events[0].person, at=events[0].at,
            lathe="Lathe 2 (invented)",
        )  # fmt: skip
        at.app.push_screen(SetupSheet(setup, (), 0.0))
        await at.until(SetupSheet)
        for event in events:
            await entered(at.sheet, event)
            for _ in range(turns):
                await asyncio.sleep(0)
        await at.settle()
        await at.pilot.pause(0.3)
        assert setup.state.sequence == FAR + 1 == len(at.app.store.events("fast"))
        assert len(at.sheet.lines) == len(setup.state.entries)
        assert [type(each) for each in at.sheet.query(Form)] == [
            type(form_for(procedure, setup.state))
        ]
        assert at.sheet.form is at.sheet.query_one(Form)


async def entered(sheet: Any, event: Any) -> None:
    """One act; what is doubted once is said once more."""
    assert any(sheet.enter(event.kind, dict(event.data), person=event.person) for _ in range(4))


@pytest.mark.parametrize("read_on", [False, True])
async def test_what_to_do_next_is_painted_before_the_page_is_made(
    opened, quick, monkeypatch, read_on: bool
) -> None:
    """The first thing after an act is a frame, and the next step's title stands in it.

    So it does where somebody has read the page to its end.
    """
    async with opened(quick, size=(80, 16), answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.to(TaskForm)
        await at.pilot.pause(0.3)
        page = at.app.screen.query_one("#page")
        if read_on:
            page.scroll_to(y=page.max_scroll_y, animate=False, immediate=True)
            await at.pilot.pause(0.2)
            assert page.scroll_y > at.app.screen.query_one("#present").virtual_region.y
        order: list[str] = []
        written = SetupSheet._write

        def shown(app: Any, screen: Any, changes: Any) -> None:
            if isinstance(screen, SetupSheet) and changes is not None:
                order.append(changes.render_segments(app.console))

        def write(sheet: Any) -> None:
            order.append("written")
            written(sheet)

        monkeypatch.setattr(App, "_display", shown)
        monkeypatch.setattr(SetupSheet, "_write", write)
        assert at.sheet.enter("done", {})
        await at.pilot.pause(0.2)
        assert at.sheet.setup.step is not None
        first, second = order[:2]
        assert at.sheet.setup.step.title[:30] in first
        assert second == "written"
