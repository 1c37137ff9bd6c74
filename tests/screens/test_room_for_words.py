"""No text is cut on any page, window or step of the smallest terminal, in longer languages too."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest
from textual.geometry import Region
from textual.widget import Widget
from textual.widgets import Input

from guide.present.words import catalogue
from tests.screens import tours
from tests.screens.made_tongue import BEGINS, ENDS, TAG, checkout

DRAWN = 0.15
"""Seconds after which what is drawn later than the page is there too."""


@dataclass
class Read(tours.Way):
    """A tour that looks at every page once and only for texts without an end."""

    cut: list[str] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    async def show(self, at: Any, stop: str, every: bool = True) -> None:
        """Note what is cut here; a line that is typed on moves with its cursor."""
        await at.pilot.pause(DRAWN)
        self.took.kinds.add(type(at.app.screen))
        for each in at.app.screen.query(Widget):
            if (
                not isinstance(each, Input)
                and not each.children
                and each.visible
                and each.region.area
            ):
                self.look(stop, each)

    def look(self, stop: str, widget: Widget) -> None:
        """One widget as a whole, wherever it stands on the page."""
        told = painted(widget)
        self.seen |= {stop} if BEGINS in told else set()
        if told.count(BEGINS) != told.count(ENDS):
            self.cut.append(f"{stop}: {type(widget).__name__} {widget.id or widget.name}: {told}")
        if hidden(widget):
            self.cut.append(f"{stop}: {type(widget).__name__} is behind an edge: {told}")


def painted(widget: Widget) -> str:
    """All lines of a widget, seen or not."""
    whole = Region(0, 0, *widget.outer_size)
    return "\n".join(strip.text.rstrip() for strip in widget.render_lines(whole))


def hidden(widget: Widget) -> bool:
    """Whether an edge that nobody can move lies over it."""
    around = widget.region
    for outer in widget.ancestors:
        if not isinstance(outer, Widget) or outer.allow_vertical_scroll:
            return False
        if not outer.region.contains_region(around):
            return True
    return False


@contextmanager
def spoken(place: Path, tag: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Only this language is there, its texts between brackets."""
    monkeypatch.setattr("guide.settings.CHECKOUT", checkout(place, tag))
    catalogue.cache_clear()
    yield
    catalogue.cache_clear()


@pytest.mark.long
@pytest.mark.parametrize("tag", [TAG, "de", "es"])
@pytest.mark.parametrize("tour", tours.TOURS, ids=lambda each: each.__name__)
async def test_whatever_is_said_is_read_to_its_end(
    opened, quick, tmp_path, small, pin, shop, monkeypatch, tour, tag: str
) -> None:
    """At 80 × 24, in a language two fifths longer than English, in German and in Spanish."""
    opened.settings = replace(opened.settings, motion="still", language=tag)
    way = Read(opened, quick, tmp_path, small, pin, shop, tours.Taken())
    with spoken(tmp_path / "shelf", tag, monkeypatch):
        await tour(way)
    assert way.seen
    if way.cut:
        pytest.fail("\n".join(way.cut), pytrace=False)
