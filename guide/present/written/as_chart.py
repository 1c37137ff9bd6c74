"""A procedure as a flow chart in Mermaid's notation, which many viewers draw."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.words import say, written
from guide.present.written.conditions import in_words
from guide.procedure.model import Branch, Procedure, Step

SHAPES = {"gate": ("{{", "}}"), "verdict": ("{", "}"), "sign-off": ("([", "])")}
"""A gate is a hexagon, a decision a rhombus, the end a rounded box; everything else a box."""
LONGEST = 90
"""Signs of a condition on an arrow; a longer one ends in an ellipsis."""


def as_chart(procedure: Procedure, language: str = "en") -> Iterator[str]:
    """Stages as frames, steps as nodes, ways on as arrows; a step that may be left out says so."""
    yield "flowchart TD"
    yield "  classDef only stroke-dasharray:4"
    for place, stage in enumerate(procedure.stages):
        yield f'  subgraph stage{place}["{_quoted(written(stage.title, language))}"]'
        steps = (each for each in procedure.steps if each.stage == stage.name)
        yield from (f"    {_node(procedure, each, language)}" for each in steps)
        yield "  end"
    if any(branch.to not in procedure.by_name for each in procedure.steps for branch in each.go):
        yield '  ended(["abandoned"])'
    for number, step in enumerate(procedure.steps):
        following = procedure.steps[number + 1 : number + 2]
        yield from (f"  {each}" for each in _arrows(procedure, step, following, language))


def _node(procedure: Procedure, step: Step, language: str) -> str:
    """A step with its number, and when it is done if not always."""
    begins, ends = SHAPES.get(step.kind, ("[", "]"))
    told = f"{procedure.order[step.name] + 1} · {_quoted(written(step.title, language))}"
    if step.when:
        where = _cut(in_words(step.when, procedure.facts, language))
        told += f"<br/>{say(N_('Only where:'), language)} {_quoted(where)}"
    return f'{_id(procedure, step.name)}{begins}"{told}"{ends}{":::only" if step.when else ""}'


def _arrows(
    procedure: Procedure, step: Step, following: tuple[Step, ...], language: str
) -> Iterator[str]:
    """Each way on under its condition, then the usual one; dotted where the step is left out."""
    here = _id(procedure, step.name)
    for branch in step.go:
        to, told = _id(procedure, branch.to), _label(procedure, branch, language)
        yield f'{here} -->|"{told}"| {to}' if told else f"{here} --> {to}"
    always = any(branch.condition is None for branch in step.go)
    way = "-.->" if always else "-->"
    for each in following if step.when or not always else ():
        yield f"{here} {way} {_id(procedure, each.name)}"


def _label(procedure: Procedure, branch: Branch, language: str) -> str:
    """The condition of a branch, cut where it is long."""
    if branch.condition is None:
        return ""
    told = in_words(branch.condition, procedure.facts, language)
    return _quoted(_cut(told))


def _cut(told: str) -> str:
    """A condition that is not too long to stand in a chart."""
    return told if len(told) <= LONGEST else f"{told[: LONGEST - 1]}…"


def _id(procedure: Procedure, name: str) -> str:
    """A node's name."""
    return f"s{procedure.order[name] + 1}" if name in procedure.order else "ended"


def _quoted(told: str) -> str:
    """A text between quotes: what Mermaid would read as its own is written as an entity."""
    for sign, entity in (("#", "#35;"), ('"', "#quot;"), ("<", "#lt;"), (">", "#gt;")):
        told = told.replace(sign, entity)
    return " ".join(told.split())
