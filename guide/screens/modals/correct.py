"""Correcting an answer: which, what it is really, and why."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget

from guide.front.questions import Question
from guide.plain import N_
from guide.present.usual import CORRECTED
from guide.screens.messages import Picked
from guide.screens.modals.window import Window
from guide.screens.page import numbered
from guide.screens.steps.facts import Trouble, question_widget
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press


class Answered(Press):
    """An answer that may be corrected; the one that has the focus has its sign."""

    def render(self) -> Content:
        """The sign of the focus, the question and its answer."""
        return Content(f"{'▸' if self.has_focus else ' '} {self.label}")

    def watch_has_focus(self, has_focus: bool) -> None:
        """The sign moves."""
        super().watch_has_focus(has_focus)
        self.refresh()


class CorrectScreen(Window[dict[str, str]]):
    """Gives back the fact, the new answer and the reason."""

    DEFAULT_CSS = "CorrectScreen #rest { height: auto; }"
    title_text = N_("Correct an answer")
    told_text = N_("The old answer stays on the record beside the new one.")
    yes = N_("Correct it   ⏎")

    def __init__(self, asked: Sequence[Question], trouble: Trouble) -> None:
        super().__init__()
        self.facts = {each.name: each for each in asked}
        self.trouble = trouble
        self.fact = ""

    def questions(self) -> ComposeResult:
        """Every answer as a row; the chosen one is then asked again."""
        with Vertical(id="rest"):
            for place, each in enumerate(self.facts.values(), start=1):
                words = dict(each.options).get(each.given, each.given)
                yield Answered(f"fact:{each.name}", numbered(place, f"{each.ask}  {words}"))

    def first(self) -> Widget:
        """Begin at the first answer."""
        return self.query_one("#rest Press")

    def on_key(self, event: events.Key) -> None:
        """A number picks its row, while one is to be picked."""
        rows = list(self.query(Answered))
        if not self.fact and event.key.isdecimal() and 1 <= int(event.key) <= len(rows):
            rows[int(event.key) - 1].action_press()

    async def on_picked(self, event: Picked) -> None:
        """A row was picked: ask it again."""
        if not event.name.startswith("fact:"):
            return
        event.prevent_default()
        event.stop()
        self.fact = event.name.removeprefix("fact:")
        rest = self.query_one("#rest")
        await rest.remove_children()
        asked = question_widget(self.facts[self.fact])
        await rest.mount(asked, self._why())
        asked.focus()

    def _why(self) -> Field:
        """The reason, with those that are usual."""
        usual = [say(each) for each in CORRECTED]
        return Field("why", say(N_("Why is it corrected?")), usual=usual)

    def confirm(self) -> None:
        """Give it back when it can be read and has a reason."""
        if not self.fact:
            self.complain(say(N_("First pick the answer that is to be corrected.")))
            return
        new, why = self.asked()
        assert isinstance(new, Choices | Field)
        sentence = self.trouble(self.fact, new.value)
        if not sentence and not why.value:
            sentence = say(N_("A reason is wanted for the record. Say it in a few words."))
        if sentence:
            self.complain(sentence)
            wrong = why if new.value and not self.trouble(self.fact, new.value) else new
            wrong.focus()
            if isinstance(wrong, Field) and wrong.value:
                wrong.retype()
        else:
            self.dismiss({"fact": self.fact, "new": new.value, "why": why.value})
