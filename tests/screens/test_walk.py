"""Whole setups on the screen, by mouse and by keyboard, driven by what is shown alone."""

from __future__ import annotations

import pytest

from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.gate import GateForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import PairForm, PlayForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.task import TaskForm
from guide.screens.steps.tightening import TighteningForm
from guide.screens.steps.verdict import VerdictForm

REMOVAL = {"on-nose": "this-chuck", "seat": "caught", "body": "on-plate", "bolts": "snug",
           "screws": "touching"}  # fmt: skip


@pytest.mark.long
async def test_a_removal_is_walked_to_its_end_by_mouse(opened, mouse) -> None:
    """Everything from the first question to the signature can be clicked."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin("chuck-removal")
        await at.walk()
        assert "Finished" in at.text("#words")


@pytest.mark.long
async def test_a_chuck_is_trued_to_its_end_by_mouse(
    opened, pointer, reader, trued, tmp_path
) -> None:
    """Readings, corrections, tightening, verdicts and signature, by what is drawn alone."""
    one = reader("adjustable-chuck")
    async with opened(pointer) as at:
        await at.begin("adjustable-chuck")
        await at.walk(one)
        assert "Finished" in at.text
    trued(tmp_path)


async def test_every_kind_of_step_is_done_by_keyboard(opened, keyboard) -> None:
    """One page of each kind by keys alone; the way between them is taken quickly."""
    kinds = (FactsForm, LookForm, TaskForm, GateForm, PlayForm, TurnForm, VerdictForm,
             TighteningForm, PairForm, CorrectionForm)  # fmt: skip
    left = set(kinds)
    async with opened(keyboard) as at:
        at.decisions = ["accept", "another-round"]
        await at.begin("adjustable-chuck")
        while left:
            await at.to(*left)
            left.discard(type(at.form))
            await at.page()
        assert not at.complaint


async def test_a_removal_is_signed_by_keyboard(opened, keyboard) -> None:
    """The last page, and the name typed by the one at the lathe."""
    async with opened(keyboard, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.to(SignOffForm)
        await at.page()
        assert "Finished" in at.text("#words")


async def test_a_name_that_is_not_the_person_at_the_lathe_is_refused(opened, mouse) -> None:
    """The sentence says who signs; the name typed stays."""
    async with opened(mouse, answers=REMOVAL) as at:
        await at.begin_quickly("chuck-removal")
        await at.to(SignOffForm)
        await at.choose(at.form.query_one("Choices"), "did")
        await at.type(at._line("name"), "B. Sample")
        await at.press("record")
        assert "A. Sample" in at.complaint
        assert at._line("name").value == "B. Sample"
