"""Straight to the dial: a bar or a workpiece centred from the start page, both kinds of chuck."""

from __future__ import annotations

import pytest

from guide.journal.store import Store
from guide.screens.sheet import SetupSheet
from guide.screens.steps.besides import EndForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import PairForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.tightening import TighteningForm

CHUCKS = {
    "independent": {
        "chuck-kind": "independent", "seat": "locked", "body": "on-plate", "bolts": "none",
        "screws": "none", "jaws": "closed",
    },
    "adjustable": {
        "chuck-kind": "adjustable", "seat": "locked", "body": "on-plate", "bolts": "tight",
        "screws": "nipped", "jaws": "closed", "sense": "toward",
    },
}  # fmt: skip
"""What is on an invented lathe, by what moves the work in it."""
each_chuck = pytest.mark.parametrize("kind", CHUCKS)


def last_world(home):
    """The machine as the last setup of a journal left it, and how it ended."""
    with Store.read(home / "journal.sqlite3") as store:
        closing = store.setups()[0].closing
    return closing["ends"], closing["world"]


async def centred(at, kind: str, quickly: type | None = None) -> None:
    """One round of correcting and to the end; up to some page by the quick way."""
    at.decisions = ["another-round", "accept", "accept"]
    await (at.begin_quickly if quickly else at.begin)("quick-centring")
    if quickly:
        await at.to(quickly)
        for _ in range(5):
            await at.page()
        await at.to(EndForm)
    await at.walk()
    assert "Finished" in at.text("#words")


@pytest.mark.long
async def test_work_in_jaws_is_centred_to_its_end_by_keyboard(opened, keyboard, tmp_path) -> None:
    """Keys alone, at the smallest size: a round of correcting, power back, signed."""
    async with opened(keyboard, answers=CHUCKS["independent"]) as at:
        await centred(at, "independent")
    ends, world = last_world(tmp_path)
    assert (ends, world["power"], world["jaws"]) == ("finished", "restored", "on-work")


@pytest.mark.long
async def test_work_in_an_adjustable_chuck_is_centred_to_its_end_by_mouse(
    opened, mouse, tmp_path
) -> None:
    """Clicks alone, but for typing."""
    async with opened(mouse, answers=CHUCKS["adjustable"]) as at:
        await centred(at, "adjustable")
    ends, world = last_world(tmp_path)
    assert (ends, world["power"], world["screws"]) == ("finished", "restored", "nipped")


async def test_a_round_of_screws_is_gone_by_keyboard(opened, keyboard) -> None:
    """Ease, read, move, read, move; what stands before and after is taken quickly."""
    async with opened(keyboard, answers=CHUCKS["adjustable"]) as at:
        await centred(at, "adjustable", TighteningForm)


async def test_a_round_of_jaws_is_gone_by_mouse(opened, mouse) -> None:
    """Read, move, read, move, read a turn."""
    async with opened(mouse, answers=CHUCKS["independent"]) as at:
        await centred(at, "independent", PairForm)


async def again_at_the_lathe(at) -> None:
    """A second setup on the same lathe, opened from the start page by two keys."""
    await at.row("begin:quick-centring")
    await at.pilot.press("1")
    for _ in range(100):
        await at.pilot.pause(0.02)
        if at.app.screen.query("ActionBar Press"):
            break
    await at.pilot.pause()
    assert at._line("person").value == "A. Sample"
    assert at._line("lathe").value == "Lathe 2 (invented)"
    await at.pilot.press("enter")
    for _ in range(100):
        await at.pilot.pause(0.02)
        if isinstance(at.app.screen, SetupSheet):
            break
    await at.settle()


KEYS_TO_THE_DIAL = {"independent": 37, "adjustable": 40}
"""From the start page to the first reading, where the lathe was set up before: row, names,
facts (one for each screen of them, since what stands there is looked at before it is confirmed),
cut, two for the locks, nineteen to say how it stands, four for the gate, try, grip, indicator."""


@each_chuck
async def test_the_dial_is_reached_by_few_keys(opened, quick, keyboard, kind) -> None:
    """Counted key by key: what was answered before stands there and is confirmed, not assumed;
    every line is looked at, every gate passed by its own numbers.
    """
    async with opened(quick, answers=CHUCKS[kind]) as at:
        at.decisions = ["accept", "accept"]
        await at.begin("quick-centring")
        await at.walk()
        await at.press("leave")
    async with opened(keyboard, answers=CHUCKS[kind]) as at:
        pressed: list[str] = []
        press = at.pilot.press

        async def counted(*keys: str) -> None:
            pressed.extend(keys)
            await press(*keys)

        at.pilot.press = counted
        await again_at_the_lathe(at)
        for _ in range(60):
            if isinstance(at.form, TurnForm):
                break
            if at.form.asked() and at.sheet.state.place == "look":
                for row in at.form.asked():
                    offered = [value for value, _ in row.options]
                    wanted = AS_IT_STANDS.get(row.name) or CHUCKS[kind].get(row.name, "")
                    await counted(str(offered.index(wanted) + 1))
                    await at.pilot.pause()
                await counted("enter")
            elif at.sheet.setup.procedure.by_name[at.sheet.state.place].kind == "gate":
                await at.page()
            else:
                await counted("enter")
            await at.settle()
        assert isinstance(at.form, TurnForm)
        assert at.sheet.state.facts["nose"] == "camlock"
        assert len(pressed) == KEYS_TO_THE_DIAL[kind], pressed


AS_IT_STANDS = {
    "power": "off", "controls": "neutral", "spindle": "free", "carried": "nothing",
    "lifting-gear": "away", "chuck-key": "out", "screw-key": "out", "spanner": "out",
    "small-things": "cleared", "indicator": "off", "guard": "shut", "bystanders": "clear",
    "dressed": "for-turning",
}  # fmt: skip


async def test_a_chuck_that_was_left_parted_does_not_come_to_the_dial(
    opened, quick, tmp_path
) -> None:
    """What the last setup left is shown at the look; seen so again, the setup ends made safe."""
    parted = {"seat": "locked", "body": "apart", "bolts": "out", "screws": "free"}
    async with opened(quick, answers={**CHUCKS["adjustable"], **parted}) as at:
        await at.begin("quick-centring")
        for _ in range(30):
            if at.sheet.state.ended:
                break
            assert not isinstance(at.form, TurnForm)
            await at.page()
        assert at.sheet.state.place == "abandoned"
        await at.press("leave")
    ends, world = last_world(tmp_path)
    assert (ends, world["body"], world["power"]) == ("abandoned", "apart", "isolated")
    async with opened(quick, answers={**CHUCKS["adjustable"], **parted}) as at:
        await at.begin("quick-centring")
        for _ in range(4):
            if at.sheet.state.place != "look":
                await at.page()
        rows = {row.name: row.note for row in at.form.asked()}
        assert rows["body"].endswith("apart")
        assert rows["jaws"].startswith("recorded last")


async def test_signing_says_that_it_holds_for_this_grip(opened, quick) -> None:
    """No chuck was trued for all that comes after."""
    async with opened(quick, answers=CHUCKS["independent"]) as at:
        at.decisions = ["accept", "accept"]
        await at.begin("quick-centring")
        await at.to(SignOffForm)
        assert "this grip alone" in at.text("#words")
