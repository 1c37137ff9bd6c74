"""What may be typed as an answer, and what is said of what may not."""

from __future__ import annotations

import pytest

from guide.plain import BadInput
from guide.procedure.model import Fact
from guide.procedure.problem import Place
from guide.walk.answers import accepted

DAY = Fact("recheck-date", "When is it looked at again?", "date", {}, "", False, Place("", 1))


@pytest.mark.parametrize("day", ["2027-02-30", "2027-13-01", "2027-02-29"])
def test_a_day_that_no_calendar_has_is_called_that(day: str) -> None:
    """It can be read one way only; there is no such day."""
    with pytest.raises(BadInput, match="no such day"):
        accepted(DAY, day)


@pytest.mark.parametrize("day", ["03/04/2027", "4.3.27", "tomorrow"])
def test_a_day_that_can_be_read_two_ways_is_called_that(day: str) -> None:
    """The third of April is the fourth of March elsewhere."""
    with pytest.raises(BadInput, match="read one way only"):
        accepted(DAY, day)


@pytest.mark.parametrize("name", ["graduation", "range-per-turn"])
def test_no_dial_has_a_division_of_nothing(name: str) -> None:
    """It is refused where it is told, and not at the first reading; a fine one is taken."""
    fact = Fact(name, "What is one division worth?", "length", {}, "", False, Place("", 1))
    with pytest.raises(BadInput, match="No dial has a division of 0 mm"):
        accepted(fact, "0 mm")
    assert accepted(fact, "0.001 mm") == "0.001 mm"
