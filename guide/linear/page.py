"""What is read out of a place: where one is, what can hurt, what to do; in full on asking."""

from __future__ import annotations

from guide.linear.lines import Lines
from guide.plain import N_
from guide.present.besides_text import besides_text
from guide.present.entered import marks
from guide.present.step_text import StepText, progress, step_text
from guide.present.tongue import language, say
from guide.walk.setup import Setup

WHERE = N_("Step {number} of about {count}, {stage}: {title}.")
MORE = (("why", N_("Why: ")), ("good", N_("Good: ")), ("wrong", N_("Wrong: ")))


def where(setup: Setup) -> str:
    """Where one is, in one line."""
    text = text_of(setup, "brief")
    title = text.title.rstrip(".")
    if setup.step is None:
        return f"{title}."
    number, count = progress(setup.procedure, setup.state)
    return say(WHERE, number=number, count=count, stage=text.stage, title=title)


def text_of(setup: Setup, detail: str) -> StepText:
    """The words of the present place."""
    if setup.step is None:
        return besides_text(setup.state)
    return step_text(setup.procedure, setup.step, detail)


def read_out(lines: Lines, setup: Setup, detail: str) -> None:
    """Where one is, the marks that must not be missed, what can hurt, what to do."""
    lines.tell()
    lines.tell(where(setup))
    for mark in marks(setup.state, language()):
        lines.tell(f"{mark}.")
    text = text_of(setup, detail)
    for each in text.cautions:
        lines.tell(say(N_("Danger: {hazard} {action}"), hazard=each.hazard, action=each.action))
    if text.say:
        lines.tell(text.say)


def read_out_all(lines: Lines, setup: Setup) -> None:
    """The same in full, and why, what good and what wrong look like."""
    read_out(lines, setup, "full")
    text = text_of(setup, "full")
    for name, title in MORE:
        if words := getattr(text, name):
            lines.tell(f"{say(title)}{words}")
