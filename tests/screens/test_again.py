"""Where somebody decides when to look again, the page says what the results as found support."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from guide.journal.event import GENESIS, Event
from guide.journal.store import Store
from guide.screens.steps.facts import FactsForm

CHUCK = {
    "on-nose": "this-chuck", "chuck": "Chuck 7 (invented)", "why-now": "date",
    "second-grip": "no", "seat": "locked", "body": "on-plate", "bolts": "snug",
    "screws": "touching", "jaws": "closed", "which-bar": "same", "indicator-kind": "plunger",
    "indicator-name": "Indicator 3 (invented)", "numbering": "balanced", "bar-ground": "yes",
    "tolerance": "0.02 in",
}  # fmt: skip
"""An invented chuck on the nose that nobody touched."""
TODAY = datetime.now(UTC).date()


@pytest.fixture
def trued(tmp_path: Path) -> None:
    """The chuck was trued a hundred days ago, to be looked at again after a hundred."""
    begun = TODAY - timedelta(days=100)
    left = {"at": begun.isoformat(), "judged": "0.001", "expanded_uncertainty": "0.0001",
            "unit": "in", "verdict": "within", "tolerance": "0.02 in"}  # fmt: skip
    outcome = {"chuck": "Chuck 7 (invented)", "as_left": left, "recheck": TODAY.isoformat()}
    world = {"seat": "locked", "body": "on-plate"}
    opening = {"mode": "real", "input": "terminal", "facts": {"lathe": "Lathe 2 (invented)"}}
    first = Event("before", 1, f"{begun}T08:00:00.000Z", "A. Sample", "", "open", opening, GENESIS)
    data = {"ends": "finished", "world": world, "outcome": outcome}
    with Store(tmp_path / "journal.sqlite3") as store:
        store.append(first)
        store.append(Event("before", 2, f"{begun}T09:00:00.000Z", "A. Sample", "end", "sign",
                           data, first.digest))  # fmt: skip


async def to_the_day(opened, quick) -> tuple[str, str]:
    """What the page says that asks for the day, and what stands there as its answer."""
    async with opened(quick, answers=CHUCK, typed_at="terminal") as at:
        at.decisions = ["accept", "accept"]
        await at.begin("chuck-recheck")
        for _ in range(200):
            asked = [each.name for each in at.form.asked()] if at.form else []
            if isinstance(at.form, FactsForm) and "recheck-date" in asked:
                break
            await at.page()
        line = next(each for each in at.form.asked() if each.name == "recheck-date")
        said = at.app.screen.query("FactsForm .support")
        return " ".join(str(each.render()) for each in said), line.value


async def test_well_within_after_a_hundred_days_supports_half_as_many_more(
    opened, quick, trued
) -> None:
    """150 days from today, with the reason; the answer stays blank for a person to give."""
    said, answer = await to_the_day(opened, quick)
    assert (TODAY + timedelta(days=150)).isoformat() in said
    assert "100 days become 150" in said
    assert answer == ""


async def test_the_first_time_nothing_is_said(opened, quick) -> None:
    """No result as found supports any day."""
    said, _ = await to_the_day(opened, quick)
    assert said == ""
