"""F1 and ? explain the words of the page at hand, at the smallest size and from a keypad alone."""

from __future__ import annotations

from typing import Any

import pytest

from guide.present.glossary import WORDS, words_in
from guide.present.step_text import step_text
from guide.screens.commands import COMMANDS
from guide.screens.first_walk import FirstWalk
from guide.screens.modals.help import MOVING, HelpScreen
from guide.screens.record import RecordScreen
from guide.screens.steps.facts import FactsForm
from guide.screens.steps.gate import GateForm
from guide.screens.steps.task import TaskForm
from guide.screens.steps.verdict import VerdictForm

MOST_PAGES = 12


def drawn(at: Any) -> str:
    """What stands on the screen, as one line."""
    lines = (strip.text.strip(" │▇▅▃▁█▄▂▆") for strip in at.app.screen._compositor.render_strips())
    return " ".join(" ".join(lines).split())


async def read(at: Any, key: str) -> list[str]:
    """Every page of the help that is shown, by one key from one to the next."""
    await at.until(HelpScreen)
    pages = [drawn(at)]
    for _ in range(MOST_PAGES):
        await at.pilot.press(key)
        await at.pilot.pause(0.05)
        if drawn(at) == pages[-1]:
            return pages
        pages.append(drawn(at))
    raise AssertionError(pages)


def named(pages: list[str]) -> set[str]:
    """The words that are explained on some page."""
    return {each.name for each in WORDS if any(f"{each.name}: " in page for page in pages)}


@pytest.mark.parametrize("kind", [FactsForm, TaskForm, GateForm, VerdictForm])
async def test_the_words_of_the_present_step_come_first_and_all_are_reached(
    opened, quick, small, kind
) -> None:
    """At 80 by 24 by plus alone, to the last key at the end; minus goes back to the first word."""
    async with opened(quick, procedure=small) as at:
        await at.named()
        await at.to(kind)
        step = at.sheet.setup.step
        text = step_text(at.sheet.setup.procedure, step, "full")
        cautions = " ".join(f"{each.hazard} {each.action}" for each in text.cautions)
        wanted = {each.name for each in words_in(f"{text.title} {text.say} {cautions}")}
        await at.pilot.press("f1")
        pages = await read(at, "plus")
        assert wanted <= named(pages)
        assert "Words on this page" in pages[0]
        assert "No word of the trade" in pages[0] or named(pages[:1])
        assert MOVING[-1][1][:30] in pages[-1]
        assert "more below" not in pages[-1]
        assert (await read(at, "minus"))[-1] == pages[0]
        await at.pilot.press("enter")
        await at.until(type(at.app.screen_stack[-1]))
        assert not isinstance(at.app.screen, HelpScreen)


async def test_every_meaning_and_every_command_can_be_read_whole(opened, quick) -> None:
    """Cut nowhere: pages overlap, so that a word that is broken by one is whole on the next."""
    async with opened(quick, procedure="adjustable-chuck") as at:
        await at.named()
        await at.to(TaskForm)
        await at.pilot.press("f1")
        told = at.app.screen_stack[-1]
        pages = await read(at, "pagedown")
        assert isinstance(told, HelpScreen)
        assert len(told.words) >= 3
        for word in told.words:
            assert any(word.means[:40] in page for page in pages), word.name
            assert any(word.means[-40:] in page for page in pages), word.name
        assert all(any(each.told[:40] in page for page in pages) for each in COMMANDS)


@pytest.mark.parametrize("size", [(80, 24), (80, 30), (120, 40), (200, 60)])
async def test_its_tiles_are_whole_at_every_size(opened, quick, small, size) -> None:
    """However much there is to read above them."""
    async with opened(quick, procedure=small, size=size) as at:
        await at.named()
        at.app.push_screen(HelpScreen((), " ".join(each.name for each in WORDS)))
        await at.until(HelpScreen)
        await at.pilot.pause(0.05)
        window, bar = (at.app.screen.query_one(each).region for each in ("#window", "ActionBar"))
        assert bar.height == 3
        assert bar.bottom < window.bottom <= size[1]
        drawn = at.app.screen._compositor.render_strips()
        assert "Back to the page   ⏎" in "\n".join(strip.text for strip in drawn)


async def test_what_can_hurt_has_a_sign_and_not_only_a_colour(opened, quick, small) -> None:
    """The sign of every caution."""
    async with opened(quick, procedure=small) as at:
        await at.named()
        at.app.push_screen(HelpScreen((), "Chuck key out. Read the TIR."))
        pages = await read(at, "plus")
        assert "! chuck key: " in pages[0]
        assert "! runout (TIR): " not in pages[0]
        assert "runout (TIR): " in pages[0]


async def test_it_is_reached_from_a_numeric_keypad(opened, quick, small) -> None:
    """Star, then the digit of its key."""
    async with opened(quick, procedure=small) as at:
        await at.named()
        await at.pilot.press("asterisk")
        await at.pilot.pause(0.1)
        await at.pilot.press("1")
        await at.until(HelpScreen)


@pytest.mark.parametrize(
    ("row", "then", "word"),
    [
        ("", "", "jaws"),
        ("calculators", "", "cradle"),
        ("calculators", "1", "jaws"),
        ("practice", "", "half the difference"),
        ("history", "", ""),
        ("people", "", ""),
    ],
)
async def test_every_page_has_it(opened, quick, row, then, word) -> None:
    """The words that are in sight are explained, whatever the page; ? does the same as F1."""
    async with opened(quick) as at:
        await at.row("first:")
        if row:
            at.app.open_row(row, "")
            await at.pilot.pause(0.2)
        if then:
            await at.pilot.press(then)
            await at.pilot.pause(0.2)
        page = type(at.app.screen)
        in_sight = {each.name for each in words_in(drawn(at))}
        await at.pilot.press("f1")
        pages = await read(at, "plus")
        assert word in named(pages) if word else "No word of the trade" in pages[0]
        assert in_sight <= named(pages)
        await at.pilot.press("enter")
        await at.until(page)


async def test_a_record_has_it(opened, quick, small) -> None:
    """What stands in the lines of a setup."""
    async with opened(quick, procedure=small) as at:
        await at.named()
        await at.to(VerdictForm)
        await at.app.push_screen(RecordScreen(at.sheet.setup))
        await at.pilot.pause()
        await at.pilot.press("question_mark")
        assert {"runout (TIR)", "spindle nose"} <= named(await read(at, "plus"))


async def test_the_walk_for_newcomers_has_it(opened, quick) -> None:
    """A newcomer is who needs it."""
    async with opened(quick) as at:
        at.app.open_row("first", "")
        await at.until(FirstWalk)
        await at.pilot.press("f1")
        assert "spindle nose" in named(await read(at, "plus"))
