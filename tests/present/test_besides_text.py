"""What is said where the walk stands at no step: a lathe that may turn is stopped first."""

from __future__ import annotations

import pytest

from guide.present.besides_text import besides_text
from guide.present.step_text import StepText
from guide.walk.state import MAKING_SURE, State
from guide.walk.world import UNKNOWN, changed


def said(**recorded: str) -> StepText:
    """What making sure says of a lathe that was last recorded so."""
    world = changed(UNKNOWN, **recorded)
    return besides_text(State(setup="s", text="", place=MAKING_SURE, world=world))


@pytest.mark.parametrize(
    "recorded",
    [
        {"power": "restored", "spindle": "turning"},
        {"power": "restored", "spindle": "free"},
        {"power": "off", "spindle": "turning"},
        {"power": "as-found", "spindle": "free"},
        {"power": "unknown", "spindle": "free"},
    ],
)
def test_a_lathe_that_may_turn_is_stopped_and_cut_off_before_anything_is_answered(
    recorded: dict[str, str],
) -> None:
    """Told to touch nothing, somebody would stand beside a chuck that runs and fill in lines."""
    told = said(**recorded)
    words = told.say
    assert words.startswith("If it turns, press stop now, standing out of the plane of the chuck;")
    assert words.index("stop now") < words.index("isolator") < words.index("answer")
    assert "your own lock" in words
    assert "discharge" in words
    assert not any("Touch nothing" in each.action for each in told.cautions)


@pytest.mark.parametrize("power", ["off", "isolated"])
def test_a_lathe_that_is_cut_off_and_stands_is_not_touched(power: str) -> None:
    """Nothing has to be pressed there, and every hand on it could change what is to be seen."""
    told = said(power=power, spindle="free")
    assert told.cautions[0].action == "Touch nothing until every line is answered."
    assert "press stop" not in told.say
