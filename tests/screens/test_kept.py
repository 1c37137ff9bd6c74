"""Equipment on a page of questions: chosen, filled in, confirmed, and never said by itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.equipment.equipment import Equipment
from guide.front.kept import MARK
from guide.journal.store import Store
from guide.screens.steps.facts import FactsForm

A, AT = "A. Sample", "2030-05-25T09:00:00.000Z"
DIAL = {"indicator-kind": "lever", "unit": "mm", "graduation": "0.002 mm",
        "numbering": "balanced", "calibration-due": "2020-01-31"}  # fmt: skip
PAGE = """
procedure: few
revision: "1"
title: A few questions
rests-on: [invented]
facts:
  lathe: {ask: Which lathe?, kind: text}
  indicator-name: {ask: Which indicator?, kind: text}
  unit:
    ask: In which unit does it read?
    kind: choice
    of: {in: inch, mm: millimetre}
  graduation: {ask: What is one division?, kind: length}
  calibration-due: {ask: When is it due?, kind: date, unknown: "yes"}
  bar-diameter: {ask: How thick is the bar?, kind: length}
  nose-size: {ask: Which size is the nose?, kind: text, unknown: "yes"}
stages:
  - stage: one
    title: One
    steps:
      - step: ask
        kind: facts
        title: The dial and the bar
        full: Answer.
        brief: Answer.
        ask: [lathe, indicator-name, unit, graduation, calibration-due, bar-diameter, nose-size]
      - step: sign-off
        kind: sign-off
        title: Sign
        full: Sign.
        brief: Sign.
