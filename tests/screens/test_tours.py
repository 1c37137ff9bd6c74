"""Every page, window and step: it can be read in every look, told apart without colour, is still.

What is measured is what is painted: a tour walks the screens in the dark look, and each colour on
them is some token of that look, which every other look has a value for.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from rich.color import Color as TerminalColour
from rich.style import Style
from textual.color import Color
from textual.screen import Screen

import guide.screens
from guide.screens.colourless import without_colour
from guide.screens.steps.form import Form
from guide.screens.theme import LOOKS
from guide.screens.widgets.inks import INKS
from tests.screens import tours

WRITTEN, MARKED = 4.5, 3.0
"""The least contrast of writing and of a mark that means something (WCAG 2.1, 1.4.3 and 1.4.11;
from memory)."""
COLOURED = ("dark", "light", "high-contrast")
WITHOUT = frozenset({"body", "fill", "bore"})
"""Inks of areas that mean nothing: their edges are drawn in others."""


AREAS = "▀▄█"
"""Halves of a drawing's cells: both colours are inks, which have a test of their own."""
EDGES = "▁▔─│┌┐└┘▌▐"
"""Edges of tiles and boxes; those in the colour of a ground lie round words that tell the same."""
OURS = ("background", "surface", "panel", "foreground", "primary", "secondary", "accent",
        "success", "warning", "error", "quiet")  # fmt: skip
"""The tokens that have a colour of their own."""
TELLING = {"error": "✗", "warning": "!◆", "success": "✓"}
"""Tokens that mean something by themselves, with the signs that say the same."""


@cache
def tokens(look: str) -> dict[str, str]:
    """Every token of ours with its colour in a look."""
    theme = LOOKS[look]
    every = theme.to_color_system().generate() | theme.variables
    return {name: Color.parse(every[name]).hex for name in OURS}


@cache
def token(colour: TerminalColour | None) -> str:
    """The token that a colour of the dark look is; an unknown colour is no colour of ours."""
    found = None if colour is None or colour.is_default else Color.from_rich_color(colour).hex
    return next((name for name, value in tokens("dark").items() if value == found), f"no: {found}")


@cache
def inks(style: Style) -> tuple[str, str]:
    """The tokens of writing and ground as they are seen."""
    pair = token(style.color), token(style.bgcolor)
    return pair[::-1] if style.reverse else pair


def pairs(shots: Iterable[Any]) -> dict[tuple[str, str, bool], str]:
    """Tokens of what is painted and its ground, whether it is writing, and where it was seen.

    Blank cells are nothing that is painted.
    """
    found: dict[tuple[str, str, bool], str] = {}
    for shot in shots:
        for text, style, _ in (each for strip in shot.strips for each in strip):
            signs = "".join(text.split())
            if signs and signs.strip(AREAS):
                written = any(each.isalnum() for each in signs)
                edge = not signs.strip(EDGES)
                if not edge or inks(style)[0] not in ("background", "panel"):
                    where = f"{shot.stop}, {shot.state}: {text.strip()[:30]}"
                    found.setdefault((*inks(style), written), where)
    return found


