"""Every step of every shipped procedure says what it is for and what good and wrong look like."""

from __future__ import annotations

import pytest

from guide.present.usual import USUAL
from guide.procedure.shelf import find, shipped_files

BY_DIGITS = {"lathe", "nose-size"}
"""What stands there from the opening, and a size that is stamped in digits and has to be read."""


@pytest.mark.parametrize("name", [path.stem for path in shipped_files()])
def test_every_step_says_why_and_what_good_and_wrong_look_like_and_fits(name: str) -> None:
    """A title is at most 60 characters, brief words at most 110, full words more than brief."""
    for step in find(name).steps:
        assert step.why, step.name
        assert step.good, step.name
        assert step.wrong, step.name
        assert len(step.title) <= 60, step.name
        assert len(step.brief) <= 110, step.name
        assert len(step.full) > len(step.brief), step.name
        assert "as applicable" not in step.full, step.name


@pytest.mark.parametrize("name", [path.stem for path in shipped_files()])
def test_no_question_has_to_be_answered_in_words(name: str) -> None:
    """Whoever has a numeric keypad alone finds a tile, a usual answer, or “not known here”."""
    procedure = find(name)
    typed = {
        each
        for step in procedure.steps
        for each in step.ask
        if procedure.facts[each].kind == "text" and not procedure.facts[each].may_be_unknown
    }
    without = {each for each in typed - USUAL.keys() if not procedure.facts[each].usual}
    assert without <= BY_DIGITS
