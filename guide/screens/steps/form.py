"""What the form of every kind of step is to the sheet that shows it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from textual.containers import Vertical
from textual.message import Message
from textual.widget import Widget

from guide.plain import N_
from guide.screens.messages import Act, Chosen, Complaint
from guide.screens.tongue import say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.beside_line import BesideLine
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

Offer = tuple[str, str]
"""A button's name and label."""


class Form(Vertical):
    """A page's own part: it takes plain values, posts `Act`, and decides nothing."""

    DEFAULT_CSS = "Form { height: auto; }"
    takes_values = False
    """Whether what an instrument types belongs here: the page reads a dial."""
    hears_every_key = False
    """Whether no key may be kept back, as at a gate, where each counts by its time."""
    sequence = 0
    """The number of the event after which the page was opened."""

    def offers(self) -> tuple[Offer, ...]:
        """The buttons below the sheet, the usual one first."""
        return (("record", say(N_("Record this   ⏎"))),)

    def pressed(self, name: str) -> None:
        """A button was pressed; a form that offers none has nothing to do."""

    def first(self) -> Widget | None:
        """What has the focus when the page opens: the first open question, else the button."""
        return next((each for each in self.asked() if not each.value), None)

    def key_came(self, key: str, at: float) -> None:
        """Any key that nothing else took, with its time in seconds."""

    def act(self, trigger: str, **data: object) -> None:
        """Ask the sheet to enter something."""
        self._tell(Act(trigger, data, self.sequence))

    def complain(self, sentence: str) -> None:
        """Say one sentence in the line for it."""
        self._tell(Complaint(sentence))

    def _tell(self, message: Message) -> None:
        """Straight to the page, in the order in which it is said; of a form that is gone nothing.

        From one container to the next it would be on its way for some hundredths of a frame.
        """
        if self.is_attached:
            self.screen.post_message(message)

    def asked(self) -> list[Choices | Field]:
        """The questions in order."""
        found = [each for each in self.query("Choices, Field") if each.display]
        return [each for each in found if not isinstance(each, BesideLine)]  # type: ignore[misc]

    def onward(self, name: str) -> None:
        """The focus goes from a question to the next one, after the last to the usual button."""
        questions = self.asked()
        names = [each.name for each in questions]
        following = questions[names.index(name) + 1 :] if name in names else []
        if following:
            following[0].focus()
        else:
            self.screen.query_one(ActionBar).focus_first()

    def on_chosen(self, event: Chosen) -> None:
        """An answer was given."""
        event.stop()
        self.chosen(event.name, event.value, event.onward)

    def chosen(self, name: str, value: str, onward: bool) -> None:
        """What an answer changes; a wrong one is said at once and keeps the focus."""
        self.answered(name, value)
        sentence = self.wrong(name, value)
        self.complain(sentence)
        if onward and not sentence:
            self.onward(name)
        elif onward:
            self._show_again(name)

    def _show_again(self, name: str) -> None:
        """The question whose answer was not accepted comes in sight."""
        for each in self.asked():
            if each.name == name:
                self.retype(each)
                self.call_after_refresh(each.scroll_visible, animate=False)

    def retype(self, asked: Choices | Field) -> None:
        """What was typed there and not accepted is typed over."""
        if isinstance(asked, Field):
            asked.retype()

    def one_back(self) -> bool:
        """Whether the form knows better than the page what comes before, and went there."""
        return False

    def answered(self, name: str, value: str) -> None:
        """What else an answer changes."""

    def wrong(self, name: str, value: str) -> str:
        """What is wrong with one answer, as a sentence; blank when nothing is."""
        return ""

    def all_right(self) -> bool:
        """Whether nothing is wrong; else the first wrong answer is said and has the focus."""
        for each in self.asked():
            if sentence := self.wrong(each.name or "", each.value):
                self.complain(sentence)
                each.focus()
                if each.value:
                    self.retype(each)
                return False
        return True

    @property
    def begun(self) -> bool:
        """Whether something was typed already: then nobody moves the page or the focus away."""
        return False

    def kept(self) -> Mapping[str, Any]:
        """What was answered here, for the same page in another language."""
        return self.told()

    def put_back(self, kept: Mapping[str, Any]) -> None:
        """What was answered on the same page in another language."""
        for each in self.asked():
            answer = kept.get(each.name or "", "")
            if isinstance(each, Choices) and answer in dict(each.options):
                each.chosen = answer
                self.answered(each.name or "", answer)
        for each in self.asked():
            if isinstance(each, Field):
                each.put(kept.get(each.name or "", ""))

    def told(self) -> dict[str, str]:
        """Every answer in sight by its name."""
        return {each.name or "": each.value for each in self.asked()}
