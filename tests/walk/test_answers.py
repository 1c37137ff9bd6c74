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
