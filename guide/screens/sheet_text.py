"""The sheet's own text: what is done above, the present step's words, what comes next below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.content import Content

from guide.plain import N_
from guide.present.sheet import Line
from guide.present.step_text import StepText
from guide.screens.tongue import say


def done_lines(lines: Iterable[Line], stage: str = "") -> Content:
    """One line each: time, title, value, person; a mark that must not be missed stands below.

    `stage` is the one that the lines before these ended in.
    """
    parts: list[tuple[str, str]] = []
    for each in lines:
        if each.stage and each.stage != stage:
            stage = each.stage
            parts.append((f"{stage}\n", "bold $secondary"))
        value = f": {each.value}" if each.value else ""
        parts += [
            (f"  ✓ {at_clock(each.at)} ", "$quiet"),
            (each.title, "$foreground"),
            (f"{value}", "$quiet"),
            (f"  — {each.person}\n", "$quiet"),
        ]
        if each.note:
            parts.append((f"      ! {each.note}\n", "$warning"))
    return Content.assemble(*parts)


def at_clock(at: str) -> str:
    """The local time of day of a stored moment."""
    from datetime import datetime

    return datetime.fromisoformat(at).astimezone().strftime("%H:%M")


def step_words(text: StepText) -> Content:
    """Stage and title, what to do, what can hurt."""
    parts = [(f"{text.stage} · " if text.stage else "", "$secondary"), (text.title, "bold $accent")]
    if text.say:
        parts.append((f"\n{text.say}", ""))
    for each in text.cautions:
        parts.append((f"\n! {each.hazard} ", "bold $warning"))
        parts.append((each.action, "$warning"))
    return Content.assemble(*parts)


def after_words(text: StepText) -> Content:
    """Why, what good looks like, what wrong looks like."""
    told = [(N_("Why: "), text.why), (N_("Good: "), text.good), (N_("Wrong: "), text.wrong)]
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
