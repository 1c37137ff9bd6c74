"""What is odd about what the dial just showed is in sight on the next page."""

from __future__ import annotations

from guide.screens.steps.readings import TurnForm


async def test_a_first_position_that_reads_otherwise_is_said_on_the_next_page(
    opened, quick, small
) -> None:
    """Its line stands above the top edge; the sentence stands below the page as well."""
    async with opened(quick, procedure=small, answers={"tolerance": "0.001 in"}) as at:
        await at.named()
        await at.to(TurnForm)
        for value in (*["0.0001"] * 8, "0.0050"):
            await at.type(at._line("reading"), value)
        await at.press("record")
        await at.settle()
        assert not isinstance(at.form, TurnForm)
        assert "zero moved, read again" in at.complaint
        assert at.sheet.query_one("#complaint").display
        await at.page()
        assert "zero moved" not in at.complaint
