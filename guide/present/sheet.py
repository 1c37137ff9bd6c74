"""The lines of the setup sheet: what was done, one line each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.journal.event import GENESIS, Event
from guide.plain import N_
from guide.present.entered import entered
from guide.present.seen import Seen
from guide.present.visible import visible
from guide.present.words import say, written
from guide.procedure.model import Procedure, Step
from guide.walk.fold import fold_of
from guide.walk.state import MAKING_SAFE, MAKING_SURE, Entry, State

HAPPENED = {
    "open": N_("Setup opened"),
    "pause": N_("Paused"),
    "resume": N_("Resumed"),
    "take-over": N_("Taken over"),
    "abandon": N_("Abandoned"),
    "correct": N_("An answer corrected"),
    "again": N_("A step done again"),
    MAKING_SURE: N_("Made sure of the machine"),
    MAKING_SAFE: N_("Made safe"),
}
"""The title of what belongs to no step."""


@dataclass(frozen=True, slots=True)
class Line:
    """One event as the sheet and every printed record show it."""

    sequence: int
    at: str
    """UTC as stored."""
    person: str
    stage: str
    """The stage's title, blank for an event that belongs to none."""
    title: str
    """The step's title, or what happened (paused, taken over, made sure …)."""
    value: str
    """What was entered or worked out, short: readings, torque, verdict, decision, what was seen."""
    note: str
    """A mark that must not be missed: faster than it can be read, changed from recorded, left."""
    done: bool = True
    """Whether what the title says was done; not where it was only recorded that it was not."""


def lines(state: State, procedure: Procedure, language: str = "en") -> tuple[Line, ...]:
    """Every event of a setup as a line, in order; what people typed is made safe to show."""
    return tuple(line(each, procedure, language) for each in seen(state, procedure))


def seen(state: State, procedure: Procedure) -> Iterator[Seen]:
    """Every entry with its step and the state that it met, replayed through the fold."""
    fold = fold_of(procedure)
    before: State | None = None
    for entry in state.entries:
        step = procedure.by_name.get(entry.place)
        event = _event(state.setup, entry)
        after = fold.after(before, event) if before else fold.opened(event)
        yield Seen(entry, step if entry.kind not in HAPPENED else None, before or after, after)
        before = after


def _event(setup: str, entry: Entry) -> Event:
    """The event that an entry shows, but for its place in the chain."""
    return Event(
        setup, entry.sequence, entry.at, entry.person, entry.place, entry.kind, entry.data, GENESIS
    )


def newest(before: State, after: State, procedure: Procedure, language: str = "en") -> Line:
    """The line of the event that led from one state to the next, without replaying the rest."""
    entry = after.entries[-1]
    step = procedure.by_name.get(entry.place) if entry.kind not in HAPPENED else None
    return line(Seen(entry, step, before, after), procedure, language)


def line(each: Seen, procedure: Procedure, language: str) -> Line:
    """One event in words."""
    value, note = entered(each, procedure, language)
    entry = each.entry
    return Line(
        sequence=entry.sequence,
        at=entry.at,
        person=visible(entry.person),
        stage=visible(written(_stage(each.step, procedure), language)),
        title=visible(_title(each, language)),
        value=visible(value),
        note=visible(note),
        done=entry.kind != "deviate",
    )


def _stage(step: Step | None, procedure: Procedure) -> str:
    """The title of a step's stage."""
    titles = {stage.name: stage.title for stage in procedure.stages}
    return titles.get(step.stage, "") if step else ""


def _title(each: Seen, language: str) -> str:
    """The step's title, or what happened where it belongs to none."""
    return written(each.step.title, language) if each.step else _happened(each.entry, language)


def _happened(entry: Entry, language: str) -> str:
    """What happened, by the kind of the event or by the place it happened at."""
    sentence = HAPPENED.get(entry.kind) or HAPPENED.get(entry.place, entry.kind)
    return say(sentence, language)
