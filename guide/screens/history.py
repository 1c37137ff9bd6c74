"""How each chuck was found and left: a list, and a page of one with picture, table and reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.widgets import Static

from guide.front.due import today_here
from guide.journal.store import Store
from guide.plain import N_
from guide.present.trend_plot import plot
from guide.present.visible import visible
from guide.records.history import in_a_line, read, reasoning, said, shown, table
from guide.records.recheck import Recheck
from guide.records.trend import History, known_as
from guide.screens.page import Page, numbered, quiet
from guide.screens.tongue import language, say
from guide.screens.widgets.press import Press

if TYPE_CHECKING:
    from guide.screens.app import Spindleside

Told = tuple[tuple[History, Recheck], ...]
WIDEST, HIGH = 100, 16
"""The picture: as wide as the page up to here, and so high."""


async def show_history(app: Spindleside, chuck: str) -> None:
    """The list, or at once the page of a chuck that is named and is in it."""
    told: Told = ()
    if Store.is_there(app.settings.journal_file):
        told = tuple(zip(*read(app.store), strict=True))
    named = [each for each in told if known_as(each[0].chuck) == known_as(chuck)]
    if chuck and named:
        await app.push_screen_wait(HistoryPage(*_latest(named)))
        return
    await app.push_screen_wait(HistoryList(told))


def _latest(named: list[tuple[History, Recheck]]) -> tuple[History, Recheck]:
    """The one that is to be looked at, or else the one that ended last."""
    today = today_here()
    return max(named, key=lambda each: (each[1].is_due(today), each[1].last.ended_at))


class HistoryList(Page[None]):
    """Every chuck on every lathe, what is due first."""

    title_text = N_("Chucks over the years")

    def __init__(self, told: Told) -> None:
        super().__init__()
        today = today_here()
        self.told = sorted(told, key=lambda each: not each[1].is_due(today))

    def body(self) -> ComposeResult:
        """A tile for each, and below it how it stands."""
        if not self.told:
            nothing = N_("Nothing yet: the chuck of a real setup stands here once that has ended.")
            yield quiet(say(nothing))
        for number, (one, found) in enumerate(self.told):
            words = f"{visible(one.chuck)} · {visible(one.lathe)}"
            yield Press(str(number), numbered(number + 1, words))
            yield quiet("\n".join(_below(found)))

    def on_mount(self) -> None:
        """The first tile has the focus."""
        for first in list(self.query("#rows Press"))[:1]:
            first.focus()

    async def picked(self, name: str) -> None:
        """The page of one."""
        self.app.push_screen(HistoryPage(*self.told[int(name)]))


def _below(found: Recheck) -> list[str]:
    """When to look again, and the last results."""
    last = {"found": said(found.last.found, language()), "left": said(found.last.left, language())}
    return [
        f"   {in_a_line(found, today_here(), language())}",
        "   " + say(N_("as found {found}, as left {left}"), **last),
    ]


class HistoryPage(Page[None]):
    """One chuck on one lathe; nothing is written here."""

    DEFAULT_CSS = """
    HistoryPage #plot, HistoryPage #table { margin: 1 1 0 1; text-wrap: nowrap; height: auto; }
    HistoryPage #when, HistoryPage #why { margin: 1 1 0 1; height: auto; }
    """

    def __init__(self, history: History, found: Recheck) -> None:
        super().__init__()
        self.history, self.found = history, found

    def title_line(self) -> str:
        """Which chuck, where."""
        return f"{visible(self.history.chuck)} · {visible(self.history.lathe)}"

    def body(self) -> ComposeResult:
        """The day, picture, table, reasons."""
        yield Static(in_a_line(self.found, today_here(), language()), id="when", markup=False)
        yield Static("", id="plot", markup=False)
        yield Static("\n".join(table(self.history, language())), id="table", markup=False)
        yield Static("\n".join(reasoning(self.found, language())), id="why", markup=False)

    def on_resize(self, event: events.Resize) -> None:
        """The picture as wide as the page."""
        width = min(event.size.width - 6, WIDEST)
        lines = plot(shown(self.history), self.history.unit, width, HIGH, language())
        self.query_one("#plot", Static).update("\n".join(lines))
