"""Asking who is at the lathe, and which lathe it is: typed, or picked from those used before."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from textual.app import ComposeResult
from textual.widget import Widget

from guide.plain import N_
from guide.screens.modals.window import Window
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

MOST = 6
"""Names used before that are offered; any other is typed."""


Attempt = Callable[[Mapping[str, str]], str]
"""Tries what the names are wanted for; gives back why not, blank when it was done."""


def _nothing_wrong(told: Mapping[str, str]) -> str:
    """Nothing is tried here."""
    return ""


class AskScreen(Window[dict[str, str]]):
    """Gives back `person`, and `lathe` where it is asked."""

    yes = N_("Go on   ⏎")

    def __init__(
        self,
        title: str,
        told: str,
        asks: Sequence[tuple[str, str, Sequence[str]]],
        attempt: Attempt = _nothing_wrong,
    ) -> None:
        super().__init__()
        self.title_text, self.told_text, self.asks = title, told, tuple(asks)
        self.attempt = attempt
        self.given: dict[str, str] = {}
        """Names that stand there from before, to be confirmed."""

    @classmethod
    def for_person(
        cls, title: str, known: Sequence[str], attempt: Attempt = _nothing_wrong
    ) -> AskScreen:
        """Only who."""
        told = N_("Everything is recorded under this name.")
        return cls(title, told, [("person", N_("Your name:"), known)], attempt)

    @classmethod
    def for_setup(
        cls, people: Sequence[str], lathes: Sequence[str], attempt: Attempt, last: bool = False
    ) -> AskScreen:
        """Who, and on which lathe; with `last` those of the last setup stand there already."""
        asks = cls(
            N_("A new setup"),
            N_("Everything is recorded under these names; a lathe has one open setup at most."),
            [
                ("person", N_("Your name:"), people),
                ("lathe", N_("Which lathe is it? The name it has in this shop:"), lathes),
            ],
            attempt,
        )
        asks.given = {name: known[0] for name, _, known in asks.asks if known} if last else {}
        return asks

    def questions(self) -> ComposeResult:
        """For each a row of names used before, and a line to type another."""
        for name, ask, known in self.asks:
            if known:
                options = [(each, each) for each in known[:MOST]]
                yield Choices(f"known-{name}", say(N_("Used before")), options, stacked=False,
                              classes="tight")  # fmt: skip
            yield Field(name, say(ask), value=self.given.get(name, ""))

    def first(self) -> Widget:
        """The first line; where both stand there already, the button that confirms them."""
        if len(self.given) == len(self.asks):
            return self.query("ActionBar Press").first()
        return super().first()

    def answered(self, name: str, value: str) -> None:
        """A picked name is written on its line."""
        if name.startswith("known-"):
            self._line(name.removeprefix("known-")).entry.value = value

    def _line(self, name: str) -> Field:
        """The line of a name."""
        return next(each for each in self.query(Field) if each.name == name)

    def confirm(self) -> None:
        """Give the names back, none of them blank."""
        for name, ask, _ in self.asks:
            if not self._line(name).value:
                self.complain(say(N_("“{ask}” has no answer yet."), ask=say(ask)))
                self._line(name).focus()
                return
        told = {name: self._line(name).value for name, _, _ in self.asks}
        sentence = self.attempt(told)
        self.complain(sentence)
        if not sentence:
            self.dismiss(told)
