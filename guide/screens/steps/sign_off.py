"""The sign-off: what is handed over, by whom, and what it means."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from guide.front.results import MEANINGS
from guide.plain import N_
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field


class SignOffForm(Form):
    """A summary, then the name typed by the one who signs."""

    DEFAULT_CSS = "SignOffForm .summary { padding: 0 2; margin: 0 0 1 0; height: auto; }"

    def __init__(self, summary: Sequence[tuple[str, str]], people: Sequence[str] = ()) -> None:
        super().__init__()
        self.summary, self.people = tuple(summary), tuple(people)

    def compose(self) -> ComposeResult:
        """What is handed over, the meaning, the name."""
        parts: list[tuple[str, str]] = []
        for title, told in self.summary:
            parts += [(f"{title}: ", "bold"), (f"{told}\n", "")]
        yield Static(Content.assemble(*parts), classes="summary", markup=False)
        options = [(each, say(words)) for each, words in MEANINGS.items()]
        yield Choices("meaning", say(N_("What does your name here mean?")), options)
        yield Field("name", say(N_("Your name, given by you:")), usual=self.people)

    def offers(self) -> tuple[Offer, ...]:
        """One button."""
        return (("record", say(N_("Sign and hand over   ⏎"))),)

    def pressed(self, name: str) -> None:
        """Name and meaning."""
        told = self.told()
        if not told["meaning"]:
            self.complain(say(N_("Say what your name means here.")))
            self.query_one(Choices).focus()
            return
        meaning = MEANINGS[told["meaning"]]
        self.act("record", name=told["name"], meaning=meaning)
