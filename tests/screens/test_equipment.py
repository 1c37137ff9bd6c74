"""Equipment on the screen of the smallest size: added, changed, calibrated, retired."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.equipment.equipment import Equipment
from guide.equipment.register import Register
from guide.journal import keys as keeping
from guide.journal.keys import signed_by
from guide.journal.standing import EQUIPMENT
from guide.journal.store import Store
from guide.people.people import People
from guide.screens.equipment import EquipmentPage, ThingPage
from guide.screens.people import AskScreen
from guide.screens.widgets.press import Press

A, PIN = "A. Sample", "four tin horses"
AT = "2030-05-25T09:00:00.000Z"


@pytest.fixture(autouse=True)
def quick_pins(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keeping, "COST", 2**10)


def register(home: Path) -> Register:
    """What is kept."""
    with Store.read(home / "journal.sqlite3") as store:
        return Equipment(store).register()


def on_screen(at) -> str:
    """Every line that is drawn."""
    return "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())


async def until(at, kind: type) -> None:
    """Wait for a page."""
    for _ in range(400):
        await at.pilot.pause(0.02)
        if type(at.app.screen) is kind:
            await at.pilot.pause()
            return
    raise AssertionError(at.app.screen)


async def typed(at, **told: str) -> None:
    """Type on lines, or choose where there is a row of answers, and press the button."""
    for name, text in told.items():
        line = at.app.screen.line(name)
        if hasattr(line, "entry"):
            await at.type(line, text)
        else:
            await at.choose(line, text)
    await at.press("yes")
    await at.tried()


async def open_page(at) -> None:
    """From the start page."""
    await at.pick(await at.row("equipment:"))
    await until(at, EquipmentPage)


def row(at, name: str) -> Press:
    """A line of the page."""
    return next(each for each in at.app.screen.query(Press) if each.name == name)


@pytest.mark.parametrize("way", ["keyboard", "mouse"])
async def test_an_indicator_is_added_changed_calibrated_and_retired(
    opened, request, tmp_path: Path, way: str
) -> None:
    """Each way of working does all of it; the journal holds an event for each."""
    async with opened(request.getfixturevalue(way)) as at:
        await open_page(at)
        assert "No equipment is kept here yet" in on_screen(at)
        await at.pick(row(at, "add:indicator"))
        await until(at, AskScreen)
        await typed(at, name="Indicator 3", unit="in", graduation="0.0001 in",
                    **{"calibration-due": "2020-01-31"}, person=A)  # fmt: skip
        await until(at, EquipmentPage)
        assert "CALIBRATION OVERDUE since 2020-01-31" in on_screen(at)
        await at.pick(row(at, "thing:indicator:Indicator 3"))
        await until(at, ThingPage)
        await at.pick(row(at, "change"))
        await until(at, AskScreen)
        assert at.app.screen.line("graduation").value == "0.0001 in"
        await typed(at, graduation="0.0005 in", person=A)
        await until(at, ThingPage)
        await at.pick(row(at, "calibrate"))
        await until(at, AskScreen)
        await typed(at, day="2020-01-31", due="2199-01-31", certificate="No. 12", person=A)
        await until(at, ThingPage)
        assert "calibrated until 2199-01-31" in on_screen(at)
        await at.pick(row(at, "retire"))
        await until(at, AskScreen)
        await typed(at, person=A)
        await until(at, EquipmentPage)
        assert "Retired:" in on_screen(at)
    thing = register(tmp_path).find("indicator", "indicator 3")
    assert dict(thing.facts) == {
        "unit": "in", "graduation": "0.0005 in", "calibration-due": "2199-01-31"
    }  # fmt: skip
    assert register(tmp_path).sequence == 4


async def test_an_answer_that_no_procedure_takes_is_refused_in_the_window(
    opened, keyboard, tmp_path: Path
) -> None:
    """It stays open, and nothing is written."""
    async with opened(keyboard) as at:
        await open_page(at)
        await at.pick(row(at, "add:bar"))
        await until(at, AskScreen)
        await typed(at, name="Bar 1", person=A, **{"bar-diameter": "one"})
        assert "unit" in at.complaint
        assert isinstance(at.app.screen, AskScreen)
    assert register(tmp_path).things == {}


async def test_where_people_sign_on_it_takes_a_pin_and_is_signed(
    opened, keyboard, tmp_path: Path
) -> None:
    """A wrong PIN writes nothing."""
    with Store(tmp_path / "journal.sqlite3") as store:
        key = People(store).first(A, PIN, AT).key
    async with opened(keyboard, first_use=True) as at:
        await open_page(at)
        await at.pick(row(at, "add:lathe"))
        await until(at, AskScreen)
        await typed(at, name="Lathe 2", person=A, pin="wrong one")
        assert "not the PIN" in at.complaint
        assert register(tmp_path).things == {}
        await at.pilot.pause(1.1)
        await typed(at, pin=PIN)
        await until(at, EquipmentPage)
    with Store.read(tmp_path / "journal.sqlite3") as store:
        (stored,) = store.rows(EQUIPMENT)
    assert signed_by(key, stored.signature, stored.body)


async def test_an_overdue_indicator_stands_on_the_start_page(
    opened, keyboard, tmp_path: Path
) -> None:
    """With what to do; it opens the equipment."""
    with Store(tmp_path / "journal.sqlite3") as store:
        Equipment(store).add(A, "indicator", "Indicator 3", {"calibration-due": "2020-01-31"}, AT)
    async with opened(keyboard) as at:
        line = await at.row("equipment:Indicator 3")
        assert "calibration ended 2020-01-31" in line.label
        await at.pick(line)
        await until(at, EquipmentPage)


async def test_a_crash_is_written_down_on_the_page_of_the_chuck(
    opened, keyboard, tmp_path: Path
) -> None:
    """With what happened and who said so."""
    with Store(tmp_path / "journal.sqlite3") as store:
        Equipment(store).add(A, "chuck", "Chuck 7", {}, AT)
    async with opened(keyboard) as at:
        await open_page(at)
        await at.pilot.press("1")
        await until(at, ThingPage)
        await at.pick(row(at, "voided"))
        await until(at, AskScreen)
        await typed(at, why="a crash (invented)", person=A)
        await until(at, ThingPage)
    (mark,) = register(tmp_path).voided
    assert (mark.chuck, mark.why, mark.person) == ("Chuck 7", "a crash (invented)", A)
