"""Looks and the other settings of the screens are chosen, hold at once, and are kept."""

from __future__ import annotations

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po
from rich.segment import Segment
from rich.style import Style
from textual.color import Color

from guide.screens.colourless import Colourless
from guide.screens.liked import LikedPage
from guide.screens.start import StartPage
from guide.screens.theme import LOOKS
from guide.screens.widgets.inks import DRAWN
from guide.settings import CHECKOUT, from_environment


def test_without_colour_what_was_lit_is_reversed_and_no_colour_is_left() -> None:
    """Bold and underlined stay; the terminal has only its own two colours."""
    lit = Segment("chosen", Style.parse("bold #000000 on #ffffff"))
    plain = Segment("words", Style.parse("underline #ffffff on #000000"))
    told = Colourless().apply([lit, plain], Color.parse("#000000"))
    assert [each.style.reverse or False for each in told] == [True, False]
    assert [each.style.bold or False for each in told] == [True, False]
    assert [each.style.underline or False for each in told] == [False, True]
    assert all(each.style.color.is_default and each.style.bgcolor.is_default for each in told)


async def test_another_look_holds_at_once_and_the_next_time(opened, quick, tmp_path) -> None:
    """Chosen on its page, kept beside the journal."""
    async with opened(quick) as at:
        await at.pick(await at.row("settings:"))
        await at.until(LikedPage)
        before = at.app.screen.styles.background
        row = next(each for each in at.app.screen.query("Choices") if each.name == "look")
        await at.choose(row, "light")
        await at.pilot.pause(0.1)
        assert at.app.theme == LOOKS["light"].name
        assert at.app.screen.styles.background != before
    assert from_environment(home=str(tmp_path)).look == "light"


async def test_drawings_of_a_look_without_colour_are_only_signs_at_once(opened, quick) -> None:
    """On pages that are opened afterwards too."""
    async with opened(quick) as at:
        await at.pick(await at.row("settings:"))
        page = await at.until(LikedPage)
        for look, colours in (("no-colour", False), ("dark", True)):
            await at.choose(page._row("look"), look)
            await at.pilot.pause(0.1)
            assert at.app._drawn.colours is colours
            told: list[bool] = []
            at.app.call_later(lambda: told.append(DRAWN.get().colours))  # noqa: B023
            await at.pilot.pause(0.1)
            assert told == [colours]


async def test_another_language_holds_at_once_on_every_page(
    opened, quick, tmp_path, monkeypatch
) -> None:
    """Only languages with whole catalogues are offered, by their own names."""
    words = {"These screens": "Ĉi tiuj ekranoj", "Beside the lathe": "Apud la tornilo"}
    monkeypatch.setattr("guide.settings.CHECKOUT", shelf(tmp_path / "shelf", "eo", words))
    async with opened(quick) as at:
        await at.pick(await at.row("settings:"))
        page = await at.until(LikedPage)
        row = page._row("language")
        assert row.options == (("en", "English"), ("eo", "Esperanto"))
        await at.choose(row, "eo")
        await at.pilot.pause(0.2)
        assert page.query_one("#title").render().plain == "Ĉi tiuj ekranoj"
        assert at.app.focused is page._row("language")
        await at.press("back")
        await at.until(StartPage)
        said = [str(each.render()) for each in at.app.screen.query(".section")]
        assert "Apud la tornilo" in said


def shelf(place: Path, language: str, words: dict[str, str]) -> Path:
    """A checkout with the shipped procedures and one catalogue."""
    messages = place / "locales" / language / "LC_MESSAGES"
    messages.mkdir(parents=True)
    (place / "procedures").symlink_to(CHECKOUT / "procedures")
    catalogue = Catalog(locale=language, header_comment="# One.\n# Complete: yes\n#", fuzzy=False)
    for sentence, said in words.items():
        catalogue.add(sentence, said)
    for domain in ("spindleside", "procedures"):
        with (messages / f"{domain}.po").open("wb") as file:
            write_po(file, catalogue)
    return place


async def test_a_file_that_cannot_be_read_is_told_at_the_start(opened, quick, tmp_path) -> None:
    """In one sentence; the program opens as usual."""
    (tmp_path / "settings.json").write_text("{")
    opened.settings = from_environment(home=str(tmp_path))
    async with opened(quick) as at:
        await at.row("practice:")
        assert "settings.json" in at.complaint
        assert at.app.theme == LOOKS["dark"].name
