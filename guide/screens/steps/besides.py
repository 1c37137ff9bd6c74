"""The places besides steps: paused, made safe, being made safe, finished, abandoned."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.screens.messages import Picked
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say


class StandingForm(Form):
    """A place where nothing is done: how the lathe stands, in lines."""

    def __init__(self, lines: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self.lines = tuple(lines)

    def compose(self) -> ComposeResult:
        """How the lathe stands."""
        yield Static(_table(self.lines), classes="how", markup=False)


class WaitingForm(StandingForm):
    """Paused or made safe: go on, by way of making sure."""

    def offers(self) -> tuple[Offer, ...]:
        """Go on, or leave."""
        return (("resume", say(N_("Go on   ⏎"))), ("leave", say(N_("Leave it so"))))

    def pressed(self, name: str) -> None:
        """Resume, or let the sheet close."""
        if name == "resume":
            self.act("resume")
        else:
            self.post_message(Picked("leave"))


class SafeActionForm(Form):
    """One action towards made safe."""

    def __init__(self, action: str) -> None:
        super().__init__()
        self.action = action

    def offers(self) -> tuple[Offer, ...]:
        """One button."""
        return (("done", say(N_("Done   ⏎"))),)

    def pressed(self, name: str) -> None:
        """It was done."""
        self.act("done", action=self.action)


class EndForm(StandingForm):
    """Finished or abandoned: what stands, and nothing more to enter; perhaps what it leads into."""

    def __init__(self, lines: Sequence[tuple[str, str]], leads_on: bool = False) -> None:
        super().__init__(lines)
        self.leads_on = leads_on

    def offers(self) -> tuple[Offer, ...]:
        """Close the sheet; the next procedure where this one leads into it."""
        true_it = (("onward", say(N_("Go on: true it now"))),) if self.leads_on else ()
        return (("leave", say(N_("Close this sheet   ⏎"))), *true_it)

    def pressed(self, name: str) -> None:
        """Let the sheet close, and say whether the next one is to open."""
        self.post_message(Picked("onward" if name == "onward" and self.leads_on else "leave"))


def _table(lines: Sequence[tuple[str, str]]) -> Content:
    """What is looked at, and how it is."""
    parts: list[tuple[str, str]] = []
    for name, told in lines:
        parts += [(f"  {name}: ", "$quiet"), (f"{told}\n", "")]
    return Content.assemble(*parts)
