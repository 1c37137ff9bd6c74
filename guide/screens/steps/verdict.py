"""A verdict: the figures, what they say in words, and the decisions that are open."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from guide.front.results import Result
from guide.plain import N_
from guide.present.usual import STOPPED
from guide.screens.steps.form import Form
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices, Option
from guide.screens.widgets.field import Field
from guide.screens.widgets.large import Large


class VerdictForm(Form):
    """What was found, then what is decided; stopping asks for a reason."""

    DEFAULT_CSS = "VerdictForm .result { padding: 0 2; margin: 0 0 1 0; height: auto; }"

    def __init__(
        self, results: Sequence[Result], decisions: Sequence[Option], advised: str = ""
    ) -> None:
        super().__init__()
        self.results, self.decisions = tuple(results), tuple(decisions)
        self.advised = advised

    def compose(self) -> ComposeResult:
        """Results above, decisions below."""
        for each in self.results:
            if each.word:
                yield Large(each.word, f"{each.name}: {each.verdict}")
            yield Static(_shown(each), classes="result", markup=False)
        if self.advised:
            yield Static(self.advised, classes="result", markup=False)
        yield Choices("decision", say(N_("What is decided?")), self.decisions)
        yield Field("why", say(N_("Why is it stopped? (for the record)")),
                    usual=[say(each) for each in STOPPED])  # fmt: skip

    def on_mount(self) -> None:
        """The reason is asked only when stopping."""
        for field in self.query(Field):
            field.display = False

    def first(self) -> Widget:
        """The decisions."""
        return self.query_one(Choices)

    def answered(self, name: str, value: str) -> None:
        """Stopping shows the line for the reason."""
        if name == "decision":
            self.query_one(Field).display = value == "stop"

    def pressed(self, name: str) -> None:
        """The decision, with its reason."""
        decision = self.query_one(Choices).value
        if not decision:
            self.complain(say(N_("Nothing is decided yet. Choose one of the answers.")))
            self.query_one(Choices).focus()
            return
        why = self.query_one(Field).value
        self.act("record", decision=decision, **({"why": why} if decision == "stop" else {}))


def _shown(result: Result) -> Content:
    """One result: the verdict in words first, then its figures, flags and causes."""
    parts = [] if result.word else [(f"{result.name}: ", "bold"), (result.verdict, "bold $accent")]
    parts.append(("\n".join(("", *result.lines) if parts else result.lines), ""))
    for sentence, causes in result.flags:
        parts.append((f"\n! {sentence}", "$warning"))
        parts += [(f"\n    – {cause}", "$quiet") for cause in causes]
    return Content.assemble(*parts)
