"""The first screen."""

from __future__ import annotations

import asyncio
from dataclasses import replace

from textual.app import App, ComposeResult
from textual.geometry import Region

from guide.present.words import written
from guide.procedure.shelf import find, shipped_files
from guide.screens.record import RecordScreen
from guide.screens.sheet import SetupSheet
from guide.screens.steps.task import TaskForm
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.press import Press


async def test_an_empty_journal_says_so_and_offers_every_procedure(opened, keyboard) -> None:
    """Nothing to read, something to begin."""
    async with opened(keyboard) as at:
        await at.row("begin:adjustable-chuck")
        said = " ".join(str(each.render()) for each in at.app.screen.query(".quiet"))
        assert "No record yet" in said
        first = _begins(at)
        await at.pick(await at.row("more:procedures"))
        await at.row("begin:chuck-removal")
        assert first | _begins(at) == {path.stem for path in shipped_files()}


def _begins(at) -> set[str]:
    """The procedures that are begun from the page at hand."""
    names = [each.name for each in at.app.screen.query(Press)]
    return {name.removeprefix("begin:") for name in names if name.startswith("begin:")}


async def test_every_tile_of_the_start_page_and_of_the_procedures_has_a_number(
    opened, keyboard
) -> None:
    """From a keypad nothing is behind a tile that has none."""
    async with opened(keyboard) as at:
        await at.row("more:procedures")
        assert _numbers(at) == list(range(1, len(_numbers(at)) + 1))
        await at.pick(await at.row("more:procedures"))
        await at.row("begin:chuck-removal")
        assert _numbers(at) == list(range(1, len(_numbers(at)) + 1))


def _numbers(at) -> list[int]:
    """The number that each tile begins with; 0 where it has none."""
    first = [str(each.label).split()[0] for each in at.app.screen.query("#rows Press")]
    return [int(word) if word.isdecimal() else 0 for word in first]


async def test_looking_at_the_start_page_makes_no_file(opened, keyboard) -> None:
    """The journal is made by the first setup, not by looking."""
    async with opened(keyboard, first_use=True) as at:
        await at.row("begin:chuck-removal")
    assert list(opened.settings.home.iterdir()) == []


async def test_a_number_opens_its_row(opened, keyboard) -> None:
    """1 is the first line."""
    async with opened(keyboard) as at:
        await at.row("begin:chuck-removal")
        await at.pilot.press("1")
        await at.pilot.pause()
        assert at._line("person")


async def test_a_setup_needs_both_names(opened, keyboard) -> None:
    """A blank one is asked for again."""
    async with opened(keyboard) as at:
        await at.pick(await at.row("begin:chuck-removal"))
        await at.pilot.pause()
        await at.type(at._line("person"), "A. Sample")
        await at.press("yes")
        assert "has no answer yet" in at.complaint


async def test_names_used_before_are_offered(opened, mouse) -> None:
    """A second setup picks the person by a click, and what was abandoned stands as a record."""
    async with opened(mouse) as at:
        await at.begin_quickly("chuck-removal")
        assert isinstance(at.app.screen, SetupSheet)
        await at.pilot.press("f8")
        await at.pilot.pause()
        await at.type(at._line("why"), "only looking (invented)")
        await at.press("yes")
        await at.settle()
        await at.press("leave")
        await at.pilot.pause()
        record = None
        for _ in range(50):
            await at.pilot.pause(0.02)
            record = next(iter(at.app.screen.query("#rows Press")), None)
            if record is not None and at.app.screen.query("#rows .section"):
                break
        rows = [row.name for row in at.app.screen.query("#rows Press")]
        assert any(name.startswith("record:") for name in rows)
        await at.pick(await at.row("begin:chuck-removal"))
        await at.pilot.pause()
        known = at.app.screen.query_one("Choices")
        assert ("A. Sample", "A. Sample") in known.options
        await at.choose(known, "A. Sample")
        await at.pilot.pause()
        assert at._line("person").value == "A. Sample"


async def test_a_record_is_read_only(opened, mouse) -> None:
    """Its page has the lines of the sheet and no button."""
    async with opened(mouse) as at:
        await at.begin_quickly("chuck-removal")
        setup = at.sheet.state.setup
        await at.pilot.press("f8")
        await at.pilot.pause()
        await at.type(at._line("why"), "only looking (invented)")
        await at.press("yes")
        await at.settle()
        await at.press("leave")
        await at.pick(await at.row(f"record:{setup}"))
        await at.pilot.pause()
        assert isinstance(at.app.screen, RecordScreen)
        assert "only looking (invented)" in at.text("#record")
        assert [each.name for each in at.app.screen.query("Press")] == ["back"]
        await at.pilot.press("escape")
        await at.row("begin:chuck-removal")


async def test_going_on_with_a_killed_setup_asks_who_and_goes_on(opened, mouse) -> None:
    """What was entered before the program died is still on the sheet."""
    async with opened(mouse) as at:
        await at.begin_quickly("chuck-removal")
        await at.quick_page()
        setup = at.sheet.state.setup
        at.app.exit()
    async with opened(mouse, setup=setup) as again:
        for _ in range(50):
            await again.pilot.pause(0.02)
            if again.app.screen.query("Field Input"):
                break
        await again.pilot.pause()
        await again.type(again._line("person"), "A. Sample")
        await again.press("yes")
        await again.settle()
        assert "Resumed" in again.text("#done")
        assert not isinstance(again.form, TaskForm)


async def test_an_open_setup_is_named_by_the_title_of_its_procedure_in_the_readers_language(
    opened, quick
) -> None:
    """In the smallest terminal the whole title stands there, and no name of a file."""
    async with opened(quick) as at:
        await at.begin("adjustable-chuck")
        at.app.exit()
    opened.settings = replace(opened.settings, language="de")
    async with opened(quick) as at:
        (tile,) = [await at.row(name) for name in await _rows(at, "resume:")]
        whole = Region(0, 0, *tile.outer_size)
        painted = " ".join(strip.text for strip in tile.render_lines(whole)).split()
        title = written(find("adjustable-chuck").title, "de")
        assert title != find("adjustable-chuck").title
        assert " ".join(title.split()) in " ".join(painted)
        assert "adjustable-chuck" not in " ".join(painted)
        assert tile.region.right <= 80


async def _rows(at, begins: str) -> list[str]:
    """The rows of the start page whose names begin so, once they are there."""
    await at.row("begin:adjustable-chuck")
    names = [str(each.name) for each in at.app.screen.query("#rows Press")]
    return [name for name in names if name.startswith(begins)]


async def test_two_changes_of_the_buttons_at_once_leave_one_set() -> None:
    """A page and its form may both ask for buttons while the page opens."""
    bar = ActionBar()

    class One(App[None]):
        def compose(self) -> ComposeResult:
            yield bar

    async with One().run_test() as pilot:
        await asyncio.gather(*(bar.offer([("next", "Next")]) for _ in range(3)))
        await pilot.pause()
        assert [each.name for each in bar.query(Press)] == ["next"]
