"""A reading without a verdict says what is not known, and not that one of two things is not."""

from __future__ import annotations

import pytest

from guide.front.results import summary
from guide.walk.state import State, Taken

LEFT = Taken(4, "last", "as-left", "turn", {"figures": {"judged": "0.0004", "unit": "in"}})


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({"graduation": "0.0001 in"}, "no verdict: its limit is not known"),
        ({"tolerance": "unknown", "graduation": "0.0001 in"}, "no verdict: its limit is not known"),
        ({"tolerance": "0.001 in"}, "no verdict: what one division of the dial is worth is not"),
        ({}, "no verdict: neither its limit nor what one division of the dial is worth is known"),
        (
            {"tolerance": "0.001 in", "graduation": "0.0001 in"},
            "no verdict: read it again at three positions or more",
        ),
    ],
)
def test_why_there_is_no_verdict_is_said_of_what_is_missing(facts, why) -> None:
    """Limit, division, both; and neither where they were told after it was read."""
    state = State("one", "", "end", facts={"unit": "in", **facts}, taken={"as-left": LEFT})
    ((_, told), *_) = summary(state)
    assert told.startswith(why)
