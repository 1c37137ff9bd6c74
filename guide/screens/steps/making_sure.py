"""Making sure: the whole machine state, one variable a line, nothing chosen beforehand."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from textual.app import ComposeResult
from textual.widgets import Static

from guide.front.looks import Look
from guide.plain import N_
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices, Option

Answers = Callable[[str], Mapping[str, tuple[Option, ...]]]
"""For an answer about the power, what may be seen of each variable."""


class LookForm(Form):
    """What is seen, line by line, becomes the machine state."""

    def __init__(
        self, looks: Sequence[Look], answers: Answers, rule: Callable[[str], str], trigger: str
    ) -> None:
        super().__init__()
        self.looks, self.answers, self.rule, self.trigger = tuple(looks), answers, rule, trigger

    def compose(self) -> ComposeResult:
        """The rule of the wrench, then a line for each variable."""
        yield Static(self.rule(""), classes="how", markup=False, id="rule")
        answers = self.answers("")
        for each in self.looks:
            recorded = say(N_("recorded last: {value}"), value=each.recorded)
            yield Choices(
                each.name,
                each.ask,
                answers[each.name],
                note=recorded if each.recorded else "",
                classes="tight",
            )

    def offers(self) -> tuple[Offer, ...]:
        """One button, for when every line is answered."""
        return (("record", say(N_("This is what I see   ⏎"))),)

    def answered(self, name: str, value: str) -> None:
        """Once the power is answered, what a wrench can tell may be answered or not."""
        if name != "power":
            return
        answers = self.answers(value)
        for each in self.asked():
            if isinstance(each, Choices) and each.options != answers[each.name or ""]:
                each.offer(answers[each.name or ""])
        self.query_one("#rule", Static).update(self.rule(value))

    def pressed(self, name: str) -> None:
        """All lines are answered, or the first open one is shown."""
        missing = self.first()
        if isinstance(missing, Choices):
            self.complain(say(N_("“{ask}” has no answer yet. Look, and choose one."),
                              ask=missing.question))  # fmt: skip
            missing.focus()
            return
        self.act(self.trigger, seen=self.told())
