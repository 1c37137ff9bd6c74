"""The buttons of the present page, always in sight below the sheet."""

from __future__ import annotations

from asyncio import Lock
from collections.abc import Iterable

from textual.containers import Horizontal

from guide.screens.widgets.press import Press


class ActionBar(Horizontal):
    """The offers of a page, side by side, the usual one first."""

    DEFAULT_CSS = """
    ActionBar { height: 3; background: $background; }
    ActionBar Press {
        width: 1fr; height: 3; padding: 1 2; text-align: center; margin: 0 1 0 0;
    }
    ActionBar Press:focus { text-style: bold; }
    """

    def __init__(self, offers: Iterable[tuple[str, str]] = ()) -> None:
        super().__init__(*(Press(name, label) for name, label in offers))
        self._changing = Lock()

    async def offer(self, offers: Iterable[tuple[str, str]]) -> None:
        """Show other buttons, one change after the other: a page and its form may both ask."""
        offers = tuple(offers)
        async with self._changing:
            self.display = bool(offers)
            await self.remove_children()
            await self.mount_all(Press(name, label) for name, label in offers)

    def focus_first(self) -> None:
        """The focus goes to the usual button, if there is one yet."""
        if self.first is not None:
            self.first.focus()

    @property
    def first(self) -> Press | None:
        """The usual button."""
        return next(iter(self.query(Press)), None)
