"""An odd answer on a page: said in the line for it, nothing typed is lost, taken once more said."""

from __future__ import annotations

from guide.screens.steps.facts import FactsForm
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

JOB = {
    "nose": "camlock", "guard-fitted": "yes", "chuck-kind": "adjustable", "unit": "in",
    "graduation": "0.0005 in", "tolerance": "4 in", "direction": "forward",
}  # fmt: skip
"""The first page, with a tolerance that nothing is trued to."""


def fill_in(form: FactsForm) -> None:
    """Every answer stands there."""
    for each in form.asked():
        answer = JOB.get(each.name or "")
        if answer and isinstance(each, Choices):
            each.chosen = answer
        elif answer and isinstance(each, Field):
            each.entry.value = answer


async def test_an_odd_answer_is_recorded_only_when_the_page_is_recorded_once_more(
    opened, quick
) -> None:
    """The page stays as it was answered, with the sentence; the second time it is taken."""
    async with opened(quick, procedure="quick-centring", typed_at="terminal", size=(120, 60)) as at:
        await at.named()
        form, sheet = at.form, at.app.screen
        assert isinstance(form, FactsForm)
        fill_in(form)
        await at.pilot.pause()
        while "4 in is far more than runout" not in at.text("#complaint"):
            assert sheet.state.sequence == 1
            form.pressed("record")
            await at.pilot.pause()
        assert sheet.state.sequence == 1
        assert form.told()["tolerance"] == "4 in"
        form.pressed("record")
        await at.pilot.pause()
        assert sheet.state.facts["tolerance"] == "4 in"
        assert "4 in is far more than runout" in sheet.lines[-1].note
