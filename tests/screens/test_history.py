"""Chucks over the years on the screen of the smallest size, by keys and by clicks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from guide.equipment.equipment import Equipment
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.screens.history import HistoryList, HistoryPage
from guide.screens.start import StartPage
from guide.screens.widgets.press import Press

CHUCK, LATHE = "Chuck 7 (invented)", "Lathe 2 (invented)"
ON = {"seat": "locked", "body": "on-plate"}


def read(day: str, judged: str, verdict: str = "within") -> dict[str, str]:
    """A turn of readings as an outcome holds it."""
    return {"at": day, "judged": judged, "expanded_uncertainty": "0.0001", "unit": "in",
            "verdict": verdict, "tolerance": "0.001 in", "station": "3 in"}  # fmt: skip


def ended(store: Store, name: str, day: str, outcome: dict[str, Any]) -> None:
    """A setup of two events: opened, and ended with an outcome."""
    opening = {"mode": "real", "input": "terminal", "procedure": "chuck-recheck",
               "facts": {"lathe": LATHE}}  # fmt: skip
    first = Event(name, 1, f"{day}T08:00:00.000Z", "A. Sample", "", "open", opening, GENESIS)
    data = {"ends": "finished", "world": ON, "outcome": outcome}
    store.append(first)
    store.append(
        Event(name, 2, f"{day}T09:00:00.000Z", "A. Sample", "end", "sign", data, first.digest)
    )


@pytest.fixture
def years(tmp_path: Path) -> Path:
    """One chuck found well and then outside, long due; another not due for long."""
    with Store(tmp_path / "journal.sqlite3") as store:
        ended(store, "one", "2020-01-01", {"chuck": CHUCK, "as_left": read("2020-01-01", "0.0002"),
                                           "recheck": "2020-04-10"})  # fmt: skip
        ended(store, "two", "2020-04-10", {"chuck": CHUCK,
              "as_found": read("2020-04-10", "0.0015", "outside"),
              "as_left": read("2020-04-10", "0.0003"), "recheck": "2021-01-01"})  # fmt: skip
        ended(store, "three", "2020-05-01", {"chuck": "Chuck 9 (invented)",
              "as_left": read("2020-05-01", "0.0004"), "recheck": "2199-01-01"})  # fmt: skip
    return tmp_path


def on_screen(at) -> str:
    """Every line that is drawn."""
    return "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())


async def until(at, kind: type) -> None:
    """Wait for a page."""
    for _ in range(100):
        await at.pilot.pause(0.02)
        if isinstance(at.app.screen, kind):
            await at.pilot.pause()
            return
    raise AssertionError(at.app.screen)


async def test_what_is_due_stands_at_the_top_of_the_start_page(opened, keyboard, years) -> None:
    """One line with what to do; what is not due is not there, and the line opens the chuck.

    Found outside after a hundred days it is due after fifty, before the day that somebody gave.
    """
    async with opened(keyboard) as at:
        await at.row(f"history:{CHUCK}")
        first = at.app.screen.query("#rows Press").first()
        assert first.name == f"history:{CHUCK}"
        assert "due 2020-05-30" in first.label
        assert "Chuck 9" not in on_screen(at).split("Straight")[0]
        await at.pilot.press("1")
        await until(at, HistoryPage)
        assert CHUCK in on_screen(at)


async def test_nothing_due_is_no_section(opened, keyboard, tmp_path: Path) -> None:
    """An empty heading would teach nobody to look."""
    async with opened(keyboard) as at:
        await at.row("history:")
        assert "To look at again" not in on_screen(at)


async def test_by_keys_from_the_list_to_the_reasons_and_back(opened, keyboard, years) -> None:
    """At 80 by 24: picture first, the reasons by reading on, and back to the start page."""
    async with opened(keyboard) as at:
        await at.pick(await at.row("history:"))
        await until(at, HistoryList)
        text = on_screen(at)
        assert text.index(CHUCK) < text.index("Chuck 9")
        assert "LOOK AT IT NOW" in text
        await at.pilot.press("1")
        await until(at, HistoryPage)
        for sign in "○●│┄":
            assert sign in on_screen(at)
        assert "2020-01-01" in on_screen(at)
        for _ in range(4):
            await at.pilot.press("pagedown")
        await at.pilot.pause()
        assert "100 days become 50" in " ".join(on_screen(at).split())
        await at.pilot.press("escape")
        await until(at, HistoryList)
        await at.pilot.press("escape")
        await until(at, StartPage)


async def test_by_clicks_alone(opened, mouse, years) -> None:
    """The other chuck's line opens its page."""
    async with opened(mouse) as at:
        await at.pick(await at.row("history:"))
        await until(at, HistoryList)
        await at.pick(list(at.app.screen.query(Press))[1])
        await until(at, HistoryPage)
        assert "look at it again by 2199-01-01" in on_screen(at)


async def test_an_empty_journal_says_so(opened, keyboard) -> None:
    """No row, one sentence."""
    async with opened(keyboard) as at:
        await at.pick(await at.row("history:"))
        await until(at, HistoryList)
        assert "Nothing yet" in on_screen(at)


async def test_a_chuck_marked_in_the_equipment_is_due(opened, keyboard, years: Path) -> None:
    """The one that was not due for long, after a crash."""
    with Store(years / "journal.sqlite3") as store:
        Equipment(store).voided(
            "A. Sample", "Chuck 9 (invented)", "a crash (invented)", "2020-06-01T08:00:00.000Z"
        )
    async with opened(keyboard) as at:
        row = await at.row("history:Chuck 9 (invented)")
        assert "no result stands since 2020-06-01" in row.label
