"""The sheet's own text: what is done above, the present step's words, what comes next below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.content import Content

from guide.front.signing_words import at_clock
from guide.plain import N_
from guide.present.sheet import Line
from guide.present.step_text import StepText
from guide.screens.tongue import say


def done_lines(lines: Iterable[Line], stage: str = "") -> Content:
    """One line each: time, title, value, person; a mark that must not be missed stands below.

    What was not done has a sign of its own. `stage` is that in which the lines before these ended.
    """
    parts: list[tuple[str, str]] = []
    for each in lines:
        if each.stage and each.stage != stage:
            stage = each.stage
            parts.append((f"{stage}\n", "bold $secondary"))
        value = f": {each.value}" if each.value else ""
        parts += [
            (f"  {'✓' if each.done else '✗'} {at_clock(each.at)} ", "$quiet"),
            (each.title, "$foreground"),
            (f"{value}", "$quiet"),
            (f"  — {each.person}\n", "$quiet"),
        ]
        if each.note:
            parts.append((f"      ! {each.note}\n", "$warning"))
    return Content.assemble(*parts)


def step_words(text: StepText, at_a_glance: bool = False) -> Content:
    """Stage and title, what to do, what can hurt; at a glance how to do it stands further down."""
    parts = [(f"{text.stage} · " if text.stage else "", "$secondary"), (text.title, "bold $accent")]
    if text.say and not at_a_glance:
        parts.append((f"\n{text.say}", ""))
    for each in text.cautions:
        parts.append((f"\n! {each.hazard} ", "bold $warning"))
        parts.append((each.action, "$warning"))
    return Content.assemble(*parts)


def after_words(text: StepText, at_a_glance: bool = False) -> Content:
    """Why, what good looks like, what wrong looks like; before them how, where it stands here."""
    told = [
        (N_("How: "), text.say if at_a_glance else ""),
        (N_("Why: "), text.why),
        (N_("Good: "), text.good),
        (N_("Wrong: "), text.wrong),
    ]
    parts: list[tuple[str, str]] = []
    for name, words in told:
        if words:
            parts += [("\n" if parts else "", ""), (say(name), "bold $quiet"), (words, "$quiet")]
    return Content.assemble(*parts)


def next_lines(titles: Sequence[str]) -> Content:
    """What comes next as things stand."""
    if not titles:
        return Content("")
    told = "\n".join(f"  · {title}" for title in titles)
    title = say(N_("Next, as things stand"))
    return Content(f"{title}\n{told}")
