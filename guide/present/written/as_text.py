"""A whole procedure as text, in the order of its file."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from guide.plain import N_
from guide.present.labels import DECISION, SERVES_AS, TIGHTENING
from guide.present.words import say, written
from guide.present.written.conditions import in_words
from guide.present.written.spoken import caution, check, question
from guide.procedure.model import Procedure, Step

WIDTH, INDENT = 92, "    "


def as_text(procedure: Procedure, detail: str = "full", language: str = "en") -> Iterator[str]:
    """Title, what it is for, what it rests on, and every step with its checks and ways on."""
    revision = f"{say(N_('revision'), language)} {procedure.revision}"
    yield f"{written(procedure.title, language)} ({procedure.name}, {revision})"
    yield ""
    yield _wrapped(written(procedure.purpose, language), "")
    yield ""
    yield say(N_("What it rests on"), language)
    yield from (_wrapped(written(each, language), "- ") for each in procedure.rests_on)
    for number, step in enumerate(procedure.steps, start=1):
        if number == 1 or procedure.steps[number - 2].stage != step.stage:
            yield from ("", _stage(procedure, step, language), "")
        yield from _step(procedure, number, step, detail, language)


def _stage(procedure: Procedure, step: Step, language: str) -> str:
    """The head of a stage."""
    title = next(each.title for each in procedure.stages if each.name == step.stage)
    return f"== {written(title, language)} =="


def _step(
    procedure: Procedure, number: int, step: Step, detail: str, language: str
) -> Iterator[str]:
    """One step: when it is done, what to do, what can hurt, what is asked, where it goes on."""
    yield f"{number}. {written(step.title, language)}  [{step.kind}]"
    facts = procedure.facts
    if step.when:
        told = in_words(step.when, facts, language)
        yield _wrapped(told, f"{INDENT}{say(N_('Only where:'), language)} ")
    told = step.full if detail == "full" or not step.brief else step.brief
    yield _wrapped(written(told, language), INDENT)
    for each in step.cautions:
        yield _wrapped(caution(each, language), f"{INDENT}! ")
    if detail == "full":
        yield from _why(step, language)
    yield from _asked(procedure, step, language)
    for branch in step.go:
        where = in_words(branch.condition, facts, language) if branch.condition else ""
        step_to = procedure.by_name.get(branch.to)
        to = written(step_to.title, language) if step_to else branch.to
        goes = say(N_("goes on at: {to}"), language, to=to)
        yield _wrapped(f"{where} → {goes}" if where else goes, f"{INDENT}→ ")


def _why(step: Step, language: str) -> Iterator[str]:
    """Why it matters, and what good and wrong look like."""
    for name, told in ((N_("Why"), step.why), (N_("Good"), step.good), (N_("Wrong"), step.wrong)):
        if told:
            yield _wrapped(written(told, language), f"{INDENT}{say(name, language)}: ")


def _asked(procedure: Procedure, step: Step, language: str) -> Iterator[str]:
    """What is confirmed, answered, read, tightened or decided."""
    for number, each in enumerate(step.checks, start=1):
        yield _wrapped(check(each, language), f"{INDENT}[ ] {number}  ")
    for name in step.ask:
        yield _wrapped(question(procedure.facts[name], language), f"{INDENT}? ")
    if step.serves_as:
        yield f"{INDENT}# {say(SERVES_AS[step.serves_as], language)}"
    if step.tighten:
        yield f"{INDENT}# {say(TIGHTENING[step.tighten], language)}"
    if step.decisions:
        told = (say(DECISION[each], language) for each in step.decisions)
        yield f"{INDENT}# {' / '.join(told)}"


def _wrapped(told: str, before: str) -> str:
    """A text on lines of a page's width, those after the first standing in."""
    stands_in = " " * len(before)
    return "\n".join(
        fill(line, WIDTH, initial_indent=before if first else stands_in,
             subsequent_indent=stands_in, break_long_words=False)
        for first, line in zip((True, *(False for _ in told)), told.splitlines(), strict=False)
    )  # fmt: skip