def luminance(colour: Color) -> float:
    """Relative luminance of sRGB: .2126 R + .7152 G + .0722 B of the linear parts.

    WCAG 2.1, definition of relative luminance (from memory).
    """
    parts = [part / 255 for part in colour.rgb]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(k * p for k, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """The lighter over the darker, each with the glare of a screen (WCAG 2.1, from memory)."""
    low, high = sorted(luminance(Color.parse(each)) for each in (one, other))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_gives_the_values_that_are_known() -> None:
    """Black on white is 21, the grey 767676 on white just passes, at 4.54 (from memory)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


def too_weak(seen: dict[tuple[str, str, bool], str], look: str) -> list[tuple[str, float]]:
    """What is written or marked with too little contrast in a look, or in no colour of ours."""
    weak = []
    for (ink, ground, written), where in seen.items():
        known = tokens(look).keys() >= {ink, ground}
        ratio = contrast(tokens(look)[ink], tokens(look)[ground]) if known else 0
        if ratio < (WRITTEN if written else MARKED):
            weak.append((f"{ink} on {ground} in {where}", round(ratio, 2)))
    return weak


def bare(shot: Any) -> tuple[tuple[str, bool, bool, bool], ...]:
    """Every sign of a shot as the look without colour paints it: bold, underlined, reversed."""
    return tuple(
        (sign, *_bare(style)) for strip in shot.strips for text, style, _ in strip for sign in text
    )


@cache
def _bare(style: Style) -> tuple[bool, bool, bool]:
    """What is left of a style."""
    ink, ground = (tokens("no-colour").get(each, "#000000") for each in inks(style))
    left = without_colour(replace_colours(style, ink, ground))
    return bool(left.bold), bool(left.underline), bool(left.reverse)


def replace_colours(style: Style, ink: str, ground: str) -> Style:
    """The same style in other colours."""
    return style + Style(color=ink, bgcolor=ground, reverse=False)


def alike(shots: Iterable[Any]) -> list[str]:
    """Pairs of states of one stop that nothing but a colour tells apart; a focus is a state."""
    first: dict[tuple[str, Any], str] = {}
    told = []
    for shot in shots:
        if shot.state.startswith("focus"):
            other = first.setdefault((shot.stop, bare(shot)), shot.state)
            told += [f"{shot.stop}: {other} and {shot.state}"] if other != shot.state else []
    return told


def by_colour_alone(shots: Iterable[Any]) -> list[str]:
    """Writing in a colour that means something, with no sign before it in its lines."""
    return sorted({where for shot in shots for where in _unsigned(shot)})


def _unsigned(shot: Any) -> Iterator[str]:
    """The same of one shot; a sentence may have begun some lines above."""
    lines = [strip.text for strip in shot.strips]
    for y, strip in enumerate(shot.strips):
        x = 0
        for text, style, _ in strip:
            end = x + len(text)
            signs = TELLING.get(inks(style)[0], "") if style and text.strip() else ""
            if signs and not signed(lines, y, end, signs):
                yield f"{shot.stop}: {text.strip()[:40]}"
            x = end


def signed(lines: list[str], y: int, end: int, signs: str) -> bool:
    """Whether a sign stands in this line up to a column, or in one above without a gap between."""
    while y >= 0 and lines[y][:end].strip(" ▌│█"):
        if any(sign in lines[y][:end] for sign in signs):
            return True
        y -= 1
    return False


@pytest.fixture
def way(opened, quick, tmp_path, small, pin, shop) -> Any:
    """What a tour needs; nothing may move by itself."""
    opened.settings = replace(opened.settings, motion="still")
    return tours.Way(opened, quick, tmp_path, small, pin, shop, tours.Taken())


@pytest.mark.long
@pytest.mark.parametrize("tour", tours.TOURS, ids=lambda each: each.__name__)
async def test_whatever_is_shown_is_read_in_every_look_told_apart_without_and_still(
    way, tour
) -> None:
    """Writing 4.5 : 1, marks 3 : 1, with the focus on it and under the pointer; no state and no
    warning by colour alone; a second later the same stands there; and the tour came to what it is
    for."""
    await tour(way)
    took = way.took
    seen = pairs(took.shots)
    assert {look: too_weak(seen, look) for look in COLOURED} == {look: [] for look in COLOURED}
    assert alike(took.shots) == []
    assert by_colour_alone(took.shots) == []
    assert took.moved == []
    assert took.disabled == []
    assert took.kinds >= {*tours.TOURS[tour]}


def test_a_tour_comes_to_every_page_window_and_form() -> None:
    """Whatever class of them is ever shown: those that others only build on are not."""
    for module in pkgutil.walk_packages(guide.screens.__path__, "guide.screens."):
        importlib.import_module(module.name)
    ours = {each for kind in (Screen, Form) for each in below(kind)
            if each.__module__.startswith("guide.screens.")}  # fmt: skip
    shown = {each for each in ours if not below(each)} | {each for each in ours if made(each)}
    come_to = {kind for kinds in tours.TOURS.values() for kind in kinds}
    assert {each.__name__ for each in shown - come_to} == set()


def below(kind: type) -> set[type]:
    """All classes that build on one."""
    return {deeper for each in kind.__subclasses__() for deeper in ({each} | below(each))}


def made(kind: type) -> bool:
    """Whether a class that others build on is itself made somewhere."""
    text = "".join(path.read_text() for path in Path(guide.screens.__path__[0]).rglob("*.py"))
    return re.search(rf"(?<!class )\b{kind.__name__}\(", text) is not None


async def test_what_is_painted_in_another_look_is_what_the_tokens_say(way) -> None:
    """The measure walks in one look: the same page is painted in the others, token by token."""
    async with way.opened(way.quick) as at:
        await at.begin("adjustable-chuck")
        at.form.query("PlainLine").first().value = "chosen all"
        at.form.query("PlainLine").first().focus()
        for look in COLOURED:
            at.app.show_as(replace(at.app.settings, look=look))
            await at.pilot.pause(0.1)
            told = dict(colours_of(at))
            if look == "dark":
                dark = told
            assert told.keys() == dark.keys()
            for text, colours in told.items():
                meant = [tokens(look)[token_of(each)] for each in dark[text]]
                assert all(map(same, colours, meant)), (text, colours, meant)
        assert len(dark) > 10


def colours_of(at: Any) -> Iterator[tuple[str, tuple[str, str]]]:
    """Every writing on the screen with its two colours."""
    for strip in tours.painted(at):
        for text, style, _ in strip:
            if text.strip():
                both = (style.color, style.bgcolor)
                yield text, tuple(Color.from_rich_color(each).hex for each in both)  # type: ignore[misc]


def same(one: str, other: str) -> bool:
    """Whether two colours are one, but for what the library loses in rounding."""
    parts = zip(Color.parse(one).rgb, Color.parse(other).rgb, strict=True)
    return all(abs(a - b) <= 1 for a, b in parts)


def token_of(colour: str) -> str:
    """The token of a colour of the dark look."""
    return token(TerminalColour.parse(colour))


@pytest.mark.parametrize("look", COLOURED)
def test_every_ink_of_a_drawing_stands_out_from_what_it_is_drawn_on(look) -> None:
    """From the paper and from the body, whichever it lies on."""
    for ink in INKS.keys() - WITHOUT - {next(reversed(INKS))}:
        drawn = tokens(look)[INKS[ink].removeprefix("$")]
        for ground in ("background", "panel"):
            assert contrast(drawn, tokens(look)[ground]) >= MARKED, ink


@pytest.mark.parametrize("look", COLOURED)
def test_the_main_writing_is_seven_to_one(look) -> None:
    """On every ground that it stands on (WCAG 2.1, 1.4.6; from memory)."""
    for ground in ("background", "surface", "panel"):
        assert contrast(tokens(look)["foreground"], tokens(look)[ground]) >= 7
