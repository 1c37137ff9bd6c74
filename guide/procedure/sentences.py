"""Every text of a procedure that reaches a person, for whoever makes a catalogue of them.

Used when a catalogue is made, never by the program: `pybabel` finds it in `pyproject.toml`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import BinaryIO

from guide.procedure.load import read
from guide.procedure.model import Fact, Procedure, Step
from guide.procedure.parts import WRITTEN_IN, with_parts
from guide.procedure.vocabulary import ACTION, name_of

Sentence = tuple[int, str, str, str]
"""Line, context, text, and what it is."""
Message = tuple[int, str | None, str | tuple[str, str], list[str]]
"""Line, keyword, text (with its context before it), and comments, as Babel takes them."""
STEP_TEXTS = {
    "title": "title of a step",
    "full": "what to do, in full",
    "brief": "what to do, in brief",
    "why": "why",
    "good": "what good looks like",
    "wrong": "what wrong looks like, and what then",
}


def extract(
    file: BinaryIO, keywords: object, comments: object, options: Mapping[str, str]
) -> Iterator[Message]:
    """The texts of a file for Babel, word for word as the program looks them up.

    Those of a part come with every procedure that includes it.
    """
    path = Path(file.name)
    if path.parent.name == WRITTEN_IN:
        return
    text = with_parts(file.read().decode("utf-8"), path)
    for line, context, words, what in sentences(read(text, path.name)):
        if words:
            message = (context, words) if context else words
            yield line, "pgettext" if context else None, message, [what]


def sentences(procedure: Procedure) -> Iterator[Sentence]:
    """Every text of a procedure, in the order of the file."""
    yield 1, "", procedure.title, "title of a procedure"
    yield 1, "", procedure.purpose, "what a procedure is for"
    for rests_on in procedure.rests_on:
        yield 1, "", rests_on, "what a procedure rests on"
    for fact in procedure.facts.values():
        yield from _of_fact(fact)
    for stage in procedure.stages:
        yield 1, "", stage.title, "title of a stage"
    for step in procedure.steps:
        yield from _of_step(step)


def _of_fact(fact: Fact) -> Iterator[Sentence]:
    """The question, its answers and its help; names are short words for a line of the record."""
    line = fact.place.line
    yield line, fact.name, name_of(fact.name), "name of a question"
    yield line, "", fact.ask, "question"
    yield line, "", fact.help, "help for a question"
    for value, words in fact.of.items():
        yield line, fact.name, value, f"name of an answer: {words}"
        yield line, "", words, f"answer to: {fact.ask}"
    if fact.kind == "text" and fact.usual:
        yield line, "", fact.usual, f"usual answer to: {fact.ask}"


def _of_step(step: Step) -> Iterator[Sentence]:
    """What a step says, its cautions and its checks."""
    for name, what in STEP_TEXTS.items():
        yield step.places.get(name, step.place).line, "", getattr(step, name), what
    for caution in step.cautions:
        yield step.place.line, "", caution.hazard, "caution: what can hurt"
        yield step.place.line, "", caution.action, "caution: what to do about it"
    for check in step.checks:
        yield check.place.line, "", check.say, "check of a gate: what is confirmed"
        yield check.place.line, "", check.hazard, "check of a gate: what can hurt"
        yield check.place.line, "", check.look, "check of a gate: how to look"
    for doing in (*step.does, *(step.again or ())):
        yield doing.place.line, ACTION, doing.action, "name of an action, as a line of the record"
