"""Correcting an answer: which, what it is really, and why."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widget import Widget

from guide.front.questions import Question
from guide.plain import N_
from guide.present.usual import CORRECTED
from guide.screens.messages import Picked
from guide.screens.modals.window import Window
from guide.screens.steps.facts import Trouble, question_widget
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press


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
            for each in self.facts.values():
                words = dict(each.options).get(each.given, each.given)
                yield Press(f"fact:{each.name}", f"{each.ask}  {words}")

    def first(self) -> Widget:
        """Begin at the first answer."""
        return self.query_one("#rest Press")

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
        else:
            self.dismiss({"fact": self.fact, "new": new.value, "why": why.value})
