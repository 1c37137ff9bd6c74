"""Every page opens at its title, whatever had the focus before it."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.screen import Screen
from textual.widget import Widget

from guide.journal.store import Store
from guide.procedure.shelf import find, shipped_files
from guide.rehearse import read_answers, rehearse
from guide.screens.sheet import SetupSheet
from guide.screens.widgets.bar import ActionBar
from guide.walk.setup import open_setup

ANSWERS = Path(__file__).parents[1] / "answers"
FAR = 40
"""Acts of a walk: pages of every kind."""
SMALL = (80, 24)
NAMES = sorted(each.stem for each in shipped_files())


@pytest.mark.parametrize("name", NAMES)
async def test_a_setup_opens_at_the_title_of_its_first_page(opened, quick, name: str) -> None:
    """The fields below take no focus that would scroll the page to them."""
    async with opened(quick, size=SMALL) as at:
        await at.begin_quickly(name)
        await at.pilot.pause(0.5)
        in_sight(at)


async def test_a_page_opens_at_its_title_though_the_last_one_was_left_at_a_tile(
    opened, quick, monkeypatch, tmp_path
) -> None:
    """A tile that goes with its page hands no focus on to a field far down, and none is gone to."""
    gone_to: list[Widget] = []
    monkeypatch.setattr(Screen, "scroll_to_center", lambda _, to, **__: gone_to.append(to))
    told = read_answers(ANSWERS / "adjustable-chuck-inch.yaml")
    procedure = find(told.procedure)
    with Store(tmp_path / "rehearsed.sqlite3") as store:
        rehearse(procedure, told, store, "walk")
        events = store.events("walk")[1 : FAR + 1]
    async with opened(quick, size=SMALL) as at:
        setup = open_setup(
            at.app.store, procedure, setup="left", person=events[0].person, at=events[0].at,
            lathe="Lathe 2 (invented)",
        )  # fmt: skip
        at.app.push_screen(SetupSheet(setup, (), 0.0))
        await at.until(SetupSheet)
        for event in events:
            await at.pilot.pause(0.15)
            in_sight(at)
            at.sheet.query_one(ActionBar).first.focus(scroll_visible=False)
            await at.pilot.pause(0.02)
            for _ in range(4):
                if at.sheet.enter(event.kind, dict(event.data), person=event.person):
                    break
        assert not gone_to


def in_sight(at) -> None:
    """The title of the present step stands on the glass."""
    page, present = at.sheet.query_one("#page"), at.sheet.query_one("#present")
    assert 0 <= present.virtual_region.y - page.scroll_y < page.size.height - 1
