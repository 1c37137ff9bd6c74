"""A gate: every check is confirmed by its own number or by a click on it, and by nothing else."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from time import monotonic

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.present.gate_keys import QUIET, GateKeys
from guide.present.gate_said import Ignored
from guide.present.gate_text import CheckText, why_english
from guide.screens.messages import Picked
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say

LAG = 0.1
"""Seconds to wait beyond the rule's own, for a key that is still on its way."""


class CheckRow(Widget):
    """One numbered check with its hazard and how to look; a click on it confirms it."""

    DEFAULT_CSS = """
    CheckRow { height: auto; padding: 0 1; margin: 0 0 1 0; background: $surface; }
    CheckRow:hover { background: $panel; }
    """
    state: reactive[str] = reactive("open")
    """open, waiting (its key has to stand alone a moment longer) or confirmed."""

    def __init__(self, number: int, check: CheckText) -> None:
        super().__init__(name=str(number))
        self.number, self.check = number, check

    def render(self) -> Content:
        """Sign, number, what is confirmed; below it what can hurt and how to look."""
        sign = {"open": "○", "waiting": "…", "confirmed": "✓"}[self.state]
        style = "bold $success" if self.state == "confirmed" else "bold"
        about = f"{self.check.person}: " if self.check.person else ""
        parts = [(f"{sign} {self.number}  {about}{self.check.say}", style)]
        if self.check.hazard:
            parts.append((f"\n! {self.check.hazard}", "$warning"))
        if self.check.look:
            parts.append((f"\n{self.check.look}", "$quiet"))
        if self.check.english:
            parts.append((f"\n(en) {self.check.english}", ""))
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        """A click counts at once."""
        event.stop()
        self.post_message(Picked(self.name or ""))


class GateForm(Form, can_focus=True):
    """The checks of a gate; when the last is confirmed the gate is acknowledged."""

    hears_every_key = True
    clock: Callable[[], float] = staticmethod(monotonic)
    """Seconds, on the same clock as the times of keys."""

    def __init__(self, checks: Sequence[CheckText], extra: dict[str, str] | None = None) -> None:
        super().__init__()
        self.checks, self.extra = tuple(checks), extra or {}
        self.keys, self.ignored = GateKeys(len(checks)), Ignored(len(checks))
        self.confirmed: set[int] = set()
        self.opened = self.clock()

    def compose(self) -> ComposeResult:
        """How it is confirmed, and the checks."""
        how = say(N_("Look, then press each check's own number, or touch it. 0 takes all back."))
        yield Static(" ".join(filter(None, (how, why_english()))), classes="how", markup=False)
        for number, check in enumerate(self.checks, start=1):
            yield CheckRow(number, check)

    def offers(self) -> tuple[Offer, ...]:
        """No button: nothing but the checks opens a gate."""
        return ()

    def first(self) -> Widget:
        """The form itself, so that numbers reach it."""
        return self

    def key_came(self, key: str, at: float) -> None:
        """Any key: a number may count, and every key may stop one before it from counting."""
        self._settle(at)
        if key == "0":
            self.confirmed.clear()
        self.keys.press(key, at)
        self.ignored.press(key, at)
        self._show()
        self.set_timer(QUIET + LAG, self._look_again)

    def _look_again(self) -> None:
        """Whether a number has stood alone long enough, after every key already on its way."""
        self.app.call_later(self.call_later, self._settle)

    def _settle(self, now: float | None = None) -> None:
        """Confirm the number that stood alone."""
        now = self.clock() if now is None else now
        number = self.keys.settled(now)
        if number is not None:
            self._counted(number)
        if why := self.ignored.why(now):
            self.complain(say(why))

    def _counted(self, number: int) -> None:
        """A number counts only for a check that is wholly in sight."""
        row = self._row(number)
        if self._in_sight(row):
            self.confirm(number)
            return
        row.scroll_visible()
        self._show()
        self.complain(say(N_("Check {number} was not in sight. Read it, then press its number."),
                          number=number))  # fmt: skip

    def _row(self, number: int) -> CheckRow:
        """The row of a check."""
        return next(row for row in self.query(CheckRow) if row.number == number)

    def _in_sight(self, row: CheckRow) -> bool:
        """Whether a row is wholly on the screen, or fills it."""
        seen = self.screen.query_one("#page").region.intersection(row.region)
        return seen.height >= min(row.region.height, self.screen.query_one("#page").size.height)

    def on_picked(self, event: Picked) -> None:
        """A click on a check."""
        event.stop()
        self.confirm(int(event.name))

    def confirm(self, number: int) -> None:
        """One check is confirmed; the last one acknowledges the gate."""
        if number in self.confirmed:
            return
        self.confirmed.add(number)
        self.complain("")
        self._show()
        if len(self.confirmed) < len(self.checks):
            self._row(min(set(range(1, len(self.checks) + 1)) - self.confirmed)).scroll_visible()
            return
        seconds = f"{max(self.clock() - self.opened, 0):.1f}"
        numbers = [str(each) for each in sorted(self.confirmed)]
        self.act("acknowledge", checks=numbers, seconds=seconds, **self.extra)

    def refused(self) -> None:
        """The gate stayed shut: everything is looked at again."""
        self.confirmed.clear()
        self._show()

    def _show(self) -> None:
        """Signs by what is confirmed and what waits."""
        for row in self.query(CheckRow):
            waits = self.keys.waiting == row.number
            row.state = (
                "confirmed" if row.number in self.confirmed else "waiting" if waits else "open"
            )
