"""A place that has no screw and no jaw is not read by the number of one."""

from __future__ import annotations

import pytest

from guide.procedure.load import read
from guide.walk.asked import unasked

HEAD = """
procedure: one
revision: "1"
title: One
rests-on: [invented]
facts:
  unit: {ask: Which unit?, kind: choice, of: {in: inch, mm: metric}}
{facts}stages:
  - stage: one
    title: One
    steps:
"""
FACTS = {
    "screw-count": "  screw-count: {ask: How many?, kind: number}\n",
    "chuck-kind": "  chuck-kind: {ask: Which?, kind: choice, of: {independent: four jaws}}\n",
}
STEP = """
      - step: {name}
        title: {name}
        full: {name}
        brief: {name}
        {keys}
"""


def found(*steps: str) -> list[tuple[int, str]]:
    """What is said of a procedure with these steps, by line."""
    procedure = read(written(*steps), "one.yaml")
    return [(each.place.line, each.text("")) for each in unasked(procedure)]


def written(*steps: str) -> str:
    """The procedure as text."""
    facts = "".join(each for name, each in FACTS.items() if any(name in step for step in steps))
    return HEAD.replace("{facts}", facts) + "".join(
        STEP.format(name=f"s{place}", keys=keys.replace("; ", "\n        "))
        for place, keys in enumerate(steps)
    )


UNIT = "kind: facts; ask: [unit]"
PAIR = "kind: readings; take: pair; serves-as: second-screw; does: [read]"


def test_a_reading_at_one_screw_is_found_where_nothing_has_screws() -> None:
    """At its own line, with what can be asked or written instead."""
    ((line, says),) = found(UNIT, PAIR)
    assert line == written(UNIT, PAIR).splitlines().index("        take: pair") + 1
    assert "s1: `take: pair` reads at an adjusting screw or a jaw, by its number" in says
    assert "ask for the fact `screw-count` or `chuck-kind`, or read with `take: turn`" in says


@pytest.mark.parametrize(
    "more",
    [
        "kind: facts; ask: [screw-count]",
        "kind: facts; ask: [chuck-kind]",
        "kind: correction",
        "kind: tightening; tighten: nip",
    ],
)
def test_where_screws_are_asked_for_or_moved_it_may_stand(more: str) -> None:
    """A chuck of four screws is moved without anybody having counted them."""
    assert found(UNIT, more, PAIR) == []
