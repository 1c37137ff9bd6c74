"""A procedure in words and as a chart, before anybody walks it."""

from __future__ import annotations

import re

import pytest

from guide.present.written.as_chart import as_chart
from guide.present.written.as_text import as_text
from guide.present.written.conditions import in_words
from guide.procedure.condition import condition
from guide.procedure.load import load
from guide.procedure.shelf import files, find

NODE = re.compile(r'^    (s\d+)(?:\{\{|\{|\(\[|\[)"(.*)"(?:\}\}|\}|\]\)|\])(?::::only)?$')
ARROW = re.compile(r'^  (s\d+|ended) (?:-->|-\.->)(?:\|"[^"<>]*"\|)? (s\d+|ended)$')


@pytest.mark.parametrize("path", files(), ids=lambda path: path.stem)
def test_the_text_holds_every_step_check_caution_and_question(path) -> None:
    """Nothing that a person could meet is left out."""
    procedure = load(path)
    told = " ".join(" ".join(as_text(procedure)).split())
    for step in procedure.steps:
        for each in (step.title, step.full, step.why, *(c.hazard for c in step.cautions),
                     *(c.action for c in step.cautions), *(c.say for c in step.checks),
                     *(c.look for c in step.checks),
                     *(procedure.facts[name].ask for name in step.ask)):  # fmt: skip
            assert " ".join(each.split()) in told


@pytest.mark.parametrize("path", files(), ids=lambda path: path.stem)
def test_the_chart_has_every_step_and_each_arrow_joins_two_of_them(path) -> None:
    """Every line is a frame, a node or an arrow, and every step but the first is led to."""
    procedure = load(path)
    lines = [*as_chart(procedure)]
    nodes = {found[1] for line in lines if (found := NODE.match(line))}
    arrows = [found.groups() for line in lines if (found := ARROW.match(line))]
    assert len(nodes) == len(procedure.steps)
    assert {each for pair in arrows for each in pair} <= {*nodes, "ended"}
    assert {to for _, to in arrows} >= nodes - {"s1"}
    others = [line for line in lines if not NODE.match(line) and not ARROW.match(line)]
    frames = ("flowchart TD", "  classDef only", "  subgraph stage", "  end")
    assert all(line.startswith(frames) for line in others)


def test_a_condition_is_told_by_its_questions_and_answers() -> None:
    """Facts, machine and branch tests, and what must not be so."""
    facts = find("chuck-removal").facts
    told = in_words(condition("on-nose=this-chuck and not power=off or accepted"), facts)
    assert told == (
        "What is on the nose now?: a chuck that is bolted to a separate backplate · "
        "not so: The power to the lathe: isolated, not proven yet or the person accepted the result"
    )


def test_brief_says_less_and_leaves_no_caution_out() -> None:
    """As on the screens."""
    procedure = find("chuck-removal")
    full, brief = ("\n".join(as_text(procedure, each)) for each in ("full", "brief"))
    assert len(brief) < len(full)
    assert brief.count("    ! ") == full.count("    ! ") > 0
