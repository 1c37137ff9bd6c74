"""Rechecking on the screen: what is not accepted leads into truing, with what was told there."""

from __future__ import annotations

from contextlib import asynccontextmanager

import pytest

from guide.journal.store import Store
from guide.journal.verify import findings
from guide.screens.sheet import SetupSheet
from guide.screens.steps.besides import EndForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.sign_off import SignOffForm

CHUCK = {
    "on-nose": "this-chuck", "chuck": "Chuck 7 (invented)", "why-now": "date",
    "second-grip": "no", "seat": "locked", "body": "on-plate", "bolts": "snug",
    "screws": "touching", "jaws": "closed", "which-bar": "same", "indicator-kind": "plunger",
    "indicator-name": "Indicator 3 (invented)", "numbering": "balanced", "bar-ground": "yes",
    "why": "out (invented)",
}  # fmt: skip
"""An invented chuck on the nose that nobody touched."""
OUT = {"tolerance": "0.0001 in"}
"""A limit that the invented readings cannot be shown to meet."""


@asynccontextmanager
async def ended(opened, hands, **told):
    """A recheck walked to its last page, out or undecided as found."""
    async with opened(hands, answers={**CHUCK, **OUT, **told}) as at:
        at.decisions = ["stop"]
        await at.begin("chuck-recheck")
        await at.to(SignOffForm)
        assert at.sheet.state.place == "sign-off-out"
        await at.to(EndForm)
        yield at


async def pressed_onward(at) -> None:
    """The button that goes on, and then the next sheet's first page."""
    before = at.sheet
    await at.press("onward")
    for _ in range(200):
        await at.pilot.pause(0.02)
        if isinstance(at.app.screen, SetupSheet) and at.app.screen is not before:
            break
    await at.settle()
    assert at.sheet is not before


def offers(at) -> list[str]:
    """The buttons of the page, by name."""
    return [name for name, _ in at.form.offers()]


async def test_out_as_found_it_offers_to_true_it_and_opens_that(opened, quick, tmp_path) -> None:
    """Same lathe, same person; the usual button closes; nothing is taken as answered."""
    async with ended(opened, quick) as at:
        assert "not accepted" in at.text("#words")
        assert offers(at) == ["leave", "onward"]
        lathe, person = at.sheet.state.facts["lathe"], at.sheet.state.person
        await pressed_onward(at)
        state = at.sheet.state
        assert at.sheet.setup.procedure.name == "adjustable-chuck"
        assert (state.facts, state.person) == ({"lathe": lathe}, person)
        assert state.opening["lathe_before"]["ends"] == "finished"
        assert set(state.world) == {"unknown"}
    with Store.read(tmp_path / "journal.sqlite3") as store:
        assert not [*findings(store)]
        assert len(store.setups()) == 2


async def test_what_was_told_stands_there_and_what_is_felt_does_not(opened, quick) -> None:
    """Page by page up to the look: the recheck's answers are shown, and have to be entered."""
    async with ended(opened, quick) as at:
        told = dict(at.sheet.state.facts)
        await pressed_onward(at)
        offered = at.sheet.state.opening["remembered"]
        assert "turns-freely" not in offered
        shown: dict[str, str] = {}
        while isinstance(at.form, FactsForm):
            shown |= {row.name: row.value for row in at.form.asked()}
            await at.page()
        assert at.sheet.state.place == "look-first"
        for name in ("on-nose", "chuck", "station", "tolerance", "screw-count", "bar-diameter"):
            assert shown[name] == told[name] == at.sheet.state.facts[name]
        assert shown["mass"] == ""


async def test_an_accepted_recheck_offers_nothing_but_to_close(opened, quick) -> None:
    """It has its new date."""
    async with opened(quick, answers={**CHUCK, "tolerance": "0.02 in"}) as at:
        at.decisions = ["accept", "accept"]
        await at.begin("chuck-recheck")
        await at.to(EndForm)
        assert at.sheet.state.facts["recheck-date"] == "2031-01-31"
        assert offers(at) == ["leave"]


@pytest.mark.parametrize("hands", ["keyboard", "mouse"])
async def test_going_on_is_pressed_by_keyboard_and_by_mouse(opened, request, quick, hands) -> None:
    """The button is in reach of both; the keys to it are those of any button."""
    async with ended(opened, quick) as at:
        by = request.getfixturevalue(hands)(at.app, at.pilot, at.answers)
        await pressed_onward(by)
        assert by.sheet.state.place == "lathe-facts"


async def test_begun_later_from_the_start_page_it_is_offered_the_same(opened, quick) -> None:
    """The next shift closes the sheet first; the lathe's last setup was the recheck."""
    async with ended(opened, quick) as at:
        await at.press("leave")
        await at.begin("adjustable-chuck")
        assert at.sheet.state.opening["remembered"]["on-nose"] == "this-chuck"


async def test_after_a_crash_nobody_has_judged_it_offers_no_truing(opened, quick) -> None:
    """It says that it is not to be run, and only closes."""
    async with ended(opened, quick, **{"why-now": "crash", "competent-look": "nobody"}) as at:
        assert "not to be run" in at.text("#words")
        assert offers(at) == ["leave"]
