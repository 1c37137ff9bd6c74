"""Acts that come faster than pages can open: a busy machine, an indicator's wire beside a key."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest
from textual.app import App

from guide.screens.pages import form_for
from guide.screens.sheet import SetupSheet
from guide.screens.steps.form import Form
from guide.screens.steps.task import TaskForm

REMOVAL = {"on-nose": "this-chuck", "seat": "caught", "body": "on-plate", "bolts": "snug",
           "screws": "touching"}  # fmt: skip
TURNS = (0, 1, 2, 5)
"""Turns of the loop between two acts, so that a page is met at each stage of its opening."""


@pytest.mark.parametrize("turns", TURNS)
async def test_the_last_page_stands_alone_whatever_was_skipped(
    opened, quick, acts, enter, turns: int
) -> None:
    """Nothing falls; every act is in the journal and has its line; one form is there, the right."""
    async with opened(quick) as at:
        setup = await acts.opened_at(at)
        for event in acts.events:
            enter(at.sheet, event)
            for _ in range(turns):
                await asyncio.sleep(0)
        await at.settle()
        await at.pilot.pause(0.3)
        assert setup.state.sequence == len(acts.events) + 1 == len(at.app.store.events("again"))
        assert len(at.sheet.lines) == len(setup.state.entries)
        assert [type(each) for each in at.sheet.query(Form)] == [
            type(form_for(acts.procedure, setup.state))
        ]
        assert at.sheet.form is at.sheet.query_one(Form)


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
