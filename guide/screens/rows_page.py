"""What stands behind one tile of the start page: more rows of the same kind, to open one."""

from __future__ import annotations

from textual.app import ComposeResult

from guide.front.shelf import Section
from guide.screens.page import Page, TileGrid, numbered, quiet
from guide.screens.tongue import say
from guide.screens.widgets.press import Press


class RowsPage(Page[str]):
    """Rows under one title; gives back the name of the one that was chosen."""

    def __init__(self, section: Section) -> None:
        super().__init__()
        self.title_text, self.about, self.listed = section

    def body(self) -> ComposeResult:
        """What they are, one tile each."""
        yield quiet(say(self.about))
        yield TileGrid(*(Press(row.name, numbered(place, row.label))
                         for place, row in enumerate(self.listed, 1)))  # fmt: skip

    def on_mount(self) -> None:
        """Begin at the first."""
        self.query("#rows Press").first().focus()

    async def picked(self, name: str) -> None:
        """The one that was chosen."""
        self.dismiss(name)
