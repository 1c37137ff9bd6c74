"""`spindleside advise`: truing advice as JSON lines, for a program or a patient person."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.output import say_now

if TYPE_CHECKING:
    from guide.measure.truing.facts import Facts
    from guide.measure.truing.heard import Heard


@click.command()
def advise() -> None:
    """Ask what to do next at dial, screws and bolts; one JSON object a line each way.

    First the facts, of which unit, tolerance and graduation must be there; then each answer.
    Lengths are in the facts' unit, angles in degrees turned since screw 1 was under the plunger.

    \b
    in   {"facts": {"unit": "in", "tolerance": 0.001, "graduation": 0.0001, "screws": 4}}
    out  {"do": "read", "angles": [0, 90, 180, 270, 360], "station": 1.0, "why": "…"}
    in   {"readings": [0.0012, 0.0051, 0.0094, 0.0050, 0.0012]}
    out  {"do": "move", "screw": 1, "reads": 0.0012, "by": 0.0041, …, "why": "…"}
    in   {"done": true, "reads": 0.0053}      or  {"done": false, "why": "bottomed"}
    out  {"do": "torque", "why": "…"}
    in   {"done": true}
    out  {"do": "stop", "verdict": "within", "judged": 0.0004, …}

    An answer that cannot be used gives {"error": "…"} and the same question again. What it says
    is a figure to work by, never a permission. Example: spindleside advise < answers.jsonl
    """
    lines = _lines()
    facts = _facts(lines)
    if facts is not None:
        _talk(facts, lines)


def _lines() -> Iterator[str]:
    """Standard input, line by line, whatever its bytes are."""
    for line in sys.stdin.buffer:
        yield line.decode("utf-8", errors="replace")


def _facts(lines: Iterator[str]) -> Facts | None:
    """The first facts that can be used; None where the input ends before."""
    from guide.cli.advise_lines import facts_from
    from guide.plain import Refusal

    for line in lines:
        try:
            return facts_from(line)
        except Refusal as refusal:
            say_now({"error": str(refusal)})
    return None


def _talk(facts: Facts, lines: Iterator[str]) -> None:
    """Question and answer until the stop, or until the input ends."""
    from guide.cli.advise_lines import heard_from, to_json
    from guide.measure.advice import advise as next_of
    from guide.plain import Refusal

    heard: list[Heard] = []
    question = to_json(next_of(facts, heard))
    say_now(question)
    for line in lines:
        if question["do"] == "stop":
            return
        try:
            more = [*heard, heard_from(line, next_of(facts, heard), facts.screws)]
            question, heard = to_json(next_of(facts, more)), more
        except Refusal as refusal:
            say_now({"error": str(refusal)})
        say_now(question)
        if question["do"] == "stop":
            return
