"""Words for everything that can be asked of the machine or done to it."""

from __future__ import annotations

import pytest

from guide.present.questions import ACTIONS, ANSWERS, ASKS, before_safe, wrench_rule
from guide.walk.flow import LOOK
from guide.walk.making_safe import BEFORE_LIFTING, BEFORE_RELEASING, BEFORE_TRYING, Wanted
from guide.walk.world import ACTIONS as TABLE
from guide.walk.world import UNKNOWN, VARIABLES, changed


def test_every_variable_and_every_value_has_words() -> None:
    """No screen can meet a value that it cannot say."""
    assert {name: set(values) for name, values in ANSWERS.items()} == {
        name: set(values) for name, values in VARIABLES.items()
    }
    assert set(ASKS) == set(VARIABLES)


def test_every_action_of_the_table_is_an_instruction() -> None:
    """And no other action is spoken of, but for looking."""
    assert set(ACTIONS) - {LOOK} == set(TABLE) - {LOOK}


def test_no_two_values_of_a_variable_read_the_same() -> None:
    """An answer says which one it is."""
    for values in ANSWERS.values():
        assert len(set(values.values())) == len(values)


@pytest.mark.parametrize("value", ["tight", "nipped", "locked"])
def test_the_stronger_values_say_that_a_wrench_was_put_on(value: str) -> None:
    """Nobody answers tight by looking."""
    words = next(values[value] for values in ANSWERS.values() if value in values)
    assert "checked with" in words
    assert "move" in words


@pytest.mark.parametrize(
    ("checks", "opens"),
    [(BEFORE_LIFTING, "taking-up"), (BEFORE_RELEASING, "releasing"), (BEFORE_TRYING, "")],
)
def test_every_gate_of_making_safe_has_a_line_for_each_check(
    checks: tuple[str, ...], opens: str
) -> None:
    """Each with a hazard and how to look, none twice."""
    lines = before_safe(Wanted("an action", "acknowledge", checks, opens))
    assert len({line.say for line in lines}) == len(checks)
    assert all(line.hazard and line.look for line in lines)


def test_before_the_power_is_off_no_wrench_is_spoken_of_as_allowed() -> None:
    """The rule above the questions follows the power."""
    assert "no wrench" in wrench_rule(changed(UNKNOWN, power="as-found"))
    assert "no wrench" not in wrench_rule(changed(UNKNOWN, power="isolated"))
