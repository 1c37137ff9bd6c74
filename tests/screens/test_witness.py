"""A second person at a gate or a result: what they see, who they may be, what is refused."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from guide.screens.sheet import SetupSheet
from guide.screens.signing import Beside, witness_of
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.verdict import VerdictForm
from guide.screens.widgets.bar import ActionBar


async def confirmed(at: Any) -> None:
    """Every check of the gate."""
    await at.to(GateForm)
    for row in list(at.form.query(CheckRow)):
        await at.confirm(row)


async def test_a_gate_waits_for_its_witness(opened, each_way, small, shop, sound, pin) -> None:
    """Offered is whoever may stand beside: neither who did it nor anybody of too low a role."""
    shop(witness={"gate": "machinist"})
    async with opened(each_way, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await confirmed(at)
        window = await at.until(Beside)
        assert [name for name, _ in window.line("person").options] == ["C. Sample"]
        await at.fill(pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        assert at.sheet.state.place == "bench"
        assert "witnessed by C. Sample (machinist)" in at.sheet.lines[-1].note
    last = sound()[-1]
    assert (last.kind, last.data["witness"]["person"]) == ("acknowledge", "C. Sample")


async def test_without_a_witness_a_gate_stays_shut(opened, quick, small, shop, sound) -> None:
    """Left with nothing, one sentence says so, and every check is looked at again."""
    shop(witness={"gate": "machinist"})
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await confirmed(at)
        await at.until(Beside)
        await at.press("no")
        await at.until(SetupSheet)
        assert "not witnessed" in at.complaint
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}
        assert at.sheet.state.place == "dressed"
    assert sound()[-1].step != "dressed"


async def test_where_nobody_may_witness_that_is_said_at_once(opened, quick, small, shop) -> None:
    """No window with nobody to choose: the sentence names who adds people; the gate stays shut."""
    shop(witness={"gate": "supervisor"})
    async with opened(quick, procedure=small) as at:
        await at.begun()
        await confirmed(at)
        await at.settle()
        assert "A supervisor adds people" in at.complaint
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}


async def test_the_window_says_what_is_witnessed_in_sight(opened, quick, shop) -> None:
    """Every check of a real gate as it stands there, and the buttons below, at 80 × 24."""
    shop(witness={"gate": "machinist"})
    async with opened(quick, procedure="chuck-removal") as at:
        await at.begun()
        await confirmed(at)
        sheet = next(each for each in at.app.screen_stack if isinstance(each, SetupSheet))
        window = await at.until(Beside)
        shown = " ".join(" ".join(window.lines).split())
        assert all(check.say in shown for check in sheet.setup.step.checks)
        region = window.query_one(".lines").region
        assert window.query_one("#questions").region.contains_region(region)
        assert window.query_one(ActionBar).region.bottom < window.query_one("#window").region.bottom


async def test_however_much_is_witnessed_the_buttons_stay_in_sight(opened, keyboard) -> None:
    """At 80 × 24 what goes on below is said, and one key shows it, whatever has the focus."""
    long = ["An invented check that goes on and on, " * 5] * 5
    window = witness_of("A gate", long, "machinist", "A. Sample", ["B"], None, lambda told, _: "")
    async with opened(keyboard) as at:
        await at.app.push_screen(window)
        await at.pilot.pause()
        bar, edge = window.query_one(ActionBar).region, window.query_one("#window")
        assert (bar.height, bar.bottom < edge.region.bottom <= 24) == (3, True)
        assert "more below" in str(edge.border_subtitle)
        window.query_one("ActionBar Press").focus()
        await at.pilot.press("pagedown", "pagedown")
        assert window.query_one("#questions").scroll_y > 0
        assert not edge.border_subtitle


async def test_a_result_is_witnessed_with_its_figures(
    opened, quick, small, shop, sound, pin
) -> None:
    """The decision, with the runout that it rests on."""
    shop(witness={"verdict": "machinist"})
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await at.to(VerdictForm)
        at.decisions = ["another-turn"]
        with pytest.raises(AssertionError):
            await at.page()
        window = await at.until(Beside)
        assert "another turn to read: runout 0 in" in "; ".join(window.lines)
        await at.fill(pin=pin)
        await at.until(SetupSheet)
    assert sound()[-1].data["witness"]["person"] == "C. Sample"


async def test_where_nobody_signs_on_another_name_is_typed(
    opened, keyboard, small, tmp_path: Path, sound
) -> None:
    """Only a procedure of one's own can ask there; one's own name is refused in the window."""
    text = Path(small).read_text(encoding="utf-8")
    own = tmp_path / "own.yaml"
    own.write_text(text.replace("kind: gate", "kind: gate\n        witness: machinist", 1))
    async with opened(keyboard, procedure=str(own), typed_at="terminal") as at:
        await at.named()
        await confirmed(at)
        await at.until(Beside)
        await at.fill(person="a.  sample")
        assert "Nobody witnesses what they did themselves" in at.complaint
        await at.fill(person="B. Sample")
        await at.until(SetupSheet)
        await at.settle()
        assert "witnessed by B. Sample" in at.sheet.lines[-1].note
    assert dict(sound()[-1].data["witness"]) == {"person": "B. Sample"}