"""


@pytest.fixture
def page(tmp_path: Path) -> str:
    """A procedure of one page of questions, in a shop with a dial, a bar and a lathe."""
    (tmp_path / "few.yaml").write_text(PAGE, encoding="utf-8")
    with Store(tmp_path / "journal.sqlite3") as store:
        shop = Equipment(store)
        shop.add(A, "indicator", "Indicator 3", DIAL, AT)
        shop.add(A, "bar", "Bar 1", {"bar-diameter": "30 mm"}, AT)
        shop.add(A, "lathe", "Lathe 2 (invented)", {"nose-size": "D1-6"}, AT)
    return str(tmp_path / "few.yaml")


def line(at, name: str):
    """A question or a row of the page."""
    return next(each for each in at.form.asked() if each.name == name)


def answers(at) -> dict[str, str]:
    """What stands on the page as answers."""
    return at.form.told()


@pytest.mark.parametrize("way", ["keyboard", "mouse"])
async def test_choosing_an_indicator_fills_in_what_is_known_of_it(
    opened, request, page: str, way: str
) -> None:
    """Nothing before it is chosen; then its answers, which can still be changed, and a warning
    that its calibration has ended, which goes into the event."""
    async with opened(request.getfixturevalue(way), procedure=page) as at:
        await at.named()
        assert isinstance(at.form, FactsForm)
        assert answers(at)["graduation"] == ""
        await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 3")
        await at.pilot.pause()
        assert {name: answers(at)[name] for name in ("indicator-name", "unit", "graduation")} == {
            "indicator-name": "Indicator 3", "unit": "mm", "graduation": "0.002 mm"
        }  # fmt: skip
        assert "ended on 2020-01-31" in at.text("FactsForm .overdue")
        assert line(at, "bar-diameter").value == ""
        await at.choose(line(at, f"{MARK}bar-diameter"), "bar:Bar 1")
        line(at, "graduation").entry.value = "0.01 mm"
        await at.pilot.pause()
        await at.press_through("record")
        event = at.sheet.setup.journal.events(at.sheet.state.setup)[-1]
    assert event.data["overdue"] == {"indicator-name": "2020-01-31"}
    assert event.data["facts"]["graduation"] == "0.01 mm"
    assert event.data["facts"]["bar-diameter"] == "30 mm"
    assert set(event.data["facts"]) == {
        "lathe", "indicator-name", "unit", "graduation", "calibration-due", "bar-diameter",
        "nose-size",
    }  # fmt: skip


@pytest.mark.parametrize("typed", [False, True])
async def test_another_indicator_leaves_nothing_of_the_first(
    opened, keyboard, page: str, tmp_path: Path, typed: bool
) -> None:
    """What was filled in for one and is not known of the other is asked again; what somebody
    answered stays."""
    with Store(tmp_path / "journal.sqlite3") as store:
        Equipment(store).add(A, "indicator", "Indicator 4", {"graduation": "0.01 mm"}, AT)
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        line(at, "nose-size").entry.value = "as somebody typed it"
        await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 3")
        await at.pilot.pause()
        if typed:
            line(at, "indicator-name").entry.value = ""
            await at.type(line(at, "indicator-name"), "Indicator 4")
            await at.pilot.press("enter")
        else:
            await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 4")
        await at.pilot.pause()
        told = answers(at)
        assert (told["indicator-name"], told["graduation"]) == ("Indicator 4", "0.01 mm")
        assert (told["unit"], told["calibration-due"]) == ("", "")
        assert told["nose-size"] == "as somebody typed it"
        assert not at.app.screen.query_one("FactsForm .overdue").display


async def test_a_name_that_nothing_here_has_takes_back_what_was_filled_in(
    opened, keyboard, page: str
) -> None:
    """An indicator from outside is not taken for the one that was chosen first."""
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 3")
        await at.pilot.pause()
        line(at, "graduation").entry.value = "0.005 mm"
        line(at, "indicator-name").entry.value = ""
        await at.type(line(at, "indicator-name"), "A borrowed one")
        await at.pilot.press("enter")
        await at.pilot.pause()
        told = answers(at)
        assert (told["unit"], told["calibration-due"]) == ("", "")
        assert told["graduation"] == "0.005 mm"
        assert line(at, f"{MARK}indicator-name").value == ""
        assert line(at, "nose-size").value == "D1-6"


async def test_the_error_limit_of_the_indicator_goes_into_the_event(
    opened, keyboard, page: str, tmp_path: Path
) -> None:
    """It is asked by no page; one that the equipment does not hold is not made up."""
    with Store(tmp_path / "journal.sqlite3") as store:
        known = {**DIAL, "error-limit": "0.005 mm", "calibration-due": "2199-01-31"}
        Equipment(store).add(A, "indicator", "Indicator 5", known, AT)
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 5")
        line(at, "bar-diameter").entry.value = "30 mm"
        await at.pilot.pause()
        await at.press_through("record")
        event = at.sheet.setup.journal.events(at.sheet.state.setup)[-1]
    assert event.data["error_limit"] == "0.005 mm"
    assert "overdue" not in event.data


@pytest.mark.parametrize(("high", "presses"), [(24, 4), (70, 1)])
async def test_what_lies_below_the_fold_is_not_confirmed_before_it_was_in_sight(
    opened, keyboard, page: str, high: int, presses: int
) -> None:
    """All of it stands there already: Enter turns the page on, and records with its last line in
    sight; where the whole page is in sight, at once."""
    async with opened(keyboard, procedure=page, size=(80, high)) as at:
        await at.named()
        told = {"indicator-name": "Another", "graduation": "0.01 mm", "nose-size": "D1-6",
                "calibration-due": "2099-01-31", "bar-diameter": "30 mm"}  # fmt: skip
        for name, answer in told.items():
            line(at, name).entry.value = answer
        line(at, "unit").chosen = "mm"
        at.button("record").focus()
        sheet, form = at.sheet, at.form
        before, looked = sheet.query_one("#page"), sheet.state.sequence
        before.scroll_home(animate=False)
        await at.pilot.pause()
        for more in range(presses, 0, -1):
            assert sheet.state.sequence == looked
            last = line(at, "nose-size").entry.region.bottom
            assert (last <= before.region.bottom) == (more == 1)
            await at.pilot.press("enter")
            await at.pilot.pause()
            if more > 1:
                assert "More answers stand below" in at.complaint
                assert at.form is form
        await at.settle()
        assert sheet.state.sequence == looked + 1
        assert sheet.state.facts["bar-diameter"] == "30 mm"


async def test_what_is_known_of_the_lathe_stands_there_to_be_confirmed(
    opened, keyboard, page: str
) -> None:
    """It was named when the setup was opened."""
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        assert answers(at)["nose-size"] == "D1-6"
        assert at.sheet.state.facts.keys() == {"lathe"}


async def test_a_calibration_that_has_not_ended_is_no_warning(
    opened, keyboard, page: str, tmp_path: Path
) -> None:
    """Neither on the page nor in the event."""
    with Store(tmp_path / "journal.sqlite3") as store:
        Equipment(store).change(
            A, "indicator", "Indicator 3", {"calibration-due": "2199-01-31"}, AT
        )
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        await at.choose(line(at, f"{MARK}indicator-name"), "indicator:Indicator 3")
        await at.choose(line(at, f"{MARK}bar-diameter"), "bar:Bar 1")
        await at.pilot.pause()
        assert not at.app.screen.query_one("FactsForm .overdue").display
        await at.press_through("record")
        event = at.sheet.setup.journal.events(at.sheet.state.setup)[-1]
    assert event.kind == "record"
    assert "overdue" not in event.data


async def test_a_name_that_is_typed_fills_in_only_what_is_blank(
    opened, keyboard, page: str
) -> None:
    """What somebody has answered is theirs."""
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        line(at, "graduation").entry.value = "0.01 mm"
        await at.type(line(at, "indicator-name"), "indicator 3")
        await at.pilot.press("enter")
        await at.pilot.pause()
        assert answers(at)["graduation"] == "0.01 mm"
        assert answers(at)["unit"] == "mm"


async def test_a_shop_without_equipment_has_no_row(opened, keyboard, page: str, tmp_path) -> None:
    """The page is as it was before there was any."""
    with Store(tmp_path / "journal.sqlite3") as store:
        for kind, name in (("indicator", "Indicator 3"), ("bar", "Bar 1")):
            Equipment(store).retire(A, kind, name, AT)
    async with opened(keyboard, procedure=page) as at:
        await at.named()
        assert not [each for each in at.form.asked() if (each.name or "").startswith(MARK)]
