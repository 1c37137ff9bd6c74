"""Facts: one question a line of the form, answered as typed or chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult

from guide.screens.steps.form import Form
from guide.screens.widgets.choices import Choices, Option
from guide.screens.widgets.field import Field

Trouble = Callable[[str, str], str]
"""What is wrong with an answer to a question, as a sentence; blank when nothing is."""


@dataclass(frozen=True, slots=True)
class Question:
    """One fact as it is asked."""

    name: str
    ask: str
    help: str
    options: tuple[Option, ...]
    """What may be chosen; empty where it is typed."""
    may_be_unknown: bool
    given: str
    """What was answered before, if it was."""


class FactsForm(Form):
    """All questions of a step."""

    def __init__(self, questions: Sequence[Question], trouble: Trouble) -> None:
        super().__init__()
        self.questions, self.trouble = tuple(questions), trouble

    def compose(self) -> ComposeResult:
        """Rows to choose from, or a line to type on."""
        for each in self.questions:
            yield question_widget(each)

    def pressed(self, name: str) -> None:
        """Everything answered is entered; the first that cannot be is said and shown."""
        if self.all_right():
            self.act("record", facts=self.told())

    def wrong(self, name: str, value: str) -> str:
        """Every question has to be answered, and so that it can be read."""
        return self.trouble(name, value)


def question_widget(each: Question) -> Choices | Field:
    """The widget that asks a question."""
    if each.options:
        return Choices(each.name, each.ask, each.options, chosen=each.given, help=each.help)
    return Field(
        each.name,
        each.ask,
        value=each.given,
        help=each.help,
        may_be_unknown=each.may_be_unknown,
    )
