"""What a step says in full and in brief."""

from __future__ import annotations

import pytest

from guide.present.step_text import step_text
from guide.procedure.model import Procedure
from guide.procedure.shelf import files, find


@pytest.fixture(params=[path.stem for path in files()])
def procedure(request: pytest.FixtureRequest) -> Procedure:
    """Every shipped procedure."""
    return find(request.param)


def test_brief_leaves_out_no_caution(procedure: Procedure) -> None:
    """Brief detail is a shorter page, never a weaker one."""
    for step in procedure.steps:
        full, brief = (step_text(procedure, step, detail) for detail in ("full", "brief"))
        assert brief.cautions == full.cautions
        assert (brief.stage, brief.title) == (full.stage, full.title)


def test_full_says_everything_that_the_file_says(procedure: Procedure) -> None:
    """What to do, why, good and wrong."""
    for step in procedure.steps:
        text = step_text(procedure, step)
        assert (text.say, text.why, text.good, text.wrong) == (
            step.full, step.why, step.good, step.wrong,
        )  # fmt: skip
        assert text.stage
