"""What a blank sheet holds of each step: what to do, what can hurt, boxes and lines to write on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.plain import N_
from guide.present.labels import DECISION, SERVES_AS
from guide.present.words import say, written
from guide.present.written.conditions import in_words
from guide.present.written.spoken import caution, check, question
from guide.procedure.model import Procedure, Step

ON_PAPER = N_(
    "On paper nothing holds a gate shut: look at every check and tick it yourself, one by one, and "
    "go no further with one open. Nothing here is worked out or checked, and nothing that is "
    "written here is in the journal. The maker's manuals, local rules and a competent person come "
    "first."
)
TURN = ("0°", "45°", "90°", "135°", "180°", "225°", "270°", "315°", "0°")
"""Where a turn is read, and back at the first."""
PLACES = {"turn": TURN, "face": TURN, "two-stations": TURN * 2, "pair": ("",)}
PLAY = (N_("pushed"), N_("pulled"))
WATCHED = (N_("lowest"), N_("highest"))


@dataclass(frozen=True, slots=True)
class Entry:
    """One step of a blank sheet."""

    number: int
    title: str
    gate: bool
    where: str
    """Where alone the step is done, blank for always."""
    say: str
    cautions: tuple[str, ...]
    ticks: tuple[str, ...]
    """What is ticked one by one."""
    asks: tuple[str, ...]
    """What is written behind it on a line of its own."""
    cells: tuple[str, ...]
    """What is written under it, side by side."""


def entries(procedure: Procedure, language: str = "en") -> Iterator[tuple[str, list[Entry]]]:
    """The title of each stage, and its steps in the order of the file."""
    for stage in procedure.stages:
        steps = [each for each in procedure.steps if each.stage == stage.name]
        yield written(stage.title, language), [_entry(procedure, each, language) for each in steps]


def _entry(procedure: Procedure, step: Step, language: str) -> Entry:
    """One step."""
    return Entry(
        number=procedure.order[step.name] + 1,
        title=written(step.title, language),
        gate=step.kind == "gate",
        where=in_words(step.when, procedure.facts, language) if step.when else "",
        say=written(step.brief or step.full, language),
        cautions=tuple(caution(each, language) for each in step.cautions),
        ticks=tuple(check(each, language) for each in step.checks),
        asks=tuple(_asks(procedure, step, language)),
        cells=_cells(step, language),
    )


def _asks(procedure: Procedure, step: Step, language: str) -> Iterator[str]:
    """Questions, readings, torque, decisions and signatures."""
    yield from (question(procedure.facts[name], language) for name in step.ask)
    if step.serves_as:
        yield say(SERVES_AS[step.serves_as], language)
    if step.kind == "correction":
        yield say(N_("Screw, dial read, dial brought to"), language)
    if step.tighten in ("torque", "check"):
        yield say(N_("Torque, and where that figure comes from"), language)
    if step.decisions:
        yield " / ".join(say(DECISION[each], language) for each in step.decisions)
    if step.kind in ("gate", "sign-off", "verdict"):
        yield say(N_("Name, date and time"), language)
    if step.witness:
        yield say(N_("Name of the witness"), language)


def _cells(step: Step, language: str) -> tuple[str, ...]:
    """The places of a set of readings."""
    words = {"play": PLAY, "watched": WATCHED}.get(step.take, ())
    return PLACES.get(step.take, tuple(say(each, language) for each in words))
