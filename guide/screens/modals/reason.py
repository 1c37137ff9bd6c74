"""Asking for a reason, or for nothing but yes."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult

from guide.plain import N_
from guide.screens.modals.window import Window
from guide.screens.tongue import say
from guide.screens.widgets.field import Field


class ReasonScreen(Window[str]):
    """One line to type a reason on; gives it back."""

    def __init__(
        self,
        title: str,
        told: str,
        ask: str,
        *,
        wanted: bool,
        usual: Sequence[str] = (),
        yes: str = Window.yes,
    ) -> None:
        super().__init__()
        self.title_text, self.told_text, self.ask, self.wanted = title, told, ask, wanted
        self.yes = yes
        self.usual = tuple(usual)
        """Reasons to pick."""

    def questions(self) -> ComposeResult:
        """The reason."""
        yield Field("why", say(self.ask), usual=[say(each) for each in self.usual],
                    may_be_blank=not self.wanted)  # fmt: skip

    def confirm(self) -> None:
        """Give the reason back; where one is wanted, not without."""
        why = self.query_one(Field).value
        if self.wanted and not why:
            self.complain(say(N_("A reason is wanted for the record. Say it in a few words.")))
            self.query_one(Field).focus()
        else:
            self.dismiss(why)
