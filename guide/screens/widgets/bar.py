"""The tiles of the present page, always in sight below it."""

from __future__ import annotations

from asyncio import Lock
from collections.abc import Iterable

from textual.containers import Horizontal

from guide.screens.widgets.press import Press

Offer = tuple[str, str]
"""A tile's name and label."""


class ActionBar(Horizontal):
    """The offers of a page, side by side, the usual one first; `always` stands behind them."""

    DEFAULT_CSS = """
    ActionBar { height: 3; background: $background; padding: 0 1; }
    ActionBar Press {
        width: 1fr; height: 3; text-align: center; content-align: center bottom; margin: 0 1 0 0;
        padding: 0 1;
    }
    ActionBar Press.always { width: 15; }
    ActionBar Press:focus { text-style: bold; }
    """

    def __init__(self, offers: Iterable[Offer] = (), always: Iterable[Offer] = ()) -> None:
        self.always = tuple(always)
        super().__init__(*_tiles(offers, self.always))
        self._changing = Lock()

    async def offer(self, offers: Iterable[Offer]) -> None:
        """Show other tiles, one change after the other: a page and its form may both ask."""
        tiles = _tiles(offers, self.always)
        async with self._changing:
            self.display = bool(tiles)
            if self._named_otherwise(tiles):
                return
            await self.remove_children()
            await self.mount_all(tiles)

    def _named_otherwise(self, tiles: list[Press]) -> bool:
        """Whether the same tiles only have other labels now: they stay, and keep the focus."""
        there = list(self.query(Press))
        if [each.name for each in there] != [each.name for each in tiles]:
            return False
        for old, new in zip(there, tiles, strict=True):
            old.label = new.label
            old.refresh()
        return True

    def focus_first(self) -> None:
        """The focus goes to the usual tile, if there is one yet."""
        if self.first is not None:
            self.first.focus()

    @property
    def first(self) -> Press | None:
        """The usual tile."""
        return next(iter(self.query(Press)), None)


def _tiles(offers: Iterable[Offer], always: Iterable[Offer]) -> list[Press]:
    """A tile for each offer, a small one for what is always there."""
    shown = [Press(name, label) for name, label in offers]
    return [*shown, *(Press(name, label, classes="always") for name, label in always)]
