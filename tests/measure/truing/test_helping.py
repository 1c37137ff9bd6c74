"""What would help most is the largest of what bolts, hand, dial, play and reading leave."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from guide.measure.truing import helping
from guide.measure.truing.facts import Facts
from guide.measure.truing.hearing import told
from guide.measure.truing.helping import helps_most

FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"))


@pytest.mark.parametrize(
    ("sentence", "facts", "learned", "u"),
    [
        (helping.BOLTS, {}, {}, 0.00005),
        (helping.HAND, {}, {"misses": (0.001,) * 5}, 0.00005),
        (helping.DIAL, {"graduation": Decimal("0.001")}, {}, 0.0),
        (helping.PLAY, {"play": Decimal("0.002")}, {}, 0.00005),
        (helping.READING, {}, {}, 0.0005),
    ],
)
def test_the_largest_is_named(
    sentence: str, facts: dict[str, Decimal], learned: dict[str, object], u: float
) -> None:
    """Each in turn, with its size in the user's unit."""
    story = told(replace(FACTS, **facts), [])
    story.u = u
    story.known = replace(story.known, **learned)  # type: ignore[arg-type]
    why = helps_most(story)
    assert why.sentences == (sentence,)
    assert float(str(why.values["size"])) > 0
    assert str(why).count("  ") == 0
