"""A step in words: what to do, what can hurt, why, what good and wrong look like, what is next."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.plain import Refusal
from guide.present.gate_text import with_english
from guide.present.tongue import written
from guide.present.visible import visible
from guide.procedure.model import Caution, Procedure, Step
from guide.walk.as_found import expected_at_look
from guide.walk.branch_tests import answer
from guide.walk.flow import looks, next_place, world_after
from guide.walk.state import State
from guide.walk.world import World

DETAILS = ("full", "brief")


@dataclass(frozen=True, slots=True)
class StepText:
    """What the sheet says of the present step."""

    stage: str
    title: str
    say: str
    cautions: tuple[Caution, ...]
    """Shown in every detail: brief is never weaker."""
    why: str
    good: str
    wrong: str


def step_text(procedure: Procedure, step: Step, detail: str = "full") -> StepText:
    """A step's words; brief leaves out why and what good looks like, never a caution."""
    full = detail == "full"
    told = step.full if full or not step.brief else step.brief
    return StepText(
        stage=stage_title(procedure, step),
        title=visible(written(step.title)),
        say=with_english(told, _paragraphs) if step.kind == "gate" else _paragraphs(written(told)),
        cautions=tuple(_caution(each) for each in step.cautions),
        why=_paragraphs(written(step.why)) if full else "",
        good=_paragraphs(written(step.good)) if full else "",
        wrong=_paragraphs(written(step.wrong)) if full else "",
    )


def _caution(each: Caution) -> Caution:
    """What can hurt and what to do, in the reader's language."""
    return Caution(visible(written(each.hazard)), visible(written(each.action)))


def _paragraphs(text: str) -> str:
    """Each line of a longer text made safe to show."""
    return "\n".join(visible(line) for line in text.splitlines())


def stage_title(procedure: Procedure, step: Step) -> str:
    """The title of the stage that a step belongs to."""
    return next((visible(written(s.title)) for s in procedure.stages if s.name == step.stage), "")


def progress(procedure: Procedure, state: State) -> tuple[int, int]:
    """Which step this is, and about how many there are; a step that is done again counts once.

    Where what is known does not lead to the end yet, every step further down the file counts.
    """
    present = state.present or state.place
    done = {each.place for each in state.entries if each.place in procedure.by_name} - {present}
    ahead = [each.name for each in _following(procedure, state, len(procedure.steps))]
    last = procedure.steps[-1].name
    if last not in (present, *ahead):
        ahead = [each.name for each in procedure.steps[procedure.order.get(present, -1) + 1 :]]
    left = set(ahead) - done - {present}
    return len(done) + 1, len(done) + 1 + len(left)


def coming(procedure: Procedure, state: State, count: int = 3) -> tuple[str, ...]:
    """The titles of the next steps if everything goes as the record now says."""
    return tuple(visible(written(step.title)) for step in _following(procedure, state, count))


def _following(procedure: Procedure, state: State, count: int) -> Iterator[Step]:
    """The steps that follow, as far as what is known leads."""
    step, world = procedure.by_name.get(state.present or state.place), state.world
    for _ in range(count):
        if step is None:
            return
        world = _after(step, world, state)
        step = procedure.by_name.get(
            next_place(procedure, step, world, state.facts, lambda name: answer(name, state))
        )
        if step is not None:
            yield step


def _after(step: Step, world: World, state: State) -> World:
    """The machine after a step that goes well; unchanged where it may not be done as things are."""
    try:
        if looks(step):
            return expected_at_look(world, state.facts)
        return world_after(step, world, state.facts)
    except Refusal:
        return world
