"""A gate that ignored a key says why in one sentence, and stays as shut as it was."""

from __future__ import annotations

import asyncio

import pytest

from guide.screens.steps.gate import CheckRow, GateForm


@pytest.mark.parametrize(
    ("keys", "says"),
    [(("1", "2"), "Two keys came together"), (("enter",), "Enter confirms nothing here")],
)
async def test_keys_that_confirm_nothing_are_said_to(opened, quick, small, keys, says) -> None:
    """Once they lie back; every check is open as before, and a number alone still counts."""
    async with opened(quick, procedure=small, guarded=True) as at:
        await at.named()
        await at.page()
        assert isinstance(at.form, GateForm)
        await at.pilot.press(*keys)
        await asyncio.sleep(0.6)
        await at.settle()
        assert says in at.complaint
        assert {row.state for row in at.form.query(CheckRow)} == {"open"}
        await at.pilot.press("1")
        await asyncio.sleep(0.6)
        await at.settle()
        assert [row.state for row in at.form.query(CheckRow)] == ["confirmed", "open"]
        assert at.complaint == ""
