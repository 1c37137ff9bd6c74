"""Every page opens at its title, whatever had the focus before it."""

from __future__ import annotations

import pytest
from textual.screen import Screen
from textual.widget import Widget

from guide.procedure.shelf import shipped_files
from guide.screens.widgets.bar import ActionBar

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
    opened, quick, monkeypatch, acts, enter
) -> None:
    """A tile that goes with its page hands no focus on to a field far down, and none is gone to."""
    gone_to: list[Widget] = []
    monkeypatch.setattr(Screen, "scroll_to_center", lambda _, to, **__: gone_to.append(to))
    async with opened(quick, size=SMALL) as at:
        await acts.opened_at(at)
        for event in acts.events:
            await at.pilot.pause(0.15)
            in_sight(at)
            at.sheet.query_one(ActionBar).first.focus(scroll_visible=False)
            await at.pilot.pause(0.02)
            enter(at.sheet, event)
        assert not gone_to


def in_sight(at) -> None:
    """The title of the present step stands on the glass."""
    page, present = at.sheet.query_one("#page"), at.sheet.query_one("#present")
    assert 0 <= present.virtual_region.y - page.scroll_y < page.size.height - 1
